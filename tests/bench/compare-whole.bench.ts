/**
 * Whole photos through the whole way: the card found, the print laid over, every point judged. First what one photo of 12 megapixels
 * costs; then how whole photos of genuine and copied pieces end. BENCH_PHOTOS sets how many of each (4); seeds are fixed.
 */
import { comparePrepared, prepareExemplar } from '../../src/imaging/compare-photos.ts'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { createPicture } from '../../src/imaging/placed-picture.ts'
import { EXEMPLAR } from './scenes/bench-exemplar.ts'
import { MAKES, type Piece, printCopy, printGenuine } from './scenes/press.ts'
import { createRandom } from './scenes/simulate-market.ts'
import { type Snap, snapPhoto } from './scenes/snap.ts'

const PHOTOS = Number(process.env.BENCH_PHOTOS ?? 4)
const random = createRandom(Number(process.env.SEED ?? 6006))
const between = (low: number, high: number) => low + (high - low) * random()

const square: Snap = {
  pxPerMm: 24,
  tiltX: 0,
  tiltY: 0,
  turn: 0.5,
  blur: 0.5,
  noise: 1,
  light: [1, 1, 1],
  falloff: 1,
  table: [0.03, 0.03, 0.035],
  jpeg: 95,
  seed: 3,
}

const scan = await snapPhoto(printGenuine(createRandom(71)), square, null)
const prepared = prepareExemplar(EXEMPLAR, new Map([['front', createPicture(scan, 95)]]))

const large = await snapPhoto(
  printGenuine(random),
  { ...square, pxPerMm: 36, tiltX: 4, tiltY: -3, turn: 2, blur: 0.9, light: [0.9, 0.85, 0.75], jpeg: 88, seed: 9 },
  null,
)
const megapixels = (large.width * large.height) / 1e6
// Once before the clock, as in a worker that has judged a photo already; the exemplar's own measures are kept from then on.
const times: { decode: number; open: number; compare: number }[] = []
for (let i = 0; i < 4; i++) {
  const start = performance.now()
  const pixels = await decodeInNode(large.bytes)
  const decoded = performance.now()
  const picture = createPicture(pixels, 88)
  const opened = performance.now()
  const { registered, points } = comparePrepared(prepared, [{ file: 'large', picture, corners: null, problem: null }])
  const done = performance.now()
  if (i === 0) {
    console.log(
      `${megapixels.toFixed(1)} megapixels, ${points.length} points, registered: ${registered}; first photo, with the exemplar's own measures: ${(done - opened).toFixed(0)} ms`,
    )
  } else times.push({ decode: decoded - start, open: opened - decoded, compare: done - opened })
}
const median = (pick: (time: (typeof times)[number]) => number) =>
  times
    .map(pick)
    .sort((a, b) => a - b)
    [times.length >> 1]!.toFixed(0)
console.log(
  `later photos, median of ${times.length}: decode ${median((t) => t.decode)} ms, grey and blur ${median((t) => t.open)} ms, registration and points ${median((t) => t.compare)} ms`,
)
console.log(
  `resident memory after it: ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MB, the bench's own pictures included`,
)

function holdCamera(): Snap {
  const warm = between(0, 0.25)
  const gain = between(0.75, 1.05)
  return {
    pxPerMm: between(10, 22),
    tiltX: between(-8, 8),
    tiltY: between(-8, 8),
    turn: between(-6, 6),
    blur: between(0.45, 1.1),
    noise: between(0.5, 3),
    light: [gain, gain * (1 - warm / 3), gain * (1 - warm)],
    falloff: between(0.85, 1.15),
    table: random() < 0.7 ? [0.03, 0.03, 0.035] : [between(0.05, 0.2), between(0.04, 0.12), between(0.02, 0.1)],
    jpeg: Math.round(between(65, 95)),
    seed: Math.floor(1e9 * random()),
  }
}

console.log('\npieces          photos  registered  points: agree  differ  explained  cannot tell')
for (const what of ['genuine', ...MAKES] as const) {
  const count = what === 'genuine' ? 2 * PHOTOS : PHOTOS
  const ends: Record<string, number> = {}
  let registered = 0
  const differing: string[] = []
  for (let i = 0; i < count; i++) {
    const piece: Piece = what === 'genuine' ? printGenuine(random) : printCopy(what, random)
    const snap = holdCamera()
    const photo = await snapPhoto({ ...piece, wear: Math.floor(1e9 * random()) }, snap, null)
    const result = comparePrepared(prepared, [
      { file: what, picture: createPicture(photo, snap.jpeg), corners: null, problem: null },
    ])
    if (result.registered) registered++
    for (const { point, verdict } of result.points) {
      ends[verdict] = (ends[verdict] ?? 0) + 1
      if (verdict === 'differs') differing.push(point)
    }
  }
  const share = (verdict: string) => `${((100 * (ends[verdict] ?? 0)) / (count * EXEMPLAR.points.length)).toFixed(0)} %`
  console.log(
    what.padEnd(16) +
      [
        String(count),
        `${registered}`,
        share('agrees'),
        share('differs'),
        share('differs-explained'),
        share('cannot-tell'),
      ]
        .map((cell) => cell.padStart(10))
        .join('') +
      `   ${[...new Set(differing)].join(' ')}`,
  )
}
