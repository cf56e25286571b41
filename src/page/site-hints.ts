/**
 * What the buyer pointed at on a site before: found again by a ladder of selectors, tried before anything else is. A hint that
 * finds nothing, or more than one element, is stale: it is said to be, and ignored.
 */
import type { SiteHint } from '../domain/site-hint.ts'
import { isStableName } from './build-selector.ts'

export interface HintMatch {
  readonly hint: SiteHint
  readonly element: Element
}

/** `quayside.example` fits `www.quayside.example`, never `my-quayside.example`. */
export function fitsHost(hintHost: string, host: string): boolean {
  const wanted = hintHost.toLowerCase().replace(/^www\./, '')
  const given = host.toLowerCase()
  return wanted !== '' && (given === wanted || given.endsWith(`.${wanted}`))
}

export function matchHints(
  document: Document,
  url: string | null,
  hints: readonly SiteHint[],
): { matches: HintMatch[]; stale: SiteHint[] } {
  const host = url ? /^https?:\/\/([^/:?#]+)/i.exec(url)?.[1] : undefined
  const matches: HintMatch[] = []
  const stale: SiteHint[] = []
  if (!host) return { matches, stale }
  for (const hint of hints) {
    if (!fitsHost(hint.host, host)) continue
    const element = findOne(document, hint.selectors)
    if (element) matches.push({ hint, element })
    else stale.push(hint)
  }
  return { matches, stale }
}

function findOne(document: Document, selectors: readonly string[]): Element | null {
  for (const selector of selectors.slice(0, 12)) {
    try {
      const found = document.querySelectorAll(selector)
      if (found.length === 1) return found[0]!
    } catch {
      // A selector that does not parse finds nothing.
    }
  }
  return null
}

const TEST_ATTRIBUTES = [
  'itemprop',
  'data-testid',
  'data-test',
  'data-qa',
  'data-field',
  'property',
  'name',
  'role',
  'aria-label',
] as const

function escapeName(name: string): string {
  return name.replace(/[^\w-]/g, (char) => `\\${char}`)
}

/** One step that names an element by something made to last, or `null`. */
function describe(element: Element): string | null {
  for (const name of TEST_ATTRIBUTES) {
    const value = element.getAttribute(name)
    if (value && value.length <= 60 && !/\d{3,}/.test(value))
      return `${element.localName}[${name}="${value.replace(/["\\]/g, '\\$&')}"]`
  }
  const names = [...element.classList]
    .filter(
      (name) =>
        isStableName(name) && !/^(?:active|selected|open|hover|is-|has-|col|row|flex|grid|p-|m-|text-|css-)/.test(name),
    )
    .slice(0, 2)
  return names.length > 0 ? `${element.localName}${names.map((name) => `.${escapeName(name)}`).join('')}` : null
}

/**
 * Selectors for one element, most robust first: its id, what it is named for, that within a named ancestor, and last its place.
 * Each finds exactly this element in the document as it is now.
 */
export function createSelectorLadder(document: Document, element: Element): string[] {
  const ladder: string[] = []
  const keep = (selector: string): void => {
    if (ladder.includes(selector)) return
    try {
      const found = document.querySelectorAll(selector)
      if (found.length === 1 && found[0] === element) ladder.push(selector)
    } catch {
      // Names that no selector can carry are left out.
    }
  }
  if (element.id && isStableName(element.id)) keep(`#${escapeName(element.id)}`)
  const own = describe(element)
  if (own) keep(own)
  for (let up = element.parentElement, step = 0; up && step < 8; up = up.parentElement, step += 1) {
    const holder = up.id && isStableName(up.id) ? `#${escapeName(up.id)}` : describe(up)
    if (!holder) continue
    if (own) keep(`${holder} ${own}`)
    keep(`${holder} ${element.localName}`)
    if (ladder.length >= 5) break
  }
  // Last resort: the place among sisters, from the nearest named ancestor.
  let path = ''
  for (let at: Element | null = element; at; at = at.parentElement) {
    const named: string | null = at !== element && at.id && isStableName(at.id) ? `#${escapeName(at.id)}` : null
    if (named) {
      keep(`${named} > ${path}`)
      break
    }
    const parent: Element | null = at.parentElement
    const sisters = parent ? [...parent.children].filter((sister) => sister.localName === at!.localName) : [at]
    const step = sisters.length > 1 ? `${at.localName}:nth-of-type(${sisters.indexOf(at) + 1})` : at.localName
    path = path ? `${step} > ${path}` : step
    if (!parent) keep(path)
  }
  return ladder
}
