/** Work that says how far it is, and a way to give it up. Left, it is given up. */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import type { Progress } from '../desk/desk-ports.ts'

export interface ProgressWork {
  /** 0–1; `null`: nothing runs. */
  readonly share: number | null
  /** `work` answers what to say when it is done. */
  run(name: string, work: (progress: Progress) => Promise<string>): Promise<void>
  cancel(): void
}

export function useProgress(): ProgressWork {
  const { actions } = useDesk()
  const [share, setShare] = useState<number | null>(null)
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])
  return {
    share,
    async run(name, work) {
      const mine = new AbortController()
      running.current = mine
      setShare(0)
      let said = ''
      await actions.run(
        name,
        async () => {
          said = await work({ signal: mine.signal, onProgress: setShare })
        },
        () => said,
      )
      setShare(null)
    },
    cancel: () => running.current?.abort(),
  }
}
