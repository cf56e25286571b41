/**
 * A record that is changed on the screen and written by itself a moment later: every change at once here, one write at a time there.
 * What is still unwritten when the screen is left is written then.
 */
import { useEffect, useRef, useState } from 'preact/hooks'
import { type Fault, toFault } from '../fault.ts'

export type Saving = { readonly phase: 'saved' | 'saving' } | { readonly phase: 'failed'; readonly fault: Fault }

/** Long enough that typing is written by words, short enough that nobody leaves before. Milliseconds, ours. */
const REST_MS = 400

interface Revised {
  readonly revision: number
}

export function useDraft<T extends object, R extends T & Revised>(
  record: R,
  pick: (record: R) => T,
  save: (draft: T, revision: number) => Promise<R>,
) {
  const [draft, setDraft] = useState<T>(() => pick(record))
  const [saving, setSaving] = useState<Saving>({ phase: 'saved' })
  const state = useRef({ draft, revision: record.revision, written: draft, timer: 0, left: false })
  const writing = useRef<Promise<void>>(Promise.resolve())
  const store = useRef(save)
  store.current = save

  const write = (): Promise<void> => {
    clearTimeout(state.current.timer)
    writing.current = writing.current.then(async () => {
      const { draft: now, written, revision } = state.current
      if (now === written) return
      try {
        const kept = await store.current(now, revision)
        state.current.revision = kept.revision
        state.current.written = now
        if (!state.current.left) setSaving(state.current.draft === now ? { phase: 'saved' } : { phase: 'saving' })
      } catch (error) {
        if (!state.current.left) setSaving({ phase: 'failed', fault: toFault(error) })
      }
    })
    return writing.current
  }

  const change = (next: (draft: T) => T) => {
    state.current.draft = next(state.current.draft)
    setDraft(state.current.draft)
    setSaving((before) => (before.phase === 'failed' ? before : { phase: 'saving' }))
    clearTimeout(state.current.timer)
    state.current.timer = setTimeout(write, REST_MS) as unknown as number
  }

  useEffect(() => {
    const leave = () => void write()
    // A closing window gets no further chance.
    addEventListener('pagehide', leave)
    document.addEventListener('visibilitychange', leave)
    return () => {
      state.current.left = true
      removeEventListener('pagehide', leave)
      document.removeEventListener('visibilitychange', leave)
      void write()
    }
  }, [])

  return { draft, change, saving, /** Writes what is still unwritten, now. */ settle: write }
}
