/**
 * Finds characters that cannot be seen and change what can: zero-width ones and direction overrides. They are shown as
 * their code, never obeyed. Must not judge why they are there.
 * Source of the ranges: Unicode general category Cf and the bidirectional formatting characters of UAX #9.
 */

export interface TextRun {
  readonly text: string
  /** `U+202E` where the run is one character that cannot be seen. */
  readonly code: string | null
}

// A zero-width joiner inside an emoji, and the marks that real scripts need, are no disguise.
const HIDDEN =
  /[\u00AD\u061C\u180E\u200B\u200E\u200F\u202A-\u202E\u2060-\u2064\u2066-\u206F\uFEFF\u{E0001}-\u{E007F}]|(?<!\p{Extended_Pictographic}\uFE0F?)[\u200C\u200D]/gu

const codeOf = (character: string) => `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`

export function splitHidden(text: string): readonly TextRun[] {
  const runs: TextRun[] = []
  let end = 0
  for (const match of text.matchAll(HIDDEN)) {
    if (match.index > end) runs.push({ text: text.slice(end, match.index), code: null })
    runs.push({ text: match[0], code: codeOf(match[0]) })
    end = match.index + match[0].length
  }
  if (end < text.length) runs.push({ text: text.slice(end), code: null })
  return runs
}

/** The distinct codes, in the order in which they stand in the text. */
export function listHidden(text: string): readonly string[] {
  return [...new Set(splitHidden(text).flatMap(({ code }) => code ?? []))]
}
