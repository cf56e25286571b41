/** The points of the press's card, one and more of each measured kind, and what each make of copy does at them. */
import type { Exemplar, ExemplarPoint, Region } from '../../../src/domain/exemplar.ts'
import { HEIGHT, type Make, type Piece, printCopy, printGenuine, WIDTH } from './press.ts'
import type { Window } from './snap.ts'

const box = (x: number, y: number, width: number, height: number): Region => ({ x, y, width, height })
const base = { why: '', copiesDo: '', side: 'front' as const, needsPxPerMm: null, tolerance: null, copies: {} }
const named = (id: string) => ({ ...base, id, name: id })
const STOCK = box(9, 64, 2.2, 1.6)
const PAPER = [box(1, 22, 2, 14), box(60.5, 40, 2, 14)]

export const POINTS: readonly ExemplarPoint[] = [
  { ...named('edge'), kind: 'edge-sharpness', region: box(19.7, 69.2, 1.6, 4.6), reference: box(-1.4, 48, 2.8, 6) },
  { ...named('stroke'), kind: 'stroke-width', region: box(11.2, 67, 2, 10) },
  { ...named('corner'), kind: 'corner-roundness', region: box(15.1, 67.1, 2.2, 2.2) },
  { ...named('counters'), kind: 'counters-open', region: box(22.6, 65.2, 8.0, 2.6) },
  { ...named('solid'), kind: 'solid-or-screen', region: box(34.4, 66.5, 10, 10), finestLpi: 175 },
  { ...named('screen'), kind: 'solid-or-screen', region: box(47.8, 66.5, 9.4, 10), finestLpi: 150 },
  { ...named('red'), kind: 'tint', region: box(35, 66, 9, 12), neutral: PAPER },
  {
    ...named('order'),
    kind: 'tint-order',
    region: box(35, 66, 9, 12),
    other: box(48, 66, 9, 12),
    order: 'darker',
    leastDeltaL: 10,
    neutral: PAPER,
  },
  { ...named('seam'), kind: 'seam', region: box(38.7, 51.6, 3.6, 6.8), paper: STOCK },
  { ...named('flush'), kind: 'flush', region: box(26.1, 71.4, 1.8, 1.8), other: box(26.1, 75.9, 1.8, 1.8), axis: 'x' },
  { ...named('gap'), kind: 'gap', region: box(28.1, 71.4, 1.8, 1.8), other: box(32.5, 71.4, 2, 1.8), axis: 'x' },
  { ...named('mark'), kind: 'mark-present', region: box(30.8, 68.6, 1.3, 1.3) },
  { ...named('left'), kind: 'border-width', edge: 'left', region: box(3, 25, 2, 26), opposite: null, tolerance: 0.6 },
  {
    ...named('centring'),
    kind: 'border-width',
    edge: 'left',
    region: box(3, 25, 2, 26),
    opposite: box(58.5, 25, 2, 26),
  },
  { ...named('stock'), kind: 'paper-tone', region: box(7.2, 64, 3.4, 14), neutral: [box(-8.2, 20, 4.2, 12)] },
  { ...named('look'), kind: 'same-look', region: box(16, 14, 14, 14) },
]

export const EXEMPLAR: Exemplar = {
  schemaVersion: 2,
  id: 'bench',
  title: 'bench',
  provenance: 'drawn',
  author: 'bench',
  licence: 'CC0-1.0',
  nominalSize: { widthMm: WIDTH, heightMm: HEIGHT },
  pieces: [{ id: 'a', name: 'a', provenance: 'drawn' }],
  copies: [],
  pictures: [{ file: 'front', side: 'front', corners: null, piece: 'a', greyCard: null }],
  points: [...POINTS],
}

/** What has to be drawn for a point to be judged as on a whole photo. */
export function windowsOf(point: ExemplarPoint): Window[] {
  const own = [...Object.values(point).filter(isRegion), ...listed(point)]
  // What is laid over as a pattern needs the print around it; a border needs the table beside it.
  const around = point.kind === 'mark-present' || point.kind === 'same-look' ? 3.4 : 0.9
  // How sharp a photo is, its type says.
  if (point.kind === 'solid-or-screen') own.push(box(11, 65, 10.5, 12))
  return own.map(({ x, y, width, height }) => {
    const [across, down] = point.kind === 'border-width' ? [4.5, 0.9] : [around, around]
    return [x - across, y - down, width + 2 * across, height + 2 * down] as const
  })
}

function isRegion(value: unknown): value is Region {
  return typeof value === 'object' && value !== null && 'width' in value && 'x' in value
}

function listed(point: ExemplarPoint): Region[] {
  return 'neutral' in point ? point.neutral : []
}

/** By point: a piece that is otherwise genuine, with the fault that some make of copy has at this point. */
export const FAULTS: Readonly<Record<string, (random: () => number) => { piece: Piece; make: Make | 'other' }>> = {
  edge: (random) => made(random() < 0.5 ? 're-screened' : 'ink-jet', random),
  stroke: (random) => made('thick-type', random),
  corner: (random) => made('thick-type', random),
  counters: (random) => {
    const { piece } = made('thick-type', random)
    return { piece: { ...piece, gain: 0.3 }, make: 'thick-type' }
  },
  solid: (random) => made('re-screened', random),
  screen: (random) => made('ink-jet', random),
  red: (random) => made('shifted-tint', random),
  order: (random) => ({ piece: { ...printGenuine(random), red: [0.9, 0.62, 0.55] }, make: 'other' }),
  seam: (random) => ({
    piece: { ...printGenuine(random), yellowX: (random() < 0.5 ? -1 : 1) * (0.26 + 0.1 * random()) },
    make: 'other',
  }),
  flush: (random) => ({
    piece: { ...printGenuine(random), lowerX: (random() < 0.5 ? -1 : 1) * (0.28 + 0.15 * random()) },
    make: 'other',
  }),
  gap: (random) => ({
    piece: { ...printGenuine(random), redX: (random() < 0.5 ? -1 : 1) * (0.28 + 0.12 * random()) },
    make: 'other',
  }),
  mark: (random) => ({ piece: { ...printGenuine(random), mark: 0 }, make: 'other' }),
  left: (random) => made('trimmed', random),
  centring: (random) => ({ piece: { ...printGenuine(random), trimLeft: 2.4 + 0.4 * random() }, make: 'trimmed' }),
  stock: (random) => made('shifted-tint', random),
  look: (random) => ({ piece: { ...printGenuine(random), drawing: 900 + Math.floor(90 * random()) }, make: 'other' }),
}

function made(make: Make, random: () => number) {
  return { piece: printCopy(make, random), make }
}
