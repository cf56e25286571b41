/**
 * Selectors by which a pointed element is found again on another listing of the same site, from the most robust to the last
 * resort. Each finds exactly this element on this page. Ids and classes that a build tool or a database made are passed over.
 */

/** Attributes that say what a thing is, not how it looks. */
const SPEAKING = ['itemprop', 'data-testid', 'data-test', 'data-qa', 'data-field', 'name', 'aria-label']

const ESCAPE = (word: string) => word.replace(/[^\w\u0080-\uffff-]/g, '\\$&').replace(/^(-?)(\d)/, '$1\\3$2 ')

/** Letters that a person would write: no run of digits, no mix of cases as hashes have. */
function isWritten(word: string): boolean {
  return word.length <= 40 && !/\d{3,}|[A-Z].*\d|\d.*[A-Z]|__[\w-]{5}$|^css-|^sc-/.test(word)
}

export function createSelectors(element: Element): string[] {
  const document = element.ownerDocument
  const isUnique = (selector: string) => {
    const found = document.querySelectorAll(selector)
    return found.length === 1 && found[0] === element
  }
  const candidates = [
    ...namesOf(element),
    // A speaking ancestor, and the way from there.
    ...[...ancestorsOf(element)].flatMap((ancestor) =>
      namesOf(ancestor).flatMap((name) => [
        ...namesOf(element).map((own) => `${name} ${own}`),
        `${name} ${pathFrom(ancestor, element)}`,
      ]),
    ),
    pathFrom(document.documentElement, element),
  ]
  return [...new Set(candidates.filter(isUnique))].slice(0, 5)
}

function namesOf(element: Element): string[] {
  const tag = element.localName
  const names: string[] = []
  if (element.id !== '' && isWritten(element.id)) names.push(`#${ESCAPE(element.id)}`)
  for (const attribute of SPEAKING) {
    const value = element.getAttribute(attribute)
    if (value && isWritten(value)) names.push(`${tag}[${attribute}="${value.replace(/["\\]/g, '\\$&')}"]`)
  }
  for (const name of element.classList) if (isWritten(name)) names.push(`${tag}.${ESCAPE(name)}`)
  return names
}

function* ancestorsOf(element: Element): Generator<Element> {
  for (let next = element.parentElement; next !== null && next.localName !== 'body'; next = next.parentElement)
    yield next
}

function pathFrom(ancestor: Element, element: Element): string {
  const steps: string[] = []
  for (let next: Element | null = element; next !== null && next !== ancestor; next = next.parentElement) {
    const tag = next.localName
    const alike = [...(next.parentElement?.children ?? [])].filter((sibling) => sibling.localName === tag)
    steps.unshift(alike.length > 1 ? `${tag}:nth-of-type(${alike.indexOf(next) + 1})` : tag)
  }
  return `> ${steps.join(' > ')}`.replace(/^> /, ancestor.localName === 'html' ? 'html > ' : '> ')
}
