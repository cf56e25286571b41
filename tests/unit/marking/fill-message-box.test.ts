// @vitest-environment jsdom
import { beforeEach, describe, expect, it } from 'vitest'
import { fillMessageBox } from '../../../src/marking/fill-message-box.ts'

const MESSAGE = 'Hello, could you show the back?\n\n1. The back.'

function box(markup: string): HTMLTextAreaElement {
  document.body.innerHTML = `<form>${markup}<button>Send</button></form>`
  return document.querySelector('form')!.firstElementChild as HTMLTextAreaElement
}

describe('the message', () => {
  let submitted = 0
  beforeEach(() => {
    submitted = 0
    document.addEventListener('submit', () => submitted++)
  })

  it('is put into the box, the page is told, and nothing is sent', () => {
    const field = box('<textarea></textarea>')
    const heard: string[] = []
    field.form?.addEventListener('input', (event) =>
      heard.push(`${event.type} ${(event.target as HTMLTextAreaElement).value.length}`),
    )
    field.form?.addEventListener('change', (event) => heard.push(event.type))
    expect(fillMessageBox(field, MESSAGE)).toEqual({ filled: true, reason: null })
    expect(field.value).toBe(MESSAGE)
    expect(heard).toEqual([`input ${MESSAGE.length}`, 'change'])
    expect(submitted).toBe(0)
  })

  it('is noticed by a framework that keeps its own record of the value', () => {
    const field = box('<textarea></textarea>')
    // As React does: an own property that records what its code wrote, so that an event with an unrecorded value is a person's.
    const native = Object.getOwnPropertyDescriptor(HTMLTextAreaElement.prototype, 'value')!
    let recorded = ''
    Object.defineProperty(field, 'value', {
      configurable: true,
      get: () => native.get!.call(field),
      set(value: string) {
        recorded = value
        native.set!.call(field, value)
      },
    })
    let state = ''
    field.addEventListener('input', () => {
      if (field.value !== recorded) state = field.value
    })
    fillMessageBox(field, MESSAGE)
    expect(state).toBe(MESSAGE)
  })

  it('is not cut off: a box too small for it stays as it is', () => {
    const field = box(`<textarea maxlength="${MESSAGE.length - 1}"></textarea>`)
    expect(fillMessageBox(field, MESSAGE)).toEqual({ filled: false, reason: 'too-long' })
    expect(field.value).toBe('')
    const fits = box(`<textarea maxlength="${MESSAGE.length}"></textarea>`)
    expect(fillMessageBox(fits, MESSAGE).filled).toBe(true)
  })

  it('goes below what the buyer wrote, and only once', () => {
    const field = box('<textarea>Good evening.</textarea>')
    fillMessageBox(field, MESSAGE)
    fillMessageBox(field, MESSAGE)
    expect(field.value).toBe(`Good evening.\n\n${MESSAGE}`)
  })

  it.each(['readonly', 'disabled'])('is not put into a box that is %s', (attribute) => {
    const field = box(`<textarea ${attribute}></textarea>`)
    expect(fillMessageBox(field, MESSAGE)).toEqual({ filled: false, reason: 'read-only' })
  })

  it('is put into an editor that is no form field', () => {
    const editor = box('<div contenteditable="true"></div>') as unknown as HTMLElement
    let heard = 0
    editor.addEventListener('input', () => heard++)
    expect(fillMessageBox(editor, MESSAGE).filled).toBe(true)
    expect(fillMessageBox(editor, MESSAGE).filled).toBe(true)
    expect(editor.textContent).toBe(MESSAGE)
    expect(heard).toBe(1)
  })
})
