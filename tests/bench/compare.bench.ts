/**
 * Are the measured points right? Photos of an invented card under many cameras: genuine copies must not differ, planted faults must
 * be found where the photo resolves them, and a photo that cannot show a point must not decide it.
 * SCENES sets how many photos a row (60); seeds are fixed and differ from those of the tests.
 */
import { createCanvas, ImageData } from '@napi-rs/canvas'
import type { Exemplar } from '../../src/domain/exemplar.ts'
import { comparePhotos } from '../../src/imaging/compare-photos.ts'
import { KINDS } from '../../src/imaging/compare-region.ts'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { createPicture } from '../../src/imaging/placed-picture.ts'
import { type Camera, type Design, photograph, STANDARD, squareOn } from '../imaging/scenes/draw-card.ts'
import { createRandom } from '../imaging/scenes/edges.ts'

const SCENES = Number(process.env.SCENES ?? 60)
const random = createRandom(Number(process.env.SEED ?? 4001))
const between = (low: number, high: number) => low + (high - low) * random()

const EXEMPLAR: Exemplar = {
  schemaVersion: 1,
  id: 'bench',
  title: 'bench',
  provenance: 'drawn',
  author: 'bench',
  licence: 'CC0-1.0',
  nominalSize: { widthMm: 63.5, heightMm: 88.9 },
  pictures: [{ file: 'front', side: 'front', corners: null }],
  points: [
    {
      kind: 'tint',
      id: 'tint',
      name: 'tint',
      why: '',
      side: 'front',
      region: { x: 25, y: 71.5, width: 12, height: 5 },
      needsPxPerMm: null,
      tolerance: null,
      neutral: [
        { x: 1, y: 20, width: 2, height: 20 },
        { x: 60.5, y: 40, width: 2, height: 20 },
      ],
    },
    {
      kind: 'border-width',
      id: 'border',
      name: 'border',
      why: '',
      side: 'front',
      edge: 'left',
      region: { x: 2.5, y: 30, width: 3, height: 25 },
      needsPxPerMm: null,
      tolerance: null,
    },
  ],
}

interface Shot {
  readonly pxPerMm: number
  readonly square: boolean
  readonly sharp: boolean
}

function shoot(design: Design, { pxPerMm, square, sharp }: Shot): Camera {
  const [width, height] = [Math.round(pxPerMm * 84), Math.round(pxPerMm * 110)]
  const flat = squareOn(design, width, height, pxPerMm, square ? between(-2, 2) : between(-8, 8))
  const bend = square ? 0 : 2.5 * pxPerMm
  const corners = flat.map(([x, y]) => [
    x + between(-bend, bend),
    y + between(-bend, bend),
  ]) as unknown as Camera['corners']
  const warm = between(0, 0.3)
  return {
    width,
    height,
    corners,
    blur: sharp ? between(0.5, 0.9) : between(0.5, 0.2 * pxPerMm),
    noise: between(0.5, 3),
    light: [between(0.7, 1.05), between(0.7, 1.05) * (1 - warm / 3), between(0.7, 1.05) * (1 - warm)],
    falloff: between(0.85, 1.15),
    background: random() < 0.5 ? [0.02, 0.02, 0.03] : [between(0.1, 0.3), between(0.05, 0.2), between(0.02, 0.15)],
    seed: Math.floor(1e9 * random()),
  }
}

/** Through a JPEG encoder, as a photo comes from a page. */
async function asJpeg(pixels: ReturnType<typeof photograph>, quality: number) {
  const canvas = createCanvas(pixels.width, pixels.height)
  canvas
    .getContext('2d')
    .putImageData(new ImageData(pixels.data as Uint8ClampedArray<ArrayBuffer>, pixels.width, pixels.height), 0, 0)
  return decodeInNode(canvas.toBuffer('image/jpeg', quality))
}

const model = createPicture(
  photograph(STANDARD, { ...shoot(STANDARD, { pxPerMm: 12, square: true, sharp: true }), light: [1, 1, 1] }),
  null,
)

async function judge(design: Design, shot: Shot) {
  const quality = Math.round(between(60, 95))
  const camera = shoot(design, shot)
  const picture = createPicture(await asJpeg(photograph(design, camera), quality), quality)
  // Corners as a person sets them, within a third of a millimetre.
  const slip = 0.3 * shot.pxPerMm
  const corners = camera.corners.map(([x, y]) => [
    x + between(-slip, slip),
    y + between(-slip, slip),
  ]) as unknown as Camera['corners']
  const { points } = comparePhotos({ exemplar: EXEMPLAR, pictures: new Map() }, new Map([['front', model]]), [
    { file: 'photo', picture, corners: random() < 0.5 ? corners : null, problem: null },
  ])
  return points
}

const need = { tint: KINDS.tint.needsPxPerMm, 'border-width': KINDS['border-width'].needsPxPerMm } as const
const rows: [string, string, (kind: keyof typeof need) => Shot, (i: number) => Design][] = [
  [
    'genuine, at 1.5 × the need, sharp, square-on',
    'agrees',
    (k) => ({ pxPerMm: 1.5 * need[k], square: true, sharp: true }),
    () => STANDARD,
  ],
  [
    'genuine, any angle and blur, 6–14 px/mm',
    'agrees',
    () => ({ pxPerMm: between(6, 14), square: false, sharp: false }),
    () => STANDARD,
  ],
  [
    'planted fault, 7–14 px/mm, any angle',
    'differs',
    () => ({ pxPerMm: between(7, 14), square: false, sharp: true }),
    planted,
  ],
  [
    'genuine, under the need',
    'cannot-tell',
    (k) => ({ pxPerMm: between(2.5, 0.95 * need[k]), square: true, sharp: true }),
    () => STANDARD,
  ],
  [
    'planted fault, under the need',
    'cannot-tell',
    (k) => ({ pxPerMm: between(2.5, 0.95 * need[k]), square: true, sharp: true }),
    planted,
  ],
]

/** A panel ten or more ΔE00 off, and a border trimmed by a millimetre. */
function planted(i: number): Design {
  const colours = [
    [0.45, 0.17, 0.05],
    [0.3, 0.07, 0.12],
    [0.62, 0.14, 0.05],
  ] as const
  const trimmed = 1 + 0.3 * random()
  return {
    ...STANDARD,
    widthMm: STANDARD.widthMm - trimmed,
    border: { ...STANDARD.border, left: STANDARD.border.left - trimmed },
    tint: { ...STANDARD.tint, x: STANDARD.tint.x - trimmed, colour: colours[i % 3]! },
  }
}

console.log(
  ['photos', 'kind', 'n', 'agrees', 'differs', 'cannot tell', 'wrong']
    .map((head, i) => (i === 0 ? head.padEnd(48) : head.padStart(14)))
    .join(''),
)
for (const [label, expected, shot, design] of rows) {
  for (const kind of ['tint', 'border-width'] as const) {
    const counts = { agrees: 0, differs: 0, 'cannot-tell': 0 }
    for (let i = 0; i < SCENES; i++) {
      const points = await judge(design(i), shot(kind))
      counts[points.find((point) => point.kind === kind)!.verdict]++
    }
    const wrong =
      SCENES - counts[expected as keyof typeof counts] - (expected === 'cannot-tell' ? 0 : counts['cannot-tell'])
    const share = (n: number) => `${((100 * n) / SCENES).toFixed(1)} %`
    console.log(
      [
        label,
        kind,
        String(SCENES),
        share(counts.agrees),
        share(counts.differs),
        share(counts['cannot-tell']),
        share(wrong),
      ]
        .map((cell, i) => (i === 0 ? cell.padEnd(48) : cell.padStart(14)))
        .join(''),
    )
  }
}
