/** One long piece of work of a screen: how far it is, and a way to stop it. Leaving the screen stops it too. */
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Working } from './ledger-ports.ts'

export interface Work {
  /** Share done, 0–1; `null` while nothing runs. */
  readonly share: number | null
  start<T>(task: (working: Working) => Promise<T>): Promise<T>
  cancel(): void
}

export function useWork(): Work {
  const [share, setShare] = useState<number | null>(null)
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  return {
    share,
    async start(task) {
      running.current?.abort()
      const control = new AbortController()
      running.current = control
      setShare(0)
      try {
        return await task({ signal: control.signal, onProgress: setShare })
      } finally {
        if (running.current === control) {
          running.current = null
          setShare(null)
        }
      }
    },
    cancel: () => running.current?.abort(),
  }
}
