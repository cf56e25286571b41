/**
 * One examination, in its order: the questioned piece alone and the notes locked, then beside the exemplar, point by point. What the
 * person does not lock is not compared; what was locked is not altered.
 */
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Examination, ExaminationRecord, ExemplarRecord } from '../../domain/examination.ts'
import { BlobImage } from '../desk/BlobImage.tsx'
import { useDesk } from '../desk/desk-context.ts'
import { Outline } from '../exemplars/PictureFrame.tsx'
import { useDraft } from '../exemplars/use-draft.ts'
import { FaultText } from '../parts/FaultText.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { Conclusion } from './Conclusion.tsx'
import { Glass } from './Glass.tsx'
import { PointVerdicts } from './PointVerdicts.tsx'
import type { PieceCorners } from './square-picture.ts'
import { useSquare } from './use-square.ts'

const pick = ({ id: _, revision: _r, createdAt: _c, updatedAt: _u, deletedAt: _d, ...rest }: ExaminationRecord) => rest

export function ExaminationView({ record, exemplar }: { record: ExaminationRecord; exemplar: ExemplarRecord }) {
  const { t, dateTime } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const { draft, change, saving, settle } = useDraft<Examination, ExaminationRecord>(record, pick, (next, revision) =>
    ports.saveExamination(record.id, next, revision),
  )
  const [photo, setPhoto] = useState(0)
  const [byHand, setByHand] = useState(false)
  const [piece, setPiece] = useState<string | null>(null)
  const [target, setTarget] = useState<{ readonly point: string; readonly turn: number } | null>(null)
  const [running, setRunning] = useState<AbortController | null>(null)
  const locked = draft.lockedAt !== null
  const { exemplar: issue, stored } = exemplar
  const size = issue.nominalSize
  const questioned = draft.photos[photo] ?? draft.photos[0]!
  const laid = draft.measured?.photos.find(({ file }) => file === questioned.file) ?? null
  const outline = questioned.corners ?? laid?.outline ?? null
  const corners: PieceCorners = outline && { shares: outline }
  const loaded = useSquare(questioned.sha256, corners, size)
  const square = loaded.phase === 'ready' ? loaded.square : null
  const lost = loaded.phase === 'failed' && loaded.fault.code === 'no-card-found'

  const point = issue.points.find(({ id }) => id === target?.point) ?? null
  const side = laid?.side ?? point?.side ?? issue.pictures[0]?.side ?? 'front'
  const pictures = issue.pictures.filter((one) => one.side === side)
  const shown = pictures.find(({ file }) => file === piece) ?? pictures[0] ?? null
  const exemplarLoaded = useSquare(
    locked && shown !== null ? (stored[shown.file]?.sha256 ?? null) : null,
    shown?.corners ? { pixels: shown.corners } : null,
    size,
  )
  const exemplarSquare = exemplarLoaded.phase === 'ready' ? exemplarLoaded.square : null

  const measure = () => {
    if (running !== null) return
    const controller = new AbortController()
    setRunning(controller)
    actions
      .run('measure', async () => {
        const measured = await ports.measure(exemplar, draft.photos, controller.signal)
        change((now) => ({ ...now, measured }))
      })
      .finally(() => setRunning(null))
  }
  // Locking the notes begins the comparison; giving the corners by hand begins it anew.
  const began = useRef(draft.measured !== null)
  useEffect(() => {
    if (!locked || began.current) return
    began.current = true
    measure()
  }, [locked])
  useEffect(() => () => running?.abort(), [running])

  const setCorners = (next: NonNullable<typeof outline>) =>
    change((now) => ({
      ...now,
      photos: now.photos.map((one) => (one.file === questioned.file ? { ...one, corners: next } : one)),
    }))

  const remove = () =>
    actions.run('delete-examination', async () => {
      await settle()
      await ports.deleteExamination(record.id)
      model.go({ section: 'light-table', id: null })
      model.refresh()
      actions.say(t('table.deleted'), () =>
        actions.run('restore-examination', async () => {
          await ports.restoreExamination(record.id)
          model.refresh()
        }),
      )
    })

  return (
    <div class="examination">
      <header class="exemplar-head">
        <a class="link" href="#light-table">
          {t('table.back')}
        </a>
        <h1>{draft.title}</h1>
        <p class="quiet saved-word">
          {saving.phase === 'failed' ? (
            <FaultText fault={saving.fault} />
          ) : (
            t(saving.phase === 'saved' ? 'draft.saved' : 'draft.saving')
          )}
        </p>
        <div class="form-actions">
          <a class="button small" href={`#exemplars/${encodeURIComponent(exemplar.id)}`}>
            {t('table.to-exemplar')}
          </a>
          <button type="button" class="button small" onClick={remove}>
            <Icon name="remove" />
            {t('action.delete')}
          </button>
        </div>
      </header>
      <ol class="stages" aria-label={t('table.stages')}>
        {(['analyse', 'compare', 'conclude'] as const).map((stage, index) => {
          const at = locked ? (draft.measured === null ? 1 : 2) : 0
          return (
            <li
              key={stage}
              aria-current={index === Math.min(at, 1) ? 'step' : undefined}
              class={index < at ? 'is-done' : ''}
            >
              {t(`table.stage.${stage}`)}
            </li>
          )
        })}
      </ol>

      <div class="examination-columns">
        <div>
          {draft.photos.length > 1 && (
            <ul class="picture-strip" aria-label={t('table.photos')}>
              {draft.photos.map(({ file, sha256 }, index) => (
                <li key={file}>
                  <button
                    type="button"
                    class="picture-tab"
                    aria-pressed={index === photo}
                    aria-label={t('table.photo-tab', { number: index + 1, file })}
                    onClick={() => setPhoto(index)}
                  >
                    <BlobImage sha256={sha256} alt="" />
                    <span>{index + 1}</span>
                  </button>
                </li>
              ))}
            </ul>
          )}
          {loaded.phase === 'failed' && !lost && (
            <p role="alert">
              <FaultText fault={loaded.fault} />
            </p>
          )}
          {lost && <p class="field-fault">{t('outline.not-found')}</p>}
          {laid !== null && !laid.registered && (
            <p class="field-fault">
              {laid.cause === null ? (
                <span lang="en">{laid.reason}</span>
              ) : (
                t(`cannot-tell.${laid.cause.code}`, laid.cause.figures)
              )}
            </p>
          )}
          {byHand || lost ? (
            <>
              <Outline
                sha256={questioned.sha256}
                alt={t('table.questioned')}
                corners={corners ?? (square && { shares: square.corners })}
                onChange={setCorners}
              />
              <p class="form-actions">
                <button
                  type="button"
                  class="button"
                  onClick={() => {
                    setByHand(false)
                    if (locked) measure()
                  }}
                >
                  {t('outline.done')}
                </button>
              </p>
            </>
          ) : square === null || (locked && exemplarSquare === null && exemplarLoaded.phase === 'loading') ? (
            loaded.phase !== 'failed' && <div class="plate-waiting">{t('glass.laying')}</div>
          ) : (
            <Glass
              questioned={square}
              exemplar={locked ? exemplarSquare : null}
              target={point === null ? null : { region: point.region, turn: target!.turn }}
            />
          )}
          {!lost && !byHand && (
            <div class="under-glass">
              <button type="button" class="link-button" onClick={() => setByHand(true)}>
                {t('outline.by-hand')}
              </button>
              {locked && pictures.length > 1 && (
                <SelectField
                  label={t('table.piece')}
                  value={shown?.file ?? ''}
                  onChange={setPiece}
                  options={pictures.map(({ file, piece: of }) => ({
                    value: file,
                    text: t('exemplar.piece-name', { name: issue.pieces.find(({ id }) => id === of)?.name ?? of }),
                  }))}
                />
              )}
            </div>
          )}
        </div>

        <div class="examination-side">
          {locked ? (
            <>
              <section class="sheet locked-notes">
                <h2>
                  <Icon name="lock" /> {t('notes.locked')}
                </h2>
                <p class="quiet">{t('notes.locked-at', { time: dateTime(draft.lockedAt!) })}</p>
                <p class="verbatim">{draft.notes}</p>
                <details>
                  <summary>{t('notes.later')}</summary>
                  <TextField
                    label={t('notes.later.label')}
                    value={draft.laterNotes}
                    onChange={(laterNotes) => change((now) => ({ ...now, laterNotes }))}
                    lines={2}
                  />
                </details>
              </section>
              {running !== null ? (
                <section class="sheet measuring" role="status">
                  <p>{t('table.measuring')}</p>
                  <progress aria-label={t('table.measuring')} />
                  <button type="button" class="button small" onClick={() => running.abort()}>
                    {t('action.cancel')}
                  </button>
                </section>
              ) : (
                <PointVerdicts
                  exemplar={exemplar}
                  examination={draft}
                  chosen={target?.point ?? null}
                  questioned={square}
                  exemplarSquare={exemplarSquare}
                  onChoose={(id) => {
                    const next = issue.points.find((one) => one.id === id)
                    const shows = draft.measured?.photos.findIndex((one) => one.registered && one.side === next?.side)
                    const measuredOn = draft.measured?.points.find((one) => one.point === id)?.photo
                    const index = draft.photos.findIndex(({ file }) => file === measuredOn)
                    if (index >= 0) setPhoto(index)
                    else if (shows !== undefined && shows >= 0) setPhoto(shows)
                    setTarget({ point: id, turn: (target?.turn ?? 0) + 1 })
                  }}
                  onJudge={(id, word) =>
                    change((now) => {
                      const { [id]: _before, ...others } = now.judged
                      return { ...now, judged: word === null ? others : { ...others, [id]: word } }
                    })
                  }
                  onMeasure={measure}
                />
              )}
              {draft.measured !== null && running === null && (
                <Conclusion
                  record={record}
                  examination={draft}
                  exemplar={exemplar}
                  settle={settle}
                  onPackage={(id) => change((now) => ({ ...now, packages: [...now.packages, id] }))}
                />
              )}
            </>
          ) : (
            <section class="sheet">
              <h2>{t('notes.heading')}</h2>
              <p>{t('notes.explained')}</p>
              <ul class="notes-prompts">
                {(['print', 'colour', 'edges', 'surface', 'photo'] as const).map((prompt) => (
                  <li key={prompt}>{t(`notes.prompt.${prompt}`)}</li>
                ))}
              </ul>
              <TextField
                label={t('notes.label')}
                value={draft.notes}
                onChange={(notes) => change((now) => ({ ...now, notes }))}
                lines={6}
              />
              <div class="form-actions">
                <button
                  type="button"
                  class="button primary"
                  disabled={draft.notes.trim() === '' || square === null}
                  onClick={() => change((now) => ({ ...now, lockedAt: ports.now() }))}
                >
                  <Icon name="lock" />
                  {t('notes.lock')}
                </button>
                <p class="hint">{t(draft.notes.trim() === '' ? 'notes.lock.empty' : 'notes.lock.hint')}</p>
              </div>
            </section>
          )}
        </div>
      </div>
    </div>
  )
}
