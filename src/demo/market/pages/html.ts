/** A tagged template that escapes what is put into it, and the few pieces of page that all markets need. No market's look. */
import type { DemoListing, DemoPhoto, Origins } from '../listing-data.ts'

class Markup {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text
  }
}

export type { Markup }

type Value = string | number | null | undefined | false | Markup | readonly Value[]

export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.codePointAt(0)};`)
}

function insert(value: Value): string {
  if (value === null || value === undefined || value === false) return ''
  if (value instanceof Markup) return value.text
  if (Array.isArray(value)) return value.map(insert).join('')
  return escapeHtml(String(value))
}

export function html(strings: TemplateStringsArray, ...values: readonly Value[]): Markup {
  return new Markup(strings.reduce((text, part, place) => text + insert(values[place - 1]) + part))
}

/** Text that is markup already: styles, scripts and JSON, never a listing's words. */
export function raw(text: string): Markup {
  return new Markup(text)
}

/** JSON inside a script element: `<` cannot end the element. */
export function inlineJson(value: unknown): Markup {
  return new Markup(JSON.stringify(value, null, 1).replaceAll('<', '\\u003c'))
}

export interface PageContext {
  readonly origins: Origins
  /** ISO 8601 in UTC. */
  readonly now: string
}

/** Widths that the photo host offers; `full` is the seller's own file. */
export type PhotoSize = 'full' | '640' | '160'

export function photoUrl(origins: Origins, file: string, size: PhotoSize): string {
  return `${origins.photos}/${size}/${file}`
}

export function firstPhoto(listing: DemoListing): DemoPhoto {
  return listing.photos[0]!
}

/** Which other listings a page shows as similar: the next ones of the same market, in order, without itself. */
export function similarListings(all: readonly DemoListing[], listing: DemoListing, count: number): DemoListing[] {
  const place = all.findIndex((candidate) => candidate.id === listing.id)
  return Array.from({ length: Math.min(count, all.length - 1) }, (_, step) => all[(place + 1 + step) % all.length]!)
}
