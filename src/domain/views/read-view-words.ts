/**
 * Which views the words beside a photo name: caption, alternative text, file name.
 * Whole words only ("background.jpg" is no back), and silence where they name none.
 */
import type { ViewId } from '../views.ts'
import type { ViewWordPack } from './view-pack.ts'

export interface ViewWords {
  /** Views named by the words; empty where none is. */
  read(alt: string | null, url: string, encapsulated: boolean): readonly { view: ViewId; word: string }[]
}

/** Case and accents folded, camelCase and digits split off, so that `IMG_Rückseite2.jpg` gives "img", "ruckseite". */
function foldWords(text: string): string[] {
  return text
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter(Boolean)
}

/** The last segment of the path without query and extension: host and folders say nothing about one photo. */
export function fileNameOf(url: string): string {
  const path = url.replace(/[?#].*$/s, '')
  const last = path.slice(path.lastIndexOf('/') + 1).replace(/\.[a-z0-9]{2,5}$/i, '')
  try {
    return decodeURIComponent(last)
  } catch {
    return last
  }
}

export function createViewWords(pack: ViewWordPack): ViewWords {
  const phrases: { view: ViewId; word: string; tokens: string[] }[] = []
  for (const [view, languages] of Object.entries(pack.words) as [ViewId, Record<string, readonly string[]>][]) {
    for (const words of Object.values(languages)) {
      for (const word of words) phrases.push({ view, word, tokens: foldWords(word) })
    }
  }
  // Longest first: "back of holder" takes its words before "back" can.
  phrases.sort((a, b) => b.tokens.length - a.tokens.length)

  function findIn(text: string): { view: ViewId; word: string }[] {
    const tokens: (string | null)[] = foldWords(text)
    const found: { view: ViewId; word: string }[] = []
    for (const phrase of phrases) {
      for (let at = 0; at + phrase.tokens.length <= tokens.length; at++) {
        if (!phrase.tokens.every((token, offset) => tokens[at + offset] === token)) continue
        tokens.fill(null, at, at + phrase.tokens.length)
        found.push({ view: phrase.view, word: phrase.word })
      }
    }
    return found
  }

  return {
    read(alt, url, encapsulated) {
      // A caption is written for this photo; the file name counts only where the caption names nothing.
      const fromCaption = alt === null ? [] : findIn(alt)
      const found = fromCaption.length > 0 ? fromCaption : findIn(fileNameOf(url))
      const views = new Map<ViewId, string>()
      for (const { view, word } of found) {
        const meant = (encapsulated && pack.inHolder[view]) || view
        if (!views.has(meant)) views.set(meant, word)
      }
      return [...views].map(([view, word]) => ({ view, word }))
    },
  }
}
