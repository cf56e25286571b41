/** Which column of somebody's CSV file is which, guessed from its header; the person can say otherwise. */
import { foldForSearch } from '../dossier-summary.ts'

export const CSV_FIELDS = [
  'date',
  'title',
  'price',
  'currency',
  'venue',
  'seller',
  'url',
  'premium-included',
  'shipping-included',
  'best-offer',
] as const
export type CsvField = (typeof CSV_FIELDS)[number]
export const REQUIRED_FIELDS: readonly CsvField[] = ['date', 'title', 'price']

/** Place of each field's column; absent: the file has none. */
export type CsvColumns = Readonly<Partial<Record<CsvField, number>>>

// Words of headers in English and German, folded; the first that fits wins. Common practice of spreadsheets, no source.
const WORDS: Readonly<Record<CsvField, readonly string[]>> = {
  date: [
    'date',
    'datum',
    'sold on',
    'sold at',
    'sale date',
    'date sold',
    'end date',
    'ended',
    'verkauft am',
    'verkaufsdatum',
    'auktionsende',
    'enddatum',
  ],
  title: [
    'title',
    'titel',
    'item',
    'item title',
    'lot title',
    'card',
    'karte',
    'artikel',
    'artikelbezeichnung',
    'bezeichnung',
    'description',
    'beschreibung',
    'name',
  ],
  price: [
    'price',
    'preis',
    'sold price',
    'sale price',
    'price realised',
    'price realized',
    'realised',
    'hammer',
    'hammer price',
    'amount',
    'total',
    'verkaufspreis',
    'zuschlag',
    'betrag',
    'erlos',
    'endpreis',
  ],
  currency: ['currency', 'wahrung', 'waehrung', 'cur', 'iso'],
  venue: [
    'venue',
    'market',
    'marketplace',
    'site',
    'platform',
    'auction house',
    'marktplatz',
    'auktionshaus',
    'plattform',
    'ort',
  ],
  seller: ['seller', 'verkaufer', 'verkaeufer', 'anbieter', 'consignor', 'sold by'],
  url: ['url', 'link', 'address', 'adresse', 'web', 'webadresse', 'page'],
  'premium-included': ['premium included', 'with premium', 'aufgeld enthalten', 'inkl aufgeld', 'incl premium'],
  'shipping-included': ['shipping included', 'with shipping', 'versand enthalten', 'inkl versand', 'incl shipping'],
  'best-offer': ['best offer', 'offer accepted', 'preisvorschlag', 'bestes angebot'],
}

export function guessColumns(header: readonly string[]): CsvColumns {
  const names = header.map((cell) =>
    foldForSearch(cell)
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim(),
  )
  const taken = new Set<number>()
  const columns: Partial<Record<CsvField, number>> = {}
  for (const exact of [true, false]) {
    for (const field of CSV_FIELDS) {
      if (columns[field] !== undefined) continue
      for (const word of WORDS[field]) {
        const place = names.findIndex(
          (name, i) => !taken.has(i) && (exact ? name === word : word.length > 3 && ` ${name} `.includes(` ${word} `)),
        )
        if (place < 0) continue
        columns[field] = place
        taken.add(place)
        break
      }
    }
  }
  return columns
}
