/**
 * JSON as it really stands in pages: with comments, trailing commas, raw line ends in strings, entities, two values in a row.
 * Strict first, mended only when that fails. Never throws; size is bounded before anything is read.
 */

/** Characters of one script; a larger one is state for an application, and reading it would hold the page up. */
export const JSON_LIMIT = 4_000_000

export function parseStrictJson(text: string): { value: unknown } | null {
  try {
    return { value: JSON.parse(text) }
  } catch {
    return null
  }
}

/** The values found, in order; none where nothing could be made of the text. */
export function parseTolerantJson(source: string, limit = JSON_LIMIT): unknown[] {
  if (source.length > limit) return []
  const text = source.replace(/^\ufeff/, '').trim()
  if (!text) return []
  const strict = parseStrictJson(text)
  if (strict) return [strict.value]
  const bare = text
    .replace(/^(?:<!--|\/\*\s*<!\[CDATA\[\s*\*\/|\/\/\s*<!\[CDATA\[|<!\[CDATA\[)/, '')
    .replace(/(?:-->|\/\*\s*\]\]>\s*\*\/|\/\/\s*\]\]>|\]\]>)\s*$/, '')
  for (const candidate of [bare, decodeEntities(bare)]) {
    const mended = mendJson(candidate)
    const parsed = parseStrictJson(mended)
    if (parsed) return [parsed.value]
    const pieces = splitValues(mended)
    const values = pieces.map(parseStrictJson).filter((piece) => piece !== null)
    if (values.length > 0) return values.map((piece) => piece.value)
  }
  return []
}

function decodeEntities(text: string): string {
  return text
    .replace(/&quot;|&#34;|&#x22;/gi, '"')
    .replace(/&#39;|&#x27;|&apos;/gi, "'")
    .replace(/&lt;/gi, '<')
    .replace(/&gt;/gi, '>')
    .replace(/&amp;/gi, '&')
}

/** Comments out, trailing commas out, control characters in strings escaped, `;` at the end out. */
function mendJson(text: string): string {
  const out: string[] = []
  let from = 0
  let at = 0
  const keep = (end: number): void => {
    if (end > from) out.push(text.slice(from, end))
  }
  while (at < text.length) {
    const char = text[at]!
    if (char === '"') {
      at += 1
      while (at < text.length && text[at] !== '"') {
        if (text[at] === '\\') {
          // A backslash before anything that JSON does not know is dropped.
          if (!/["\\/bfnrtu]/.test(text[at + 1] ?? '')) {
            keep(at)
            from = at + 1
          }
          at += 2
          continue
        }
        if (text.charCodeAt(at) < 32) {
          keep(at)
          out.push(text[at] === '\n' ? '\\n' : ' ')
          from = at + 1
        }
        at += 1
      }
      at += 1
    } else if (char === '/' && (text[at + 1] === '*' || text[at + 1] === '/')) {
      keep(at)
      const close = text[at + 1] === '*' ? text.indexOf('*/', at + 2) : text.indexOf('\n', at)
      at = close < 0 ? text.length : close + (text[at + 1] === '*' ? 2 : 0)
      from = at
    } else if (char === ',' && /^,\s*(?:\/\*[\s\S]*?\*\/\s*|\/\/[^\n]*\n\s*)*[\]},]/.test(text.slice(at, at + 400))) {
      keep(at)
      at += 1
      from = at
    } else at += 1
  }
  keep(text.length)
  return out.join('').trim().replace(/;\s*$/, '')
}

/** Values that stand one behind the other, cut at top-level closing brackets. */
function splitValues(text: string): string[] {
  const pieces: string[] = []
  let depth = 0
  let start = -1
  let quoted = false
  for (let at = 0; at < text.length && pieces.length < 50; at += 1) {
    const char = text[at]
    if (quoted) {
      if (char === '\\') at += 1
      else if (char === '"') quoted = false
    } else if (char === '"') quoted = depth > 0
    else if (char === '{' || char === '[') {
      if (depth === 0) start = at
      depth += 1
    } else if ((char === '}' || char === ']') && depth > 0) {
      depth -= 1
      if (depth === 0 && start >= 0) pieces.push(text.slice(start, at + 1))
    }
  }
  return pieces
}

export function isPlainObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
