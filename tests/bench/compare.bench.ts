/**
 * Are the measured points right? Pieces of an invented card under many cameras: genuine copies must not differ, planted faults must
 * be found where the photo resolves them, and a photo that cannot show a point must not decide it. Prints a table by kind and one
 * by resolution, and writes a line of JSON a comparison where BENCH_JSONL names a file.
 * BENCH_COMPARISONS sets how many (320); 2,000 and more for the figures that the documents state. BENCH_KINDS names points.
 */
import { appendFileSync, writeFileSync } from 'node:fs'
import type { ExemplarPoint } from '../../src/domain/exemplar.ts'
import { compareRegion, type ModelMemo } from '../../src/imaging/compare-region.ts'
import { createPlane, multiply, type Plane, planeOf } from '../../src/imaging/homography.ts'
import { createPicture, type PlacedPicture } from '../../src/imaging/placed-picture.ts'
import { EXEMPLAR, FAULTS, POINTS, windowsOf } from './scenes/bench-exemplar.ts'
import { HEIGHT, type Piece, printGenuine, printToCard, WIDTH } from './scenes/press.ts'
import { createRandom } from './scenes/simulate-market.ts'
import { type Photo, type Snap, snapPhoto } from './scenes/snap.ts'

const COMPARISONS = Number(process.env.BENCH_COMPARISONS ?? 320)
const random = createRandom(Number(process.env.SEED ?? 5005))
const between = (low: number, high: number) => low + (high - low) * random()
const normal = (sd: number) => sd * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
const wanted = process.env.BENCH_KINDS?.split(',')
const points = POINTS.filter(({ id, kind }) => !wanted || wanted.includes(id) || wanted.includes(kind))
const lines = process.env.BENCH_JSONL
if (lines) writeFileSync(lines, '')

const size = EXEMPLAR.nominalSize

/** Where the print's corners come to lie, from the truth, off by what a registration is off by. */
function planeOfPrint(piece: Piece, photo: Photo, exact: boolean): Plane {
  const corners = [
    [0, 0],
    [WIDTH, 0],
    [WIDTH, HEIGHT],
    [0, HEIGHT],
  ].map(([x, y]) => photo.toPixels(...printToCard(piece, x!, y!)))
  const plane = createPlane(corners as never, size)!
  if (exact) return plane
  const turn = normal(0.0008)
  return planeOf(
    multiply(plane.matrix, [1 + normal(0.0004), -turn, normal(0.03), turn, 1 + normal(0.0004), normal(0.03), 0, 0, 1]),
    size,
  )
}

function placeOf(piece: Piece, photo: Photo, exact: boolean, quality: number): PlacedPicture {
  const picture = createPicture(photo, quality)
  const [l, b] = [piece.trimLeft, HEIGHT - piece.trimBottom]
  const slip = () => (exact ? 0 : normal(0.05))
  const outline = [
    [l, 0],
    [WIDTH, 0],
    [WIDTH, b],
    [l, b],
  ].map(([x, y]) => photo.toPixels(x! + slip(), y! + slip()))
  return { ...picture, plane: planeOfPrint(piece, photo, exact), outline: outline as never, greyCard: null }
}

type Condition = 'sharp' | 'any'

function holdCamera(pxPerMm: number, condition: Condition): Snap {
  const warm = between(0, 0.25)
  const gain = between(0.75, 1.1)
  const any = condition === 'any'
  return {
    pxPerMm,
    tiltX: any ? between(-14, 14) : between(-2, 2),
    tiltY: any ? between(-14, 14) : between(-2, 2),
    turn: any ? between(-8, 8) : between(-2, 2),
    blur: any ? between(0.45, 1.7) : between(0.45, 0.8),
    noise: any ? between(0.5, 4) : between(0.5, 2),
    light: [gain, gain * (1 - warm / 3), gain * (1 - warm)],
    falloff: any ? between(0.75, 1.25) : between(0.92, 1.08),
    table: random() < 0.6 ? [0.03, 0.03, 0.035] : [between(0.05, 0.22), between(0.04, 0.14), between(0.02, 0.1)],
    jpeg: Math.round(any ? between(60, 95) : between(80, 95)),
    seed: Math.floor(1e9 * random()),
  }
}

const scan: Snap = {
  ...holdCamera(32, 'sharp'),
  tiltX: 0,
  tiltY: 0,
  turn: 0.4,
  blur: 0.5,
  noise: 0.7,
  light: [1, 1, 1],
  falloff: 1,
  table: [0.03, 0.03, 0.035],
  jpeg: 96,
}
const exemplarPiece = printGenuine(createRandom(71))
const exemplarPhoto = await snapPhoto(exemplarPiece, scan, points.flatMap(windowsOf))
const exemplar = placeOf(exemplarPiece, exemplarPhoto, true, scan.jpeg)
const memo: ModelMemo = new Map()

interface Row {
  readonly id: string
  readonly label: string
  readonly expected: 'agrees' | 'differs' | 'cannot-tell'
  readonly genuine: boolean
  readonly scale: (needed: number) => number
  readonly condition: Condition
}

const ROWS: readonly Row[] = [
  {
    id: 'genuine-1.5',
    label: 'genuine, 1.5 × need, sharp',
    expected: 'agrees',
    genuine: true,
    scale: (n) => 1.5 * n,
    condition: 'sharp',
  },
  {
    id: 'genuine-any',
    label: 'genuine, 1–2.2 × need, any',
    expected: 'agrees',
    genuine: true,
    scale: (n) => n * between(1, 2.2),
    condition: 'any',
  },
  {
    id: 'fault-sharp',
    label: 'fault, 1.5–2.2 × need, sharp',
    expected: 'differs',
    genuine: false,
    scale: (n) => n * between(1.5, 2.2),
    condition: 'sharp',
  },
  {
    id: 'fault-any',
    label: 'fault, 1–2.2 × need, any',
    expected: 'differs',
    genuine: false,
    scale: (n) => n * between(1, 2.2),
    condition: 'any',
  },
  {
    id: 'under',
    label: 'either, under the need',
    expected: 'cannot-tell',
    genuine: random() < 0.5,
    scale: (n) => n * between(0.4, 0.97),
    condition: 'sharp',
  },
]

/** What the point itself needs, by the program's own word on a photo that is good enough for anything. */
const needs = new Map<string, number>()
for (const point of points) {
  needs.set(point.id, compareRegion(point, [exemplar], exemplar, memo).neededPxPerMm ?? 1)
}

interface Outcome {
  readonly point: string
  readonly kind: string
  readonly row: string
  readonly verdict: string
  readonly code: string | null
  readonly pxPerMm: number
  readonly share: number
  readonly value: number | null
  readonly exemplar: number | null
  readonly uncertainty: number | null
  readonly tolerance: number
  readonly blur: number
  readonly jpeg: number
}

async function judge(point: ExemplarPoint, row: Row, i: number): Promise<Outcome> {
  const needed = needs.get(point.id)!
  const genuine = row.id === 'under' ? i % 2 === 0 : row.genuine
  const piece = genuine ? printGenuine(random) : FAULTS[point.id]!(random).piece
  // Tilt makes the far side smaller than the middle: the stated scale is that of the point's own place.
  const snap = holdCamera(
    Math.min(44, row.scale(needed) * (row.condition === 'any' ? 1.04 : row.id === 'under' ? 0.99 : 1.01)),
    row.condition,
  )
  const photo = await snapPhoto(piece, snap, windowsOf(point))
  const placed = placeOf(piece, photo, false, snap.jpeg)
  const found = compareRegion(point, [exemplar], placed, memo)
  return {
    point: point.id,
    kind: point.kind,
    row: row.id,
    verdict: found.verdict,
    code: found.cause?.code ?? null,
    pxPerMm: found.pxPerMm ?? 0,
    share: (found.pxPerMm ?? 0) / needed,
    value: found.value,
    exemplar: found.exemplar,
    uncertainty: found.uncertainty,
    tolerance: found.tolerance,
    blur: snap.blur,
    jpeg: snap.jpeg,
  }
}

const outcomes: Outcome[] = []
const each = Math.max(1, Math.round(COMPARISONS / (points.length * ROWS.length)))
const started = performance.now()
// Round by round over all kinds, so that a run cut short has seen all of them.
for (let i = 0; i < each; i++) {
  for (const row of ROWS) {
    for (const point of points) {
      const outcome = await judge(point, row, i)
      outcomes.push(outcome)
      if (lines) appendFileSync(lines, `${JSON.stringify(outcome)}\n`)
    }
  }
}

const share = (list: readonly Outcome[], verdict: string) =>
  list.length === 0
    ? '–'
    : `${((100 * list.filter((outcome) => outcome.verdict === verdict).length) / list.length).toFixed(1)}`
const table = (rows: readonly (readonly string[])[]) => {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)))
  for (const row of rows)
    console.log(row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]! + 2))).join(''))
}

console.log(
  `${outcomes.length} comparisons in ${((performance.now() - started) / 1000).toFixed(0)} s; shares in per cent`,
)
console.log('\nBy kind. ct: cannot tell. Found: faults called so, of those not left at cannot tell.')
table([
  [
    'point (kind)',
    'need',
    '1.5×: agrees',
    'differs',
    'ct',
    'any: differs',
    'ct',
    'fault sharp: found',
    'ct',
    'any: found',
    'ct',
    'under: ct',
  ],
  ...points.map(({ id, kind }) => {
    const of = (row: string) => outcomes.filter((outcome) => outcome.point === id && outcome.row === row)
    const found = (row: string) =>
      share(
        of(row).filter(({ verdict }) => verdict !== 'cannot-tell'),
        'differs',
      )
    return [
      `${id} (${kind})`,
      String(needs.get(id)),
      share(of('genuine-1.5'), 'agrees'),
      share(of('genuine-1.5'), 'differs'),
      share(of('genuine-1.5'), 'cannot-tell'),
      share(of('genuine-any'), 'differs'),
      share(of('genuine-any'), 'cannot-tell'),
      found('fault-sharp'),
      share(of('fault-sharp'), 'cannot-tell'),
      found('fault-any'),
      share(of('fault-any'), 'cannot-tell'),
      share(of('under'), 'cannot-tell'),
    ]
  }),
])
console.log('\nBy resolution, all kinds together: px/mm over the need.')
const BANDS = [0, 0.7, 1, 1.25, 1.5, 1.75, 2, 2.6]
table([
  ['px/mm ÷ need', 'genuine n', 'agrees', 'differs', 'ct', 'faults n', 'differs', 'agrees', 'ct'],
  ...BANDS.slice(0, -1).map((low, i) => {
    const inside = outcomes.filter((outcome) => outcome.share >= low && outcome.share < BANDS[i + 1]!)
    const genuine = inside.filter(({ row }) => row.startsWith('genuine'))
    const faults = inside.filter(({ row }) => row.startsWith('fault'))
    return [
      `${low}–${BANDS[i + 1]}`,
      String(genuine.length),
      share(genuine, 'agrees'),
      share(genuine, 'differs'),
      share(genuine, 'cannot-tell'),
      String(faults.length),
      share(faults, 'differs'),
      share(faults, 'agrees'),
      share(faults, 'cannot-tell'),
    ]
  }),
])
const all = (start: string) => outcomes.filter(({ row }) => row.startsWith(start))
console.log(
  `\nAll: false differs ${share(all('genuine'), 'differs')} % of ${all('genuine').length}; faults missed (agrees) ${share(all('fault'), 'agrees')} % of ${all('fault').length}; under the need cannot tell ${share(all('under'), 'cannot-tell')} % of ${all('under').length}.`,
)
