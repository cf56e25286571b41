/**
 * The points of the exemplar with what each comparison ended in: word, shape, figures or the reason why nothing can be told, and whether
 * its agreement weighs anything. A chosen point shows its two crops and takes the person's word.
 */
import { useEffect, useRef } from 'preact/hooks'
import type { Examination, ExemplarRecord, PersonsVerdict } from '../../domain/examination.ts'
import { concludePoint } from '../../domain/examination.ts'
import { type ExemplarPoint, type PointComparison, type Region, VERDICTS } from '../../domain/exemplar.ts'
import { defaultToleranceOf, unitOf } from '../../domain/exemplar-kinds.ts'
import { TextField } from '../parts/fields.tsx'
import { VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { paintMark, paintPicture } from './paint.ts'
import type { SquarePicture } from './square-picture.ts'
import { viewOfRegion } from './view.ts'

interface PointVerdictsProps {
  readonly exemplar: ExemplarRecord
  readonly examination: Examination
  readonly chosen: string | null
  readonly questioned: SquarePicture | null
  readonly exemplarSquare: SquarePicture | null
  readonly onChoose: (id: string) => void
  readonly onJudge: (id: string, word: PersonsVerdict | null) => void
  readonly onMeasure: () => void
}

export function PointVerdicts(props: PointVerdictsProps) {
  const { exemplar, examination, chosen, onChoose, onMeasure } = props
  const { t } = useWording()
  const { points, copies } = exemplar.exemplar
  const { measured, judged } = examination
  if (points.length === 0)
    return (
      <section class="sheet">
        <h2>{t('points.heading')}</h2>
        <p>{t('verdicts.no-points')}</p>
      </section>
    )
  const missing = points.some(({ id }) => !measured?.points.some((one) => one.point === id))
  return (
    <section class="sheet verdicts">
      <h2>
        {t('points.heading')}
        <span class="count">{points.length}</span>
      </h2>
      {measured === null || missing ? (
        <p class="form-actions">
          <button type="button" class="button primary" onClick={onMeasure}>
            {t(measured === null ? 'verdicts.measure' : 'verdicts.measure-again')}
          </button>
        </p>
      ) : null}
      <ol class="verdict-rows">
        {points.map((point, index) => {
          const found = measured?.points.find((one) => one.point === point.id) ?? unmeasured(point)
          const word = judged[point.id]
          const ended = concludePoint(found, word)
          const passing = copies.filter(({ id }) => point.copies[id] === 'passes').map(({ name }) => name)
          const open = chosen === point.id
          return (
            <li key={point.id} class={`verdict-row${open ? ' is-open' : ''} verdict-is-${ended.verdict}`}>
              <button type="button" class="verdict-open" aria-expanded={open} onClick={() => onChoose(point.id)}>
                <span class="point-number">{index + 1}</span>
                <span class="verdict-words">
                  <span class="point-name">{point.name}</span>
                  <span class="verdict-ended">
                    <VerdictShape verdict={ended.verdict} />
                    {measured === null && word === undefined ? t('verdicts.not-yet') : t(`verdict.${ended.verdict}`)}
                    {word !== undefined && <span class="quiet">{t('verdicts.by-you')}</span>}
                  </span>
                  {measured !== null && <Figures found={found} point={point} />}
                  {ended.verdict === 'agrees' && passing.length > 0 && <WeighsNothing passing={passing} />}
                </span>
              </button>
              {open && <OpenPoint {...props} point={point} found={found} word={word} passing={passing} />}
            </li>
          )
        })}
      </ol>
    </section>
  )
}

/** A point that was added after the comparison. */
function unmeasured(point: ExemplarPoint): PointComparison {
  return {
    point: point.id,
    kind: point.kind,
    verdict: 'cannot-tell',
    value: null,
    unit: unitOf(point),
    uncertainty: null,
    exemplar: null,
    tolerance: point.tolerance ?? defaultToleranceOf(point),
    reason: '',
    cause: null,
    photo: null,
  }
}

function WeighsNothing({ passing }: { passing: readonly string[] }) {
  const { t, list } = useWording()
  return <span class="weighs-nothing">{t('verdicts.weighs-nothing', { makes: list(passing) })}</span>
}

function Figures({ found, point }: { found: PointComparison; point: ExemplarPoint }) {
  const { t, number } = useWording()
  const { value, exemplar, unit, uncertainty, tolerance, cause, reason } = found
  if (point.kind === 'judged' && value === null) return <span class="quiet">{t('verdicts.judge-it')}</span>
  if (value === null || exemplar === null)
    return (
      <span class="verdict-reason-line">
        {cause !== null ? (
          cause.on === null ? (
            t(`cannot-tell.${cause.code}`, cause.figures)
          ) : (
            t(`cannot-tell-on.${cause.on}`, { sentence: t(`cannot-tell.${cause.code}`, cause.figures) })
          )
        ) : reason === '' ? (
          t('verdicts.not-yet')
        ) : (
          <span lang="en">{reason}</span>
        )}
      </span>
    )
  const amount = (figure: number) => number(figure, { maximumFractionDigits: unit === 'µm' || unit === 'lpi' ? 0 : 2 })
  return (
    <span class="verdict-figures-line">
      {t('verdicts.figures', {
        value: amount(value),
        uncertainty: uncertainty === null ? '–' : amount(uncertainty),
        exemplar: amount(exemplar),
        tolerance: amount(tolerance),
        unit: unit === 'counters' ? t('unit.counters') : unit,
      })}
    </span>
  )
}

interface OpenPointProps extends PointVerdictsProps {
  readonly point: ExemplarPoint
  readonly found: PointComparison
  readonly word: PersonsVerdict | undefined
  readonly passing: readonly string[]
}

function OpenPoint({ point, found, word, questioned, exemplarSquare, onJudge }: OpenPointProps) {
  const { t, number } = useWording()
  const judging = point.kind === 'judged'
  const name = `word-${point.id}`
  return (
    <div class="open-point">
      <div class="crop-pair">
        {questioned !== null && <Crop square={questioned} region={point.region} label={t('table.questioned')} />}
        {exemplarSquare !== null && <Crop square={exemplarSquare} region={point.region} label={t('table.exemplar')} />}
      </div>
      {point.why !== '' && <p>{point.why}</p>}
      {point.copiesDo !== '' && (
        <p>
          <strong>{t('point.copies-do')}</strong> {point.copiesDo}
        </p>
      )}
      {found.pxPerMm != null && found.neededPxPerMm !== undefined && (
        <p class="hint">
          {t('verdicts.resolution', {
            pxPerMm: number(found.pxPerMm, { maximumFractionDigits: 1 }),
            needed: number(found.neededPxPerMm, { maximumFractionDigits: 1 }),
          })}
        </p>
      )}
      {found.toleranceFrom !== undefined && <p class="hint">{t(`verdicts.tolerance.${found.toleranceFrom}`)}</p>}
      <fieldset class="word-choice">
        <legend>
          {judging
            ? point.kind === 'judged' && point.question !== ''
              ? point.question
              : t('verdicts.judge')
            : t('verdicts.your-word')}
        </legend>
        <label class="choice">
          <input type="radio" name={name} checked={word === undefined} onChange={() => onJudge(point.id, null)} />
          {t(judging ? 'verdicts.not-yet' : 'verdicts.as-measured')}
        </label>
        {VERDICTS.map((verdict) => (
          <label key={verdict} class="choice">
            <input
              type="radio"
              name={name}
              checked={word?.verdict === verdict}
              onChange={() => onJudge(point.id, { verdict, words: word?.words ?? '' })}
            />
            <VerdictShape verdict={verdict} />
            {t(`verdict.${verdict}`)}
          </label>
        ))}
      </fieldset>
      {word !== undefined && (
        <TextField
          label={t(word.verdict === 'differs-explained' ? 'verdicts.explain' : 'verdicts.words')}
          value={word.words}
          fault={word.verdict === 'differs-explained' && word.words.trim() === '' ? t('verdicts.explain.fault') : null}
          onChange={(words) => onJudge(point.id, { verdict: word.verdict, words })}
        />
      )}
    </div>
  )
}

const CROP = { width: 220, height: 160 }

export function Crop({ square, region, label }: { square: SquarePicture; region: Region; label: string }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  useEffect(() => {
    const surface = canvas.current
    const context = surface?.getContext('2d')
    if (!surface || !context) return
    const ratio = Math.min(globalThis.devicePixelRatio || 1, 2)
    surface.width = CROP.width * ratio
    surface.height = CROP.height * ratio
    context.setTransform(ratio, 0, 0, ratio, 0, 0)
    const pane = { ...CROP, context, ratio, view: viewOfRegion(region, CROP) }
    paintPicture(pane, square)
    paintMark(pane, region)
  }, [square, region])
  return (
    <figure class="crop">
      <canvas ref={canvas} role="img" aria-label={label} />
      <figcaption>{label}</figcaption>
    </figure>
  )
}
