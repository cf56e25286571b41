/** Files dropped onto a place: whether something hangs over it, and the handlers for its element. What else is dragged is left alone. */
import { useState } from 'preact/hooks'

interface FileDrop {
  readonly over: boolean
  readonly handlers: {
    onDragOver(event: DragEvent): void
    onDragLeave(): void
    onDrop(event: DragEvent): void
  }
}

export function useFileDrop(take: (files: readonly File[]) => void): FileDrop {
  const [over, setOver] = useState(false)
  return {
    over,
    handlers: {
      onDragOver(event) {
        if (event.dataTransfer?.types.includes('Files') === false) return
        event.preventDefault()
        setOver(true)
      },
      onDragLeave: () => setOver(false),
      onDrop(event) {
        setOver(false)
        const files = [...(event.dataTransfer?.files ?? [])]
        if (files.length === 0) return
        event.preventDefault()
        take(files)
      },
    },
  }
}
