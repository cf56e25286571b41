/** What a tool of the light table reads under it: own pixels, colours, lightness along a line. For the eye; no verdict is made of it. */
import { type Signal, useSignalEffect } from '@preact/signals'
import { formatHex } from 'culori'
import { useRef, useState } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { paintOwnPixels } from './paint.ts'
import { colourDifference, type ProfileSample, readColour, readProfile, riseOf } from './read-pixels.ts'
import type { SquarePicture } from './square-picture.ts'
import type { Place } from './view.ts'

interface ReadoutProps {
  readonly probe: Signal<Place | null>
  readonly questioned: SquarePicture
  readonly exemplar: SquarePicture | null
}

const LOUPE_PX = 208
const WIDTHS_MM = [1.5, 3, 6] as const

export function Loupe({ probe, questioned, exemplar }: ReadoutProps) {
  const { t, number } = useWording()
  const [across, setAcross] = useState<number>(3)
  return (
    <section class="readout" aria-label={t('tool.loupe')}>
      <div class="loupes">
        <OwnPixels probe={probe} square={questioned} across={across} label={t('table.questioned')} />
        {exemplar !== null && <OwnPixels probe={probe} square={exemplar} across={across} label={t('table.exemplar')} />}
      </div>
      <div class="readout-words">
        <p>{t('loupe.explained')}</p>
        <fieldset class="segments" aria-label={t('loupe.across')}>
          {WIDTHS_MM.map((mm) => (
            <button key={mm} type="button" aria-pressed={mm === across} onClick={() => setAcross(mm)}>
              {t('loupe.mm', { mm: number(mm) })}
            </button>
          ))}
        </fieldset>
      </div>
    </section>
  )
}

function OwnPixels({
  probe,
  square,
  across,
  label,
}: {
  probe: Signal<Place | null>
  square: SquarePicture
  across: number
  label: string
}) {
  const { t, number } = useWording()
  const canvas = useRef<HTMLCanvasElement>(null)
  const wanted = useRef(0)
  useSignalEffect(() => {
    const at = probe.value
    if (at === null) return
    cancelAnimationFrame(wanted.current)
    wanted.current = requestAnimationFrame(() => {
      const surface = canvas.current
      const context = surface?.getContext('2d')
      if (!surface || !context) return
      const ratio = Math.min(globalThis.devicePixelRatio || 1, 2)
      surface.width = LOUPE_PX * ratio
      surface.height = LOUPE_PX * ratio
      paintOwnPixels(context, square, at, across, LOUPE_PX * ratio)
    })
  })
  return (
    <figure class="loupe">
      <canvas ref={canvas} key={across} role="img" aria-label={t('loupe.label', { picture: label })} />
      <figcaption>
        {label}
        <span class="quiet">
          {t('table.px', { pxPerMm: number(square.photoPxPerMm, { maximumFractionDigits: 1 }) })}
        </span>
      </figcaption>
    </figure>
  )
}

export function ColourReadout({ probe, questioned, exemplar }: ReadoutProps) {
  const { t, number } = useWording()
  const at = probe.value
  if (at === null) return <p class="readout hint">{t('colour.hint')}</p>
  const rows = [
    ['questioned', readColour(questioned, at)],
    ...(exemplar === null ? [] : [['exemplar', readColour(exemplar, at)] as const]),
  ] as const
  const [a, b] = [rows[0]![1], rows[1]?.[1] ?? null]
  const figure = (value: number) => number(value, { minimumFractionDigits: 1, maximumFractionDigits: 1 })
  return (
    <section class="readout" aria-label={t('tool.colour')}>
      <table class="colour-table">
        <thead>
          <tr>
            <th scope="col">{t('colour.place', { x: figure(at.x), y: figure(at.y) })}</th>
            <th scope="col">L*</th>
            <th scope="col">a*</th>
            <th scope="col">b*</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([which, lab]) => (
            <tr key={which}>
              <th scope="row">
                <span class="swatch" style={{ background: lab === null ? 'none' : formatHex(lab) }} />
                {t(`table.${which}`)}
              </th>
              {lab === null ? (
                <td colSpan={3}>{t('colour.outside')}</td>
              ) : (
                [lab.l, lab.a, lab.b].map((value, index) => <td key={'Lab'[index]}>{figure(value)}</td>)
              )}
            </tr>
          ))}
        </tbody>
      </table>
      <div class="readout-words">
        {a !== null && b !== null && (
          <p class="colour-apart">{t('colour.apart', { delta: figure(colourDifference(a, b)) })}</p>
        )}
        <p class="hint">{t('colour.unbalanced')}</p>
      </div>
    </section>
  )
}

interface ProfilePlotProps {
  readonly line: Signal<{ readonly from: Place; readonly to: Place } | null>
  readonly questioned: SquarePicture
  readonly exemplar: SquarePicture | null
}

const PLOT = { width: 420, height: 150, left: 34, bottom: 22, top: 8, right: 8 }

export function ProfilePlot({ line, questioned, exemplar }: ProfilePlotProps) {
  const { t, number } = useWording()
  const drawn = line.value
  const length = drawn === null ? 0 : Math.hypot(drawn.to.x - drawn.from.x, drawn.to.y - drawn.from.y)
  if (drawn === null || length < 0.05) return <p class="readout hint">{t('profile.hint')}</p>
  const profiles = [
    ['questioned', readProfile(questioned, drawn.from, drawn.to)] as const,
    ...(exemplar === null ? [] : [['exemplar', readProfile(exemplar, drawn.from, drawn.to)] as const]),
  ]
  const x = (mm: number) => PLOT.left + (mm / length) * (PLOT.width - PLOT.left - PLOT.right)
  const y = (lightness: number) => PLOT.top + (1 - lightness / 100) * (PLOT.height - PLOT.top - PLOT.bottom)
  const path = (samples: readonly ProfileSample[]) =>
    samples
      .map(({ mm, lightness }, index) => `${index === 0 ? 'M' : 'L'}${x(mm).toFixed(1)} ${y(lightness).toFixed(1)}`)
      .join('')
  const figure = (value: number) => number(value, { maximumFractionDigits: 2 })
  return (
    <section class="readout" aria-label={t('tool.profile')}>
      <svg
        class="profile-plot"
        viewBox={`0 0 ${PLOT.width} ${PLOT.height}`}
        role="img"
        aria-label={t('profile.label', { mm: figure(length) })}
      >
        {[0, 50, 100].map((level) => (
          <g key={level}>
            <path class="plot-rule" d={`M${PLOT.left} ${y(level)}H${PLOT.width - PLOT.right}`} />
            <text x={PLOT.left - 5} y={y(level) + 4} text-anchor="end">
              {level}
            </text>
          </g>
        ))}
        <text x={PLOT.left} y={PLOT.height - 5}>
          0
        </text>
        <text x={PLOT.width - PLOT.right} y={PLOT.height - 5} text-anchor="end">
          {t('profile.mm', { mm: figure(length) })}
        </text>
        <text x="2" y="12">
          L*
        </text>
        {profiles.map(([which, samples]) => (
          <path key={which} class={`plot-line plot-${which}`} d={path(samples)} />
        ))}
      </svg>
      <div class="readout-words">
        <ul class="plot-legend">
          {profiles.map(([which, samples]) => {
            const rise = riseOf(samples)
            return (
              <li key={which}>
                <svg class="plot-key" viewBox="0 0 24 8" aria-hidden="true">
                  <path class={`plot-line plot-${which}`} d="M1 4h22" />
                </svg>
                {t(`table.${which}`)}
                {': '}
                {rise === null ? t('profile.no-edge') : t('profile.rise', { rise: number(Math.round(rise)) })}
              </li>
            )
          })}
        </ul>
        <p class="hint">{t('profile.explained')}</p>
      </div>
    </section>
  )
}
