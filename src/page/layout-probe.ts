/**
 * The one place where layout questions are asked: is it seen, where, how large, struck through.
 * Memoised and read-only. The static probe serves documents without layout (Node, jsdom): it knows attributes and simple
 * `<style>` rules, and answers `null` where only a browser could know.
 */

/** CSS pixels from the top left of the page. */
export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface LayoutProbe {
  isVisible(element: Element): boolean
  /** `null`: this document has no layout. */
  box(element: Element): Box | null
  /** CSS pixels, `null` without layout. */
  fontSize(element: Element): number | null
  isStruckThrough(element: Element): boolean
}

const STRUCK_TAGS = new Set(['DEL', 'S', 'STRIKE'])
/** Style text longer than this is left unread: a static probe must not cost more than the page. */
const STYLE_BUDGET = 200_000
const HIDING = /(?:display\s*:\s*none|visibility\s*:\s*hidden)/i
const STRIKING = /text-decoration(?:-line)?\s*:[^;}]*line-through/i

interface StyleRules {
  readonly hidden: ReadonlySet<string>
  readonly struck: ReadonlySet<string>
}

/** Only rules for one class or one id count; anything more needs a browser. */
function readStyleRules(document: Document): StyleRules {
  const hidden = new Set<string>()
  const struck = new Set<string>()
  let budget = STYLE_BUDGET
  for (const style of document.getElementsByTagName('style')) {
    const text = style.textContent ?? ''
    budget -= text.length
    if (budget < 0) break
    // Rules inside @media and friends depend on the screen: left out.
    for (const [, selectors = '', body = ''] of text
      .replace(/@[^{]+\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, '')
      .matchAll(/([^{}]+)\{([^{}]*)\}/g)) {
      const hides = HIDING.test(body)
      const strikes = STRIKING.test(body)
      if (!hides && !strikes) continue
      for (const selector of selectors.split(',')) {
        const simple = /^\s*([.#][\w-]+)\s*$/.exec(selector)
        if (!simple) continue
        if (hides) hidden.add(simple[1]!)
        if (strikes) struck.add(simple[1]!)
      }
    }
  }
  return { hidden, struck }
}

function fitsRule(element: Element, rules: ReadonlySet<string>): boolean {
  if (rules.size === 0) return false
  if (element.id && rules.has(`#${element.id}`)) return true
  for (const name of element.classList) if (rules.has(`.${name}`)) return true
  return false
}

export function createStaticProbe(document: Document): LayoutProbe {
  let rules: StyleRules | null = null
  const seen = new Map<Element, boolean>()
  const struck = new Map<Element, boolean>()
  const isVisible = (element: Element): boolean => {
    const known = seen.get(element)
    if (known !== undefined) return known
    rules ??= readStyleRules(document)
    const style = element.getAttribute('style')
    const shown =
      !element.hasAttribute('hidden') &&
      !(style && HIDING.test(style)) &&
      !fitsRule(element, rules.hidden) &&
      (element.parentElement === null || isVisible(element.parentElement))
    seen.set(element, shown)
    return shown
  }
  const isStruckThrough = (element: Element): boolean => {
    const known = struck.get(element)
    if (known !== undefined) return known
    rules ??= readStyleRules(document)
    const style = element.getAttribute('style')
    const value =
      STRUCK_TAGS.has(element.tagName) ||
      (style !== null && STRIKING.test(style)) ||
      fitsRule(element, rules.struck) ||
      (element.parentElement !== null && isStruckThrough(element.parentElement))
    struck.set(element, value)
    return value
  }
  return { isVisible, isStruckThrough, box: () => null, fontSize: () => null }
}

/** For a live page. Every answer is kept, so that one reading asks each question once and layout is computed once. */
export function createLayoutProbe(window: Window): LayoutProbe {
  const boxes = new Map<Element, Box>()
  const sizes = new Map<Element, number | null>()
  const seen = new Map<Element, boolean>()
  const struck = new Map<Element, boolean>()
  const styleOf = (element: Element): CSSStyleDeclaration => window.getComputedStyle(element)
  const box = (element: Element): Box => {
    let known = boxes.get(element)
    if (!known) {
      const { left, top, width, height } = element.getBoundingClientRect()
      known = { x: left + window.scrollX, y: top + window.scrollY, width, height }
      boxes.set(element, known)
    }
    return known
  }
  const isVisible = (element: Element): boolean => {
    let known = seen.get(element)
    if (known === undefined) {
      known =
        typeof element.checkVisibility === 'function'
          ? element.checkVisibility({ visibilityProperty: true, opacityProperty: true })
          : styleOf(element).visibility !== 'hidden' && element.getClientRects().length > 0
      seen.set(element, known)
    }
    return known
  }
  const fontSize = (element: Element): number | null => {
    let known = sizes.get(element)
    if (known === undefined) {
      known = Number.parseFloat(styleOf(element).fontSize) || null
      sizes.set(element, known)
    }
    return known
  }
  const isStruckThrough = (element: Element): boolean => {
    let known = struck.get(element)
    if (known === undefined) {
      // The decoration is drawn by the ancestor that sets it, so it is looked for on the way up, as far as inline goes.
      known = false
      let at: Element | null = element
      for (let step = 0; at && step < 4 && !known; step += 1, at = at.parentElement) {
        known = STRUCK_TAGS.has(at.tagName) || styleOf(at).textDecorationLine.includes('line-through')
      }
      struck.set(element, known)
    }
    return known
  }
  return { isVisible, box, fontSize, isStruckThrough }
}
