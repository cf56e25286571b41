/** The words of what leaves the desk as a document: the bag's report and the page for teaching. Loaded when one is made. */
import { createTranslate, type Translate } from '../../domain/translate.ts'
import type { InterfaceLanguage, InterfaceTexts } from '../interface-texts.ts'

const CATALOGUES: Readonly<Record<InterfaceLanguage, () => Promise<{ default: Record<string, string> }>>> = {
  en: () => import('../../../assets/_locales/en/bag.json'),
  de: () => import('../../../assets/_locales/de/bag.json'),
}

export async function readBagTexts({ catalogue, language }: InterfaceTexts): Promise<Translate> {
  const { default: words } = await CATALOGUES[language]()
  return createTranslate({ ...catalogue, ...words }, language)
}
