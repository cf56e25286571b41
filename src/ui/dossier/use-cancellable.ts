/** Work on photos that takes its time: how far it is, and a way to give it up. */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import type { ReplyProgress } from './dossier-ports.ts'

export interface Cancellable {
  readonly progress: { readonly done: number; readonly total: number } | null
  /** Resolves `true` when it was done; given up, nothing was kept. */
  run(name: string, work: (progress: ReplyProgress) => Promise<unknown>, said: string): Promise<boolean>
  cancel(): void
}

export function useCancellable(): Cancellable {
  const { actions } = useDesk()
  const [progress, setProgress] = useState<Cancellable['progress']>(null)
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  return {
    progress,
    async run(name, work, said) {
      const mine = new AbortController()
      running.current = mine
      setProgress({ done: 0, total: 0 })
      try {
        const onPhoto = (done: number, total: number) => setProgress({ done, total })
        return await actions.run(name, () => work({ signal: mine.signal, onPhoto }), said)
      } finally {
        setProgress(null)
      }
    },
    cancel: () => running.current?.abort(),
  }
}
