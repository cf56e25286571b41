/** The markets' web fonts, by the name in their style sheets, and the drawing's fonts. All OFL or Apache-2.0. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const require = createRequire(import.meta.url)

const WEB_FONTS: Readonly<Record<string, string>> = {
  'barlow-400': '@fontsource/barlow/files/barlow-latin-400-normal.woff2',
  'barlow-600': '@fontsource/barlow/files/barlow-latin-600-normal.woff2',
  'barlow-condensed-700': '@fontsource/barlow-condensed/files/barlow-condensed-latin-700-normal.woff2',
  'jost-400': '@fontsource/jost/files/jost-latin-400-normal.woff2',
  'jost-600': '@fontsource/jost/files/jost-latin-600-normal.woff2',
  'cormorant-500': '@fontsource/cormorant-garamond/files/cormorant-garamond-latin-500-normal.woff2',
  'cormorant-600': '@fontsource/cormorant-garamond/files/cormorant-garamond-latin-600-normal.woff2',
  'cormorant-500-italic': '@fontsource/cormorant-garamond/files/cormorant-garamond-latin-500-italic.woff2',
}

export function readFont(name: string): Buffer | null {
  const file = WEB_FONTS[name]
  return file ? readFileSync(require.resolve(file)) : null
}
