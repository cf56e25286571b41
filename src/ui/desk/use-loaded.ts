/** What a port answers, while it is asked, when it answered and when it failed. An answer that comes too late is dropped. */
import { useEffect, useState } from 'preact/hooks'
import { type Fault, toFault } from '../fault.ts'

export type Loaded<T> =
  | { readonly phase: 'loading' }
  | { readonly phase: 'ready'; readonly value: T }
  | { readonly phase: 'failed'; readonly fault: Fault }

/** Asks again whenever one of `keys` changes, and shows the former answer until the new one is there. */
export function useLoaded<T>(load: () => Promise<T>, keys: readonly unknown[]): Loaded<T> {
  const [loaded, setLoaded] = useState<Loaded<T>>({ phase: 'loading' })
  useEffect(() => {
    let left = false
    load().then(
      (value) => {
        if (!left) setLoaded({ phase: 'ready', value })
      },
      (error: unknown) => {
        if (!left) setLoaded({ phase: 'failed', fault: toFault(error) })
      },
    )
    return () => {
      left = true
    }
  }, keys)
  return loaded
}
