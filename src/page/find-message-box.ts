/** The page's own box for a message to the seller, with its length limit. Finds it only; filling it is done in `marking`, at a click. */

const ASKING =
  /message|nachricht|mensaje|messaggio|bericht|wiadomo|mensagem|contact|kontakt|ask|frage|question|enquir|inquir|comment-?to-?seller|メッセージ|質問/i
const NOT_ASKING = /search|review|bewertung|comment(?!-?to)|newsletter|feedback|address|captcha|bid/i

export interface MessageBox {
  readonly element: HTMLTextAreaElement | HTMLInputElement | HTMLElement
  /** UTF-16 units, `null` where the page states none. */
  readonly maxLength: number | null
}

export function findMessageBox(document: Document): MessageBox | null {
  let best: { element: HTMLElement; score: number } | null = null
  const consider = (element: HTMLElement, base: number): void => {
    if (element.hasAttribute('disabled') || element.hasAttribute('readonly') || element.closest('[hidden]')) return
    const words = [
      element.id,
      element.getAttribute('name'),
      element.getAttribute('placeholder'),
      element.getAttribute('aria-label'),
      element.getAttribute('class'),
      labelOf(document, element),
      element.closest('form')?.getAttribute('action'),
      element.closest('form')?.id,
    ]
      .filter(Boolean)
      .join(' ')
    let score = base
    if (ASKING.test(words)) score += 3
    if (NOT_ASKING.test(words)) score -= 3
    if (score > 0 && (best === null || score > best.score)) best = { element, score }
  }
  for (const area of document.getElementsByTagName('textarea')) consider(area, 1)
  for (const editable of document.querySelectorAll<HTMLElement>(
    '[contenteditable="true"], [contenteditable=""], [role="textbox"]',
  ))
    consider(editable, 0)
  if (best === null) return null
  const { element } = best as { element: HTMLElement }
  const stated = Number.parseInt(element.getAttribute('maxlength') ?? element.getAttribute('data-maxlength') ?? '', 10)
  return { element, maxLength: Number.isFinite(stated) && stated > 0 ? stated : null }
}

function labelOf(document: Document, element: HTMLElement): string | null {
  const wrapping = element.closest('label')
  if (wrapping) return wrapping.textContent
  if (!element.id) return null
  for (const label of document.getElementsByTagName('label')) if (label.htmlFor === element.id) return label.textContent
  return null
}
