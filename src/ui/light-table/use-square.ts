/** A kept picture laid square, while it is asked for, when it came, and when no piece was found in it. Lets go of its pixels when left. */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { type Fault, isCancelled, toFault } from '../fault.ts'
import { closeSquare, type PieceCorners, type Size, type SquarePicture } from './square-picture.ts'

export type LoadedSquare =
  | { readonly phase: 'none' }
  | { readonly phase: 'loading' }
  | { readonly phase: 'ready'; readonly square: SquarePicture }
  | { readonly phase: 'failed'; readonly fault: Fault }

/** Corners change with every move of a hand; laying anew waits until it rests. Milliseconds, ours. */
const REST_MS = 250

export function useSquare(sha256: string | null, corners: PieceCorners, size: Size): LoadedSquare {
  const { ports } = useDesk()
  const [loaded, setLoaded] = useState<LoadedSquare>({ phase: 'none' })
  /** The one on the screen: let go of only when another has taken its place. */
  const held = useRef<{ readonly sha256: string; readonly square: SquarePicture } | null>(null)
  const letGo = () => {
    const gone = held.current?.square
    held.current = null
    // Whoever draws it in this frame has drawn it by then.
    if (gone !== undefined) setTimeout(() => closeSquare(gone), 1_000)
  }
  useEffect(() => letGo, [])
  useEffect(() => {
    if (sha256 === null) return setLoaded({ phase: 'none' })
    const over = new AbortController()
    const shown = held.current?.sha256 === sha256
    if (!shown) setLoaded({ phase: 'loading' })
    const load = async () => {
      try {
        const blob = await ports.openBlob(sha256)
        if (over.signal.aborted) return
        if (blob === null) throw new Error('the picture is no longer kept')
        const square = await ports.laySquare(blob, corners, size, over.signal)
        if (over.signal.aborted) return closeSquare(square)
        letGo()
        held.current = { sha256, square }
        setLoaded({ phase: 'ready', square })
      } catch (error) {
        if (!over.signal.aborted && !isCancelled(error)) setLoaded({ phase: 'failed', fault: toFault(error) })
      }
    }
    const timer = setTimeout(load, shown ? REST_MS : 0)
    return () => {
      clearTimeout(timer)
      over.abort()
    }
  }, [sha256, JSON.stringify([corners, size]), ports])
  return loaded
}
