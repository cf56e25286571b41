/**
 * The same piece or another copy? Pairs of photos of one piece under two cameras, and of two pieces of one issue; how often the
 * answer is right by resolution, and the equal-error rate of the score. BENCH_PAIRS sets the pairs a row (10); seeds are fixed.
 */

import { createPicture } from '../../src/imaging/placed-picture.ts'
import { comparePieces } from '../../src/imaging/same-piece/compare-pieces.ts'
import { HEIGHT, type Piece, printGenuine, WIDTH } from './scenes/press.ts'
import { createRandom } from './scenes/simulate-market.ts'
import { type Snap, snapPhoto } from './scenes/snap.ts'

const PAIRS = Number(process.env.BENCH_PAIRS ?? 10)
const random = createRandom(Number(process.env.SEED ?? 9100))
const between = (low: number, high: number) => low + (high - low) * random()
const size = { widthMm: WIDTH, heightMm: HEIGHT }

function holdCamera(pxPerMm: number): Snap {
  const warm = between(0, 0.2)
  const gain = between(0.75, 1.05)
  return {
    pxPerMm,
    tiltX: between(-6, 6),
    tiltY: between(-6, 6),
    turn: between(-4, 4),
    blur: between(0.45, 1),
    noise: between(0.5, 2.5),
    light: [gain, gain * (1 - warm / 3), gain * (1 - warm)],
    falloff: between(0.85, 1.15),
    table: [0.03, 0.03, 0.035],
    jpeg: Math.round(between(70, 95)),
    seed: Math.floor(1e9 * random()),
  }
}

async function look(piece: Piece, pxPerMm: number, file: string) {
  const snap = holdCamera(pxPerMm)
  const photo = await snapPhoto(piece, snap, null)
  return { file, picture: createPicture(photo, snap.jpeg), corners: null, problem: null }
}

const worn = (): Piece => ({ ...printGenuine(random), wear: Math.floor(1e9 * random()) })

/** The share of errors where as many of one kind are made as of the other, over all thresholds. */
function equalErrorRate(same: readonly number[], different: readonly number[]): number {
  let best = 1
  let gap = Number.POSITIVE_INFINITY
  for (const threshold of [...same, ...different]) {
    const missed = same.filter((score) => score < threshold).length / same.length
    const mistaken = different.filter((score) => score >= threshold).length / different.length
    if (Math.abs(missed - mistaken) < gap) {
      gap = Math.abs(missed - mistaken)
      best = (missed + mistaken) / 2
    }
  }
  return best
}

console.log('px/mm      pairs   one piece: same  different  ct   two pieces: different  same  ct   equal-error rate')
for (const [low, high] of [
  [7, 9.5],
  [12, 14],
  [15, 18],
] as const) {
  const scores: { same: number[]; different: number[] } = { same: [], different: [] }
  const counts: Record<string, number> = {}
  for (let i = 0; i < 2 * PAIRS; i++) {
    const one = worn()
    const isSame = i % 2 === 0
    const other = isSame ? one : worn()
    const pxPerMm = between(low, high)
    const [a, b] = [await look(one, pxPerMm, 'a'), await look(other, between(low, high), 'b')]
    const answer = comparePieces([a], [b], size)
    const kind = isSame ? 'same' : 'different'
    counts[`${kind} ${answer.verdict}`] = (counts[`${kind} ${answer.verdict}`] ?? 0) + 1
    if (answer.score !== null) scores[kind].push(answer.score)
    if (process.env.BENCH_DETAIL) console.log(kind, pxPerMm.toFixed(1), answer.verdict, answer.score, answer.reason)
  }
  const share = (key: string) => `${((100 * (counts[key] ?? 0)) / PAIRS).toFixed(0)} %`
  const rate =
    scores.same.length > 0 && scores.different.length > 0
      ? `${(100 * equalErrorRate(scores.same, scores.different)).toFixed(1)} %`
      : '–'
  console.log(
    `${low}–${high}`.padEnd(11) +
      [
        String(PAIRS),
        share('same consistent-with-same'),
        share('same different'),
        share('same cannot-tell'),
        share('different different'),
        share('different consistent-with-same'),
        share('different cannot-tell'),
        rate,
      ]
        .map((cell) => cell.padStart(11))
        .join(''),
  )
}
