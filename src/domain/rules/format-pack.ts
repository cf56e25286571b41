/**
 * The canonical form of a pack: what `check-rules` compares with and what a shared pack is written as.
 * Two blanks a level; what fits on one line stands on one; keys keep their order. The linter's formatter leaves it alone.
 */
const WIDTH = 120

/** JSON text with a final line end. `formatPack(JSON.parse(text)) === text` for every text in canonical form. */
export function formatPack(pack: unknown): string {
  return `${write(pack, 0, 0, true)}\n`
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`
  if (isObject(value)) {
    const entries = Object.entries(value).filter(([, item]) => item !== undefined)
    if (entries.length === 0) return '{}'
    return `{ ${entries.map(([key, item]) => `${JSON.stringify(key)}: ${onOneLine(item)}`).join(', ')} }`
  }
  return JSON.stringify(value)
}

/** Lists of several objects with several keys each are read more easily one below the other. */
function mustBreak(value: unknown): boolean {
  if (Array.isArray(value)) {
    const rows = value.length > 1 && value.every((item) => isObject(item) && Object.keys(item).length > 1)
    const columns = value.length > 1 && value.every((item) => Array.isArray(item) && item.length > 1)
    return rows || columns || value.some(mustBreak)
  }
  return isObject(value) && Object.values(value).some(mustBreak)
}

function write(value: unknown, depth: number, before: number, outermost = false): string {
  const line = onOneLine(value)
  // One column is kept for a comma.
  if (!outermost && !mustBreak(value) && before + line.length < WIDTH) return line
  const inner = '  '.repeat(depth + 1)
  const close = '  '.repeat(depth)
  if (Array.isArray(value)) {
    const items = value.map((item) => inner + write(item, depth + 1, inner.length))
    return `[\n${items.join(',\n')}\n${close}]`
  }
  if (isObject(value)) {
    const items = Object.entries(value)
      .filter(([, item]) => item !== undefined)
      .map(([key, item]) => {
        const head = `${inner}${JSON.stringify(key)}: `
        return head + write(item, depth + 1, head.length)
      })
    return `{\n${items.join(',\n')}\n${close}}`
  }
  return line
}
