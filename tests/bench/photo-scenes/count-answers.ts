/** A line for each scene, and the tables that are derived from those lines and from nothing else. */
import type { SceneTruth, SceneView } from './scene-truth.ts'

export interface SceneLine {
  readonly seed: number
  readonly family: string
  readonly truth: SceneView
  readonly difficulty: 'normal' | 'hard'
  readonly faults: readonly string[]
  readonly design: string
  readonly table: string
  readonly holderKind: SceneTruth['holderKind']
  readonly answer: string
  readonly evidence: readonly string[]
  readonly saidHolderKind: string | null
  /** Jaccard index of card and holder: `null` where the truth has none in frame, 0 where none was given. */
  readonly cardIou: number | null
  readonly holderIou: number | null
  readonly pxPerMm: number
  readonly saidPxPerMm: number | null
  readonly milliseconds: number
}

const per = (part: number, whole: number) =>
  whole === 0 ? '    –' : `${((100 * part) / whole).toFixed(1)}`.padStart(5)

function row(name: string, lines: readonly SceneLine[]): string {
  const told = lines.filter((line) => line.answer !== 'cannot-tell')
  const right = told.filter((line) => line.answer === line.truth)
  return `${name.padEnd(24)}${String(lines.length).padStart(5)}${per(right.length, lines.length)} %${per(told.length - right.length, lines.length)} %${per(lines.length - told.length, lines.length)} %`
}

/** Packaging and tables show no view: `cannot-tell` is the right answer to them and is not held against anyone. */
export function writeTables(lines: readonly SceneLine[]): string {
  const by = (key: (line: SceneLine) => string) =>
    [...new Set(lines.map(key))].sort().map((name) =>
      row(
        name,
        lines.filter((line) => key(line) === name),
      ),
    )
  const views = lines.filter((line) => line.truth !== 'other')
  const quads = (name: string, of: readonly SceneLine[], iou: (line: SceneLine) => number | null, least: number) => {
    const known = of.map(iou).filter((value): value is number => value !== null)
    const good = known.filter((value) => value >= least).length
    const given = known.filter((value) => value > 0)
    const median = [...given].sort((a, b) => a - b)[given.length >> 1] ?? 0
    return `${name.padEnd(24)}${String(known.length).padStart(5)}   ≥ ${least}: ${per(good, known.length)} %   none: ${per(known.length - given.length, known.length)} %   median of given ${median.toFixed(3)}`
  }
  const wholeCards = lines.filter((line) => ['front', 'back'].includes(line.truth))
  const raw = wholeCards.filter((line) => line.holderKind === null)
  const held = lines.filter((line) => line.holderKind !== null)
  const hard = (of: readonly SceneLine[]) => of.filter((line) => line.difficulty === 'hard')
  const normal = (of: readonly SceneLine[]) => of.filter((line) => line.difficulty === 'normal')
  const kinds = lines.filter((line) => line.saidHolderKind !== null)
  return [
    `${''.padEnd(24)}    n   right  wrong  cannot tell`,
    ...by((line) => line.truth),
    '',
    row('all views', views),
    row('  normal', normal(views)),
    row('  hard', hard(views)),
    row(
      'nothing to tell (other)',
      lines.filter((line) => line.truth === 'other'),
    ),
    '',
    quads('raw card, normal', normal(raw), (line) => line.cardIou, 0.95),
    quads('raw card, hard', hard(raw), (line) => line.cardIou, 0.95),
    quads('card in holder, normal', normal(held), (line) => line.cardIou, 0.9),
    quads('card in holder, hard', hard(held), (line) => line.cardIou, 0.9),
    quads('holder, normal', normal(held), (line) => line.holderIou, 0.9),
    quads('holder, hard', hard(held), (line) => line.holderIou, 0.9),
    '',
    `kind of holder said ${kinds.length} times, wrong ${kinds.filter((line) => line.saidHolderKind !== line.holderKind).length} times`,
    `wrong: ${
      lines
        .filter((line) => line.answer !== 'cannot-tell' && line.answer !== line.truth)
        .map((line) => `${line.seed} ${line.truth}→${line.answer}`)
        .join(', ') || 'none'
    }`,
  ].join('\n')
}
