/**
 * What is a letter, asked of single UTF-16 units. A regular expression with `\p{L}` costs some tenths of a millisecond to build, and
 * many times that where it also ignores case; on a page that is read once, building them would cost more than reading.
 * Knows the letters of the scripts that pages are written in, not those beyond the basic plane.
 */

/** First and last unit of runs of letters above ASCII, in order; marks, digits and punctuation between them are few and left in. */
const RUNS = [
  0xaa, 0xaa, 0xb5, 0xb5, 0xba, 0xba, 0xc0, 0xd6, 0xd8, 0xf6, 0xf8, 0x2c1, 0x370, 0x373, 0x376, 0x377, 0x37b, 0x37d,
  0x386, 0x386, 0x388, 0x481, 0x48a, 0x556, 0x561, 0x587, 0x5d0, 0x5f2, 0x620, 0x64a, 0x671, 0x6d3, 0x904, 0x939, 0x985,
  0x9b9, 0xe01, 0xe30, 0x10a0, 0x10fa, 0x1100, 0x1248, 0x1e00, 0x1fbc, 0x2c00, 0x2cee, 0x3005, 0x3007, 0x3031, 0x3035,
  0x3041, 0x3096, 0x309d, 0x309f, 0x30a1, 0x30fa, 0x30fc, 0x312f, 0x3400, 0x4dbf, 0x4e00, 0x9fff, 0xac00, 0xd7a3,
  0xf900, 0xfaff, 0xff21, 0xff3a, 0xff41, 0xff5a, 0xff66, 0xff9d,
]

export function isLetter(code: number): boolean {
  if (code < 0x80) return (code >= 97 && code <= 122) || (code >= 65 && code <= 90)
  for (let i = 0; i < RUNS.length; i += 2) if (code <= RUNS[i + 1]!) return code >= RUNS[i]!
  return false
}

export function isDigit(code: number): boolean {
  return code >= 48 && code <= 57
}

export function hasLetter(text: string): boolean {
  return countLetters(text, 1) === 1
}

/** Number of letters, counted up to `limit`. */
export function countLetters(text: string, limit = Number.POSITIVE_INFINITY): number {
  let count = 0
  for (let at = 0; at < text.length && count < limit; at += 1) if (isLetter(text.charCodeAt(at))) count += 1
  return count
}

/** Runs of letters and digits, as written. A vowel with a mark of its own (decomposed text) is cut at the mark. */
export function wordsOf(text: string): string[] {
  const words: string[] = []
  let start = -1
  for (let at = 0; at <= text.length; at += 1) {
    const code = at < text.length ? text.charCodeAt(at) : 0
    if (isLetter(code) || isDigit(code)) {
      if (start < 0) start = at
    } else if (start >= 0) {
      words.push(text.slice(start, at))
      start = -1
    }
  }
  return words
}
