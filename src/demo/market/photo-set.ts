/**
 * Builds the photos of one listing: which views, with which words beside them. Words differ as sellers' words do.
 */
import type { HolderKind } from '../../domain/claim.ts'
import type { Background, CardDesign, CardSpec, DrawnView, HolderSpec, LabelSpec, Shot } from '../drawing/shot.ts'
import type { DemoPhoto } from './listing-data.ts'

const WORDS: Readonly<Record<'en' | 'de', Readonly<Record<DrawnView, string>>>> = {
  en: {
    front: 'Front',
    back: 'Back',
    corners: 'The four corners, close up',
    edges: 'All four edges',
    'raking-light': 'Surface in raking light',
    'macro-print': 'Macro of the print at the name',
    'with-ruler': 'Beside a ruler (mm)',
    'dated-note': 'Card with today’s date',
    'holder-front': 'Holder, front',
    'holder-back': 'Holder, back',
    label: 'Label close-up',
    'holder-edges': 'Holder, the four sides',
    'holder-corners': 'Corners of the holder',
    'holder-code': 'Barcode and certificate number',
  },
  de: {
    front: 'Vorderseite',
    back: 'Rückseite',
    corners: 'Die vier Ecken, Nahaufnahme',
    edges: 'Alle vier Kanten',
    'raking-light': 'Oberfläche im Streiflicht',
    'macro-print': 'Makro vom Druck am Namenszug',
    'with-ruler': 'Neben einem Lineal (mm)',
    'dated-note': 'Karte mit Zettel und Datum',
    'holder-front': 'Holder Vorderseite',
    'holder-back': 'Holder Rückseite',
    label: 'Label, Nahaufnahme',
    'holder-edges': 'Die vier Seiten des Holders',
    'holder-corners': 'Ecken des Holders',
    'holder-code': 'Barcode und Zertifikatsnummer',
  },
}

/** Every view that a careful seller of an unencapsulated card shows. */
export const RAW_VIEWS: readonly DrawnView[] = [
  'front',
  'back',
  'corners',
  'edges',
  'raking-light',
  'macro-print',
  'with-ruler',
  'dated-note',
]

/** Every view that a careful seller of an encapsulated card shows. */
export const HOLDER_VIEWS: readonly DrawnView[] = [
  'holder-front',
  'holder-back',
  'label',
  'holder-edges',
  'holder-corners',
  'holder-code',
]

export function card(design: CardDesign, number: string, subject: string, more: Partial<CardSpec> = {}): CardSpec {
  return {
    design,
    number,
    subject,
    wear: 0.35,
    seed: [...`${design}${number}${subject}`].reduce((sum, letter) => (sum * 31 + letter.codePointAt(0)!) % 99_991, 7),
    printing: 'original',
    shift: [0, 0],
    serial: null,
    ...more,
  }
}

export function holder(kind: HolderKind): HolderSpec {
  return { kind, label: null }
}

export function sealed(label: Omit<LabelSpec, 'covered'> & { covered?: boolean }): HolderSpec {
  return { kind: 'sealed', label: { covered: false, ...label } }
}

export interface PhotoSet {
  readonly id: string
  readonly card: CardSpec
  readonly holder?: HolderSpec
  readonly views: readonly DrawnView[]
  readonly background: Background
  /** `file-names`: no words on the page, but the file's name says it. `nothing`: neither. */
  readonly words?: 'en' | 'de' | 'file-names' | 'nothing'
  readonly seed: number
  readonly shot?: Partial<Shot>
  /** What differs in one of them, by place in `views`. */
  readonly each?: Readonly<Record<number, Partial<Shot> & { readonly alt?: string | null }>>
}

export function photoSet(set: PhotoSet): DemoPhoto[] {
  const words = set.words ?? 'en'
  return set.views.map((view, place) => {
    const { alt, ...special } = set.each?.[place] ?? {}
    const seed = set.seed * 100 + place
    const name =
      words === 'nothing' ? `IMG_${2000 + ((seed * 37) % 7000)}` : `${set.id}-${place + 1}-${fileWord(view, words)}`
    const standard = words === 'en' || words === 'de' ? WORDS[words][view] : null
    return {
      file: `${name}.jpg`,
      alt: alt === undefined ? standard : alt,
      view,
      shot: {
        view,
        card: set.card,
        holder: set.holder ?? null,
        background: set.background,
        seed,
        longSide: 1300,
        blurPx: 0.5,
        jpegQuality: 88,
        tilt: 0.6,
        note: ['25 Nov 2026', `tide ${set.seed}`],
        ...set.shot,
        ...special,
      },
    }
  })
}

function fileWord(view: DrawnView, words: 'en' | 'de' | 'file-names'): string {
  const word = WORDS[words === 'de' ? 'de' : 'en'][view]
  if (words === 'de')
    return word
      .toLowerCase()
      .replace(/ü/g, 'ue')
      .replace(/ä/g, 'ae')
      .replace(/[^a-z]+/g, '-')
      .replace(/-$/, '')
  return view
}
