/** Setting text for a terminal: wrapping, indents, two-column tables. Control characters of foreign text are shown, not obeyed. */
import type { Money } from '../../domain/money.ts'

// A line that reads well in a terminal of 80 columns.
export const MEASURE = 78

/**
 * Foreign text made safe to print: escape sequences, zero-width and direction-overriding characters become visible `\u{…}`,
 * so that a title can neither recolour the terminal nor reorder what stands beside it.
 */
export function safe(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .replace(/[\p{Cc}\p{Cf}]/gu, (character) => `\\u{${character.codePointAt(0)?.toString(16)}}`)
}

export function wrap(text: string, indent = '', first = indent): string {
  const lines: string[] = []
  let line = first
  let empty = true
  for (const word of text.split(' ')) {
    if (!empty && line.length + 1 + word.length > MEASURE) {
      lines.push(line)
      line = indent
      empty = true
    }
    line += empty ? word : ` ${word}`
    empty = false
  }
  return [...lines, line].join('\n')
}

/** Rows of a name and its words, the words aligned and wrapped. */
export function table(rows: readonly (readonly [name: string, words: string])[], indent = '  '): string {
  const width = Math.max(0, ...rows.map(([name]) => name.length))
  const hang = ' '.repeat(indent.length + width + 2)
  return rows.map(([name, words]) => wrap(words, hang, `${indent}${name.padEnd(width)}  `)).join('\n')
}

/** Columns aligned by their widest cell, for short cells that are not wrapped. */
export function columns(rows: readonly (readonly string[])[], indent = '  '): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)))
  return rows.map((row) => (indent + row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  ')).trimEnd()).join('\n')
}

export function moneyText(money: Money | null): string {
  if (money === null) return 'unknown'
  return `${money.amount} ${money.currency ?? '(currency open)'}`
}

export function paragraphs(...parts: readonly (string | null | undefined | false)[]): string {
  return parts.filter((part): part is string => typeof part === 'string' && part !== '').join('\n\n')
}
