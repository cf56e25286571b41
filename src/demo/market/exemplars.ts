/**
 * The buyer's own pictures of known-genuine cards, and two whole exemplars with points, against which questioned photos can be held:
 * genuine other copies under other light and cameras, and five makes of copy. Drawn on first use like every photo of the market;
 * the files are put together from the same pictures.
 */
import type { Exemplar, ExemplarPoint } from '../../domain/exemplar.ts'
import { writeExemplarFile } from '../../imaging/exemplar-file.ts'
import { STOCK } from '../drawing/card-stock.ts'
import { renderPhoto } from '../drawing/render-photo.ts'
import type { CardDesign, Printing, Shot } from '../drawing/shot.ts'
import { HAWKER, NORDLYS } from './cards.ts'
import { INSECT_POINTS, MAKES, SHIP_POINTS } from './exemplar-points.ts'
import { card, photoSet } from './photo-set.ts'

interface DrawnPicture {
  readonly file: string
  readonly shot: Shot
}

const GENUINE = card('skerryball-stars', '17', 'Odo Marrable', { seed: 4120, wear: 0.18 })

const STARS = photoSet({
  id: 'exemplar-skerryball-stars-17',
  card: GENUINE,
  views: ['front', 'back', 'macro-print'],
  background: 'scanner',
  seed: 90,
  shot: { tilt: 0.1, jpegQuality: 94 },
}).map(({ file, shot }) => ({ file, shot }))

interface DemoExemplar {
  readonly id: string
  readonly subject: readonly [CardDesign, string, string]
  readonly title: string
  readonly points: readonly ExemplarPoint[]
  /** Scanned so fine that every point's own need is met. */
  readonly longSide: number
  readonly seed: number
}

const DEMO_EXEMPLARS: readonly DemoExemplar[] = [
  {
    id: 'insects-of-the-fen-23',
    subject: HAWKER,
    title: 'Insects of the Fen 1958, 23 Lantern Hawker',
    points: INSECT_POINTS,
    longSide: 2600,
    seed: 97,
  },
  {
    id: 'harbour-ships-12',
    subject: NORDLYS,
    title: 'Harbour Ships of the Cold Coast 1931, 12 Nordlys Maiden',
    points: SHIP_POINTS,
    longSide: 2200,
    seed: 98,
  },
]

export const DEMO_EXEMPLAR_IDS: readonly string[] = DEMO_EXEMPLARS.map(({ id }) => id)

function scanned({ id, subject, longSide, seed }: DemoExemplar): readonly DrawnPicture[] {
  return [1, 2].map((piece) => {
    const genuine = card(...subject, {
      seed: 4700 + seed * 10 + piece,
      wear: 0.1,
      shift: [0.1 * piece - 0.15, 0.05 * piece],
    })
    const [front] = photoSet({
      id: `exemplar-${id}-piece-${piece}`,
      card: genuine,
      views: ['front'],
      background: 'scanner',
      seed: seed * 10 + piece,
      shot: { tilt: 0.05, jpegQuality: 94, longSide },
    })
    return { file: front!.file, shot: front!.shot }
  })
}

export interface QuestionedDemoPhoto extends DrawnPicture {
  readonly exemplar: string
  readonly printing: Printing
}

const RESOLUTIONS = [2600, 1500, 700] as const

/** By exemplar: genuine other copies and each make of copy, at several sizes. */
export const QUESTIONED: readonly QuestionedDemoPhoto[] = DEMO_EXEMPLARS.flatMap(({ id, subject, seed }) =>
  (['original', 're-screened', 'ink-jet', 'thick-type', 'shifted-tint', 'trimmed'] as const).flatMap(
    (printing, place) =>
      RESOLUTIONS.map((longSide, size) => {
        const [photo] = photoSet({
          id: `questioned-${id}-${printing === 'original' ? 'genuine' : printing}-${longSide}`,
          card: card(...subject, {
            seed: 4800 + seed * 40 + place * 4 + size,
            wear: 0.2,
            printing,
            shift: [0.12, -0.1],
          }),
          views: ['front'],
          background: (['scanner', 'slate', 'oak'] as const)[size]!,
          seed: seed * 100 + place * 10 + size,
          shot: { tilt: 0.3 * size, longSide, jpegQuality: 92 - 4 * size, blurPx: 0.5 + 0.1 * size },
        })
        return { file: photo!.file, shot: photo!.shot, exemplar: id, printing }
      }),
  ),
)

/** All pictures of this module that the photo host serves. */
export const EXEMPLARS: readonly DrawnPicture[] = [
  ...STARS,
  ...DEMO_EXEMPLARS.flatMap(scanned),
  ...QUESTIONED.map(({ file, shot }) => ({ file, shot })),
]

/** An exemplar as the file that a friend would send. Throws for an id that is not of the demo. */
export async function buildDemoExemplar(id: string): Promise<Uint8Array> {
  const demo = DEMO_EXEMPLARS.find((each) => each.id === id)
  if (!demo) throw new Error(`the demo has no exemplar ${id}`)
  const pictures = scanned(demo)
  const [widthMm, heightMm] = STOCK[demo.subject[0]].size
  const exemplar: Exemplar = {
    schemaVersion: 2,
    id: demo.id,
    title: demo.title,
    provenance: 'Two cards from an unopened box of the maker’s own stock.',
    author: 'The demo',
    licence: 'CC0-1.0',
    nominalSize: { widthMm, heightMm },
    pieces: pictures.map((_, i) => ({
      id: `piece-${i + 1}`,
      name: `Card ${i + 1} of the box`,
      provenance: 'Taken from the box in front of a witness.',
    })),
    copies: MAKES,
    pictures: pictures.map(({ file }, i) => ({
      file,
      side: 'front',
      corners: null,
      piece: `piece-${i + 1}`,
      greyCard: null,
    })),
    points: [...demo.points],
  }
  const bytes = new Map<string, Uint8Array>()
  for (const { file, shot } of pictures) bytes.set(file, await renderPhoto(shot))
  return writeExemplarFile({ exemplar, pictures: bytes })
}
