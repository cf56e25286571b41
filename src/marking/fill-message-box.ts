/**
 * Puts words into the page's own message box at the buyer's click, so that the page's scripts notice as if they were typed.
 * Never submits, never cuts words off, never drops what stands there.
 */

export interface Filled {
  readonly filled: boolean
  readonly reason: 'too-long' | 'read-only' | null
}

export function fillMessageBox(box: Element, text: string): Filled {
  const view = box.ownerDocument.defaultView
  if (view === null) return { filled: false, reason: 'read-only' }
  const field = box as HTMLTextAreaElement | HTMLInputElement
  if (box.localName === 'textarea' || box.localName === 'input') {
    if (field.readOnly || field.disabled) return { filled: false, reason: 'read-only' }
    const words = addTo(field.value, text)
    // The HTML standard counts a maximum length in UTF-16 units, as `length` does; –1: none stated.
    if (field.maxLength >= 0 && words.length > field.maxLength) return { filled: false, reason: 'too-long' }
    field.focus()
    if (words !== field.value) {
      setValue(view, field, words)
      notice(view, field, text)
    }
    return { filled: true, reason: null }
  }
  const editable = box as HTMLElement
  if (!editable.isContentEditable && editable.getAttribute('contenteditable') === null) {
    return { filled: false, reason: 'read-only' }
  }
  editable.focus()
  const before = editable.textContent ?? ''
  if (!before.includes(text)) insertInto(view, editable, before.trim() === '' ? text : `\n\n${text}`)
  return { filled: true, reason: null }
}

/** Below what the buyer wrote already; the same words are not put in twice. */
function addTo(before: string, text: string): string {
  if (before.trim() === '') return text
  return before.includes(text) ? before : `${before.trimEnd()}\n\n${text}`
}

/** Through the prototype's setter: frameworks shadow `value` on the element to see who changed it. */
function setValue(view: Window, field: HTMLTextAreaElement | HTMLInputElement, words: string): void {
  const { HTMLTextAreaElement, HTMLInputElement } = view as unknown as typeof globalThis
  const prototype = field.localName === 'textarea' ? HTMLTextAreaElement.prototype : HTMLInputElement.prototype
  Object.getOwnPropertyDescriptor(prototype, 'value')?.set?.call(field, words)
}

function notice(view: Window, element: HTMLElement, data: string): void {
  const { InputEvent, Event } = view as unknown as typeof globalThis
  element.dispatchEvent(new InputEvent('input', { bubbles: true, composed: true, inputType: 'insertText', data }))
  element.dispatchEvent(new Event('change', { bubbles: true }))
}

/** Editors keep their own record of the text and only listen to typing, which this old command still stands for. */
function insertInto(view: Window, element: HTMLElement, text: string): void {
  const { document } = view
  const selection = view.getSelection()
  selection?.selectAllChildren(element)
  selection?.collapseToEnd()
  if (document.execCommand?.('insertText', false, text)) return
  element.append(document.createTextNode(text))
  notice(view, element, text)
}
