/**
 * Texts by key from a flat catalogue, with named parameters and plural forms.
 * Knows no language of its own and formats nothing: numbers, dates and money come in as text already, save `count`.
 */

export type TranslateParams = Readonly<Record<string, string | number>>
export type Translate = (key: string, params?: TranslateParams) => string

/**
 * `catalogue` is one or several flat files merged. Where a `count` is given, `key_one`, `key_other` and so on are chosen
 * by the plural rules of `language`. A missing key throws: a screen with a hole in it must not pass a test.
 */
export function createTranslate(catalogue: Readonly<Record<string, string>>, language = 'en'): Translate {
  const plural = new Intl.PluralRules(language)
  return (key, params = {}) => {
    const { count } = params
    const form = typeof count === 'number' ? `${key}_${plural.select(count)}` : key
    const text = catalogue[form] ?? catalogue[`${key}_other`] ?? catalogue[key]
    if (text === undefined) throw new Error(`no text for "${form}" in ${language}`)
    if (!text.includes('{')) return text
    return text.replace(/\{(\w+)\}/g, (whole, name: string) => (name in params ? String(params[name]) : whole))
  }
}
