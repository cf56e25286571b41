/** Writing HTML by hand without a hole: every value is escaped unless it is markup of ours. */

export class Markup {
  constructor(readonly html: string) {}
}

type Part = string | number | Markup | null | readonly Part[]

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }

function write(part: Part): string {
  if (part === null) return ''
  if (part instanceof Markup) return part.html
  if (Array.isArray(part)) return part.map(write).join('')
  // Control characters have no place in HTML and could end a reader's terminal; white space stays.
  return String(part)
    .replace(/[&<>"']/g, (sign) => SIGNS[sign]!)
    .replace(/(?![\t\n\r])\p{Cc}/gu, '\ufffd')
}

/** A template tag. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  return new Markup(strings.map((text, index) => text + write(parts[index] ?? null)).join(''))
}
