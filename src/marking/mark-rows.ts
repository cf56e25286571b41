/**
 * Marks on the rows of a results page, laid over each row's lower right corner, where a row has the fewest words. The page's
 * own rows are not touched.
 */
import type { Layer } from './layer.ts'
import { drawRowShape } from './shapes.ts'

export interface RowMarkContent {
  readonly label: string
  readonly detail: string
  readonly kind: 'concerns' | 'kept' | 'not-a-single-card' | 'wanted'
}

/** CSS pixels from the row's corner inwards. */
const INSET = 6

/** Returns what takes the marks away. */
export function markRows(layer: Layer, rows: readonly { row: Element; content: RowMarkContent }[]): () => void {
  const { document } = layer
  const marks = rows.map(({ row, content }) => {
    const mark = document.createElement('span')
    mark.className = 'tag still'
    mark.title = content.detail
    mark.setAttribute('role', 'note')
    mark.setAttribute('aria-label', `${content.label}. ${content.detail}`)
    const label = document.createElement('span')
    label.textContent = content.label
    mark.append(drawRowShape(document, content.kind), label)
    layer.add({
      node: mark,
      place: () => {
        const box = row.getBoundingClientRect()
        if (box.width === 0 || box.height === 0) return null
        return { left: box.right - mark.offsetWidth - INSET, top: box.bottom - mark.offsetHeight - INSET }
      },
    })
    return mark
  })
  return () => {
    for (const mark of marks) layer.take(mark)
  }
}
