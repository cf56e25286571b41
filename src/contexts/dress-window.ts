/** Language and theme of one window of ours, as the settings say, and again whenever they change. Wiring only. */
import { type Signal, signal } from '@preact/signals'
import { readBrowserLanguage } from '../platform/interface-language.ts'
import { createWording, type Wording } from '../ui/wording.ts'
import { chooseLanguage, type InterfaceLanguage, type InterfaceTexts, interfaceTexts } from './interface-texts.ts'
import type { Stores } from './stores.ts'

export interface WindowDress {
  readonly wording: Signal<Wording>
  texts(): InterfaceTexts
  /** Reads the settings again. Resolves `true` when the language changed. */
  refresh(): Promise<boolean>
  /** Another language at once, before it is kept. */
  speak(language: InterfaceLanguage): void
}

export async function dressWindow(stores: Stores): Promise<WindowDress> {
  let texts = interfaceTexts(chooseLanguage(await stores.readSettings(), readBrowserLanguage()))
  const wording = signal(createWording(texts.language, texts.catalogue))

  function speak(language: InterfaceLanguage): void {
    document.documentElement.lang = language
    if (language === texts.language) return
    texts = interfaceTexts(language)
    wording.value = createWording(language, texts.catalogue)
  }

  async function refresh(): Promise<boolean> {
    const settings = await stores.readSettings()
    if (settings.theme === 'system') delete document.documentElement.dataset.theme
    else document.documentElement.dataset.theme = settings.theme
    const before = texts.language
    speak(chooseLanguage(settings, readBrowserLanguage()))
    return texts.language !== before
  }

  await refresh()
  return { wording, texts: () => texts, refresh, speak }
}
