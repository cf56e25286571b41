/** A screen in jsdom: draws it, finds things by what a person or a screen reader calls them, and takes it down again. */
import { signal } from '@preact/signals'
import { type ComponentChildren, render } from 'preact'
import { act } from 'preact/test-utils'
import { UI_CATALOGUES } from '../../../src/ui/catalogues.ts'
import { createWording, type InterfaceLanguage } from '../../../src/ui/wording.ts'

export const wordingOf = (language: InterfaceLanguage) =>
  createWording(language, UI_CATALOGUES[language], 'Europe/Berlin')

export const englishWording = signal(wordingOf('en'))

const settle = () => act(async () => void (await new Promise((resolve) => setTimeout(resolve))))

export async function drawScreen(screen: ComponentChildren) {
  const root = document.createElement('div')
  document.body.replaceChildren(root)
  await act(() => render(screen, root))
  await settle()

  const nameOf = (element: Element): string => {
    const label = element.getAttribute('aria-label')
    if (label !== null) return label
    const field = element.id === '' ? null : root.querySelector(`label[for="${element.id}"]`)
    return (field ?? element).textContent?.trim() ?? ''
  }
  const all = (selector: string, name: string | RegExp) =>
    [...root.querySelectorAll<HTMLElement>(selector)].filter((element) =>
      typeof name === 'string' ? nameOf(element) === name : name.test(nameOf(element)),
    )
  const one = <E extends HTMLElement>(selector: string, name: string | RegExp): E => {
    const found = all(selector, name)
    if (found.length !== 1) throw new Error(`${found.length} of ${selector} are called ${name}:\n${root.innerHTML}`)
    return found[0] as E
  }

  return {
    root,
    text: () => root.textContent ?? '',
    button: (name: string | RegExp) => one<HTMLButtonElement>('button', name),
    buttons: (name: string | RegExp) => all('button', name) as HTMLButtonElement[],
    field: (name: string | RegExp) => one<HTMLInputElement>('input, textarea, select', name),
    async press(name: string | RegExp) {
      await act(() => one('button', name).click())
      await settle()
    },
    async type(name: string | RegExp, value: string) {
      const field = one<HTMLInputElement>('input, textarea, select', name)
      await act(() => {
        field.value = value
        field.dispatchEvent(new Event(field.tagName === 'SELECT' ? 'change' : 'input', { bubbles: true }))
      })
      await settle()
    },
    async submit(selector: string) {
      await act(() => {
        root.querySelector(selector)!.dispatchEvent(new Event('submit', { bubbles: true, cancelable: true }))
      })
      await settle()
    },
    async fire(target: Element, event: Event) {
      await act(() => void target.dispatchEvent(event))
      await settle()
    },
    /** Lets signals and promises come to rest after a change from outside. */
    async change(change: () => void) {
      await act(change)
      await settle()
    },
  }
}
