/**
 * Draws sales with uPlot: by grade on a logarithmic price scale, or over time. The library scales, draws axes and takes the pointer; the marks –
 * full, hollow, upper bound, band, centre, offer, ceiling – are ours, in the house's own tokens. No statistics here.
 */
import uPlot from 'uplot'
import 'uplot/dist/uPlot.min.css'
import type { MatchedPoint } from '../../domain/valuation.ts'

export type PlotView = 'grade' | 'time'

export interface PlotWords {
  /** Of an amount. */
  money(amount: number): string
  date(seconds: number): string
  raw: string
}

export interface SalesPicture {
  readonly points: readonly MatchedPoint[]
  readonly centre: number | null
  readonly band: readonly [number, number] | null
  readonly ask: number | null
  readonly ceiling: number | null
  /** Today, seconds since 1970. */
  readonly now: number
}

export interface SalesPlot {
  resize(width: number): void
  /** Marks one point, by its place among the points; `null`: none. */
  point(place: number | null): void
  destroy(): void
}

const RADIUS = 4.5
/** A sale this old is drawn as light as they get. Years; twice the half-life of its weight. */
const OLD_YEARS = 4
const GROUND_ALPHA = 0.25
const YEAR = 365.25 * 86_400

/** Grades from the lowest to the highest, raw cards below. */
export function gradeRows(points: readonly MatchedPoint[]): readonly (string | null)[] {
  const grades = [...new Set(points.map(({ grade }) => grade))]
  const order = (grade: string | null) => (grade === null ? -1 : Number.isNaN(Number(grade)) ? 0 : Number(grade))
  return grades.sort((a, b) => order(a) - order(b))
}

/** A little up or down, the same for the same sale, so that equal prices stay apart. */
function wobble(id: string): number {
  let sum = 0
  for (let i = 0; i < id.length; i++) sum = (sum * 31 + id.charCodeAt(i)) | 0
  return ((sum >>> 0) % 1000) / 1000 - 0.5
}

interface Inks {
  readonly ink: string
  readonly soft: string
  readonly rule: string
  readonly streak: string
  readonly wash: string
  readonly paper: string
}

function inksOf(element: HTMLElement): Inks {
  // Custom properties hold `light-dark()`, which a canvas cannot read: a probe's computed colour can.
  const probe = document.createElement('span')
  element.append(probe)
  const read = (name: string) => {
    probe.style.color = `var(--${name})`
    return getComputedStyle(probe).color
  }
  const inks = {
    ink: read('ink'),
    soft: read('ink-soft'),
    rule: read('rule'),
    streak: read('streak'),
    wash: read('streak-wash'),
    paper: read('paper-raised'),
  }
  probe.remove()
  return inks
}

export function plotSales(
  element: HTMLElement,
  picture: SalesPicture,
  view: PlotView,
  words: PlotWords,
  size: { readonly width: number; readonly height: number; readonly small: boolean },
): SalesPlot {
  const { points, centre, band, ask, ceiling, now } = picture
  const inks = inksOf(element)
  const rows = gradeRows(points)
  const seconds = points.map(({ date }) => Date.parse(`${date.slice(0, 10)}T00:00:00Z`) / 1000)
  const prices = points.map(({ amount }) => Number(amount))
  const places = points.map(({ grade, sale }) => rows.indexOf(grade) + 0.55 * wobble(sale))
  const marks = [...prices, ...(band ?? []), ...[centre, ask, ceiling].filter((mark) => mark !== null)].filter(
    (mark) => mark > 0,
  )
  const low = Math.min(...marks) / 1.12
  const high = Math.max(...marks) * 1.12
  const [xs, ys] = view === 'grade' ? [prices, places] : [seconds, prices]
  let marked: number | null = null

  const log = { distr: 3 as const, log: 10 as const, range: (): [number, number] => [low, high] }
  const byGrade = view === 'grade'
  const font = `${size.small ? 11 : 12}px ${getComputedStyle(element).fontFamily}`
  const axis = {
    stroke: inks.soft,
    grid: { stroke: inks.rule, width: 1 },
    ticks: { stroke: inks.rule, width: 1, size: 4 },
    font,
  }
  const priceAxis = {
    ...axis,
    // A label takes about so many pixels; along the price axis of a time view there is room for all.
    splits: (u: uPlot) =>
      niceSplits(
        low,
        high,
        byGrade ? Math.max(2, Math.floor((u.bbox.width / uPlot.pxRatio || size.width - 60) / 78)) : 6,
      ),
    values: (_: uPlot, splits: number[]) => splits.map((value) => words.money(value)),
    filter: (_: uPlot, splits: number[]) => splits,
  }

  const draw = (u: uPlot) => {
    const { ctx } = u
    const ratio = uPlot.pxRatio
    const { left, top, width, height } = u.bbox
    const at = (x: number, y: number): [number, number] => [u.valToPos(x, 'x', true), u.valToPos(y, 'y', true)]
    ctx.save()
    ctx.beginPath()
    ctx.rect(left, top, width, height)
    ctx.clip()
    const line = (value: number | null, dash: number[], colour: string, thick: number) => {
      if (value === null || !(value > 0)) return
      ctx.beginPath()
      ctx.setLineDash(dash.map((part) => part * ratio))
      ctx.strokeStyle = colour
      ctx.lineWidth = thick * ratio
      if (byGrade) {
        const x = u.valToPos(value, 'x', true)
        ctx.moveTo(x, top)
        ctx.lineTo(x, top + height)
      } else {
        const y = u.valToPos(value, 'y', true)
        ctx.moveTo(left, y)
        ctx.lineTo(left + width, y)
      }
      ctx.stroke()
      ctx.setLineDash([])
    }
    line(centre, [], inks.streak, 2)
    line(ceiling, [6, 4], inks.ink, 1.5)
    const radius = (size.small ? RADIUS - 1 : RADIUS) * ratio
    points.forEach(({ counted, bound }, i) => {
      const [x, y] = at(xs[i] as number, ys[i] as number)
      const age = (now - (seconds[i] as number)) / YEAR
      ctx.globalAlpha = counted ? Math.max(GROUND_ALPHA, 1 - (age / OLD_YEARS) * (1 - GROUND_ALPHA)) : 0.9
      ctx.beginPath()
      if (bound) {
        // An upper bound: a wedge that opens towards less.
        ctx.moveTo(x + radius, y - radius)
        ctx.lineTo(x - radius, y)
        ctx.lineTo(x + radius, y + radius)
      } else ctx.arc(x, y, radius, 0, 2 * Math.PI)
      ctx.closePath()
      if (counted) {
        ctx.fillStyle = inks.ink
        ctx.fill()
      } else {
        ctx.fillStyle = inks.paper
        ctx.fill()
        ctx.strokeStyle = inks.soft
        ctx.lineWidth = 1.3 * ratio
        ctx.stroke()
      }
    })
    ctx.globalAlpha = 1
    if (ask !== null && ask > 0) {
      line(ask, [2, 3], inks.ink, 1.5)
      const r = 7 * ratio
      ctx.fillStyle = inks.ink
      ctx.beginPath()
      if (byGrade) {
        const x = u.valToPos(ask, 'x', true)
        ctx.moveTo(x, top + 1.6 * r)
        ctx.lineTo(x - r, top)
        ctx.lineTo(x + r, top)
      } else {
        const y = u.valToPos(ask, 'y', true)
        ctx.moveTo(left + width - 1.6 * r, y)
        ctx.lineTo(left + width, y - r)
        ctx.lineTo(left + width, y + r)
      }
      ctx.fill()
    }
    if (marked !== null && points[marked] !== undefined) {
      const [x, y] = at(xs[marked] as number, ys[marked] as number)
      ctx.strokeStyle = inks.streak
      ctx.lineWidth = 2.5 * ratio
      ctx.beginPath()
      ctx.arc(x, y, radius + 3 * ratio, 0, 2 * Math.PI)
      ctx.stroke()
    }
    ctx.restore()
  }

  const drawBand = (u: uPlot) => {
    if (band === null) return
    const { left, top, width, height } = u.bbox
    u.ctx.fillStyle = inks.wash
    const scale = byGrade ? 'x' : 'y'
    const [from, to] = [u.valToPos(band[0], scale, true), u.valToPos(band[1], scale, true)]
    if (byGrade) u.ctx.fillRect(from, top, to - from, height)
    else u.ctx.fillRect(left, to, width, from - to)
  }

  // In order of the horizontal axis, as the library asks; the marks are drawn from our own lists.
  const order = xs.map((_, i) => i).sort((a, b) => (xs[a] as number) - (xs[b] as number))
  const plot = new uPlot(
    {
      width: size.width,
      height: size.height,
      padding: [8, 12, 0, 0],
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: byGrade ? { time: false, ...log } : { time: true },
        y: byGrade ? { range: [-0.6, rows.length - 0.4] } : log,
      },
      axes: [
        byGrade
          ? { ...priceAxis, size: 26 }
          : {
              ...axis,
              grid: { show: false },
              values: (_, splits) => splits.map((value) => words.date(value)),
              space: 90,
              size: 26,
            },
        byGrade
          ? {
              ...axis,
              splits: () => rows.map((_, i) => i),
              values: () => rows.map((grade) => grade ?? words.raw),
              size: size.small ? 40 : 48,
            }
          : { ...priceAxis, size: size.small ? 60 : 72 },
      ],
      series: [{}, { paths: () => null, points: { show: false } }],
      hooks: { drawClear: [drawBand], draw: [draw] },
    },
    [order.map((i) => xs[i] as number), order.map((i) => ys[i] as number)],
    element,
  )
  // Pictures for eyes only: whoever reads by ear has the table.
  plot.root.setAttribute('aria-hidden', 'true')
  return {
    resize: (width) => plot.setSize({ width, height: size.height }),
    point(place) {
      marked = place
      plot.redraw(false)
    },
    destroy: () => plot.destroy(),
  }
}

/** Round amounts on a logarithmic scale, about as many as asked for. */
function niceSplits(low: number, high: number, most: number): number[] {
  const sets = [[1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8], [1, 1.5, 2, 3, 5, 7], [1, 2, 5], [1, 3], [1]]
  for (const steps of sets) {
    const found: number[] = []
    for (let power = Math.floor(Math.log10(low)); power <= Math.ceil(Math.log10(high)); power++) {
      for (const step of steps) {
        const value = step * 10 ** power
        if (value >= low && value <= high) found.push(Number(value.toPrecision(3)))
      }
    }
    if (found.length <= most && found.length > 0) return found
  }
  return [Number(Math.sqrt(low * high).toPrecision(2))]
}
