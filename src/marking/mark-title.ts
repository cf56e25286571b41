/** The small mark beside a listing's title: stance by shape, how many concerns by word. A click asks for the panel. */
import type { Stance } from '../domain/inspection.ts'
import type { Layer } from './layer.ts'
import { drawStance } from './shapes.ts'

export interface TitleMarkContent {
  readonly stance: Stance
  readonly label: string
  readonly description: string
}

/** CSS pixels between the title's last word and the mark. */
const GAP = 10

/** Puts the mark at the end of `title`'s words; returns what takes it away. */
export function markTitle(layer: Layer, title: Range, content: TitleMarkContent, onClick: () => void): () => void {
  const { document } = layer
  const button = document.createElement('button')
  button.type = 'button'
  button.className = 'tag'
  button.title = content.description
  button.setAttribute('aria-label', content.description)
  const label = document.createElement('span')
  label.textContent = content.label
  button.append(drawStance(document, content.stance), label)
  button.addEventListener('click', (event) => {
    event.stopPropagation()
    onClick()
  })
  layer.add({
    node: button,
    place: () => {
      const lines = title.getClientRects()
      const last = lines[lines.length - 1]
      if (last === undefined || (last.width === 0 && last.height === 0)) return null
      const { offsetWidth: width, offsetHeight: height } = button
      const beside = last.right + GAP
      const room = document.documentElement.clientWidth - beside
      if (room >= Math.max(width, 1)) return { left: beside, top: last.top + (last.height - height) / 2 }
      // No room at the line's end: above its right end, where a title has its margin, or else below it.
      const above = lines[0]!.top - height - 2
      const onPage = above + (document.defaultView?.scrollY ?? 0) >= 0
      return { left: Math.max(0, last.right - width), top: onPage ? above : last.bottom + 2 }
    },
  })
  return () => layer.take(button)
}
