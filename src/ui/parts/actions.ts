/**
 * Runs what a person asked for through a port: marks it busy, announces how it ended, and turns a failure into a shown
 * fault. One action of a name runs at a time; a second press while it runs does nothing.
 */
import { type ReadonlySignal, signal } from '@preact/signals'
import { type Fault, isCancelled, toFault } from '../fault.ts'

export interface Notice {
  readonly id: number
  /** Words for everybody, or a fault with its own sentence and remedy. */
  readonly text: string | null
  readonly fault: Fault | null
  readonly undo: (() => void) | null
}

export interface Actions {
  readonly busy: ReadonlySignal<ReadonlySet<string>>
  readonly notice: ReadonlySignal<Notice | null>
  /** Resolves `true` when the port did. `done` is what to say then; nothing is said without it. */
  run(name: string, port: () => Promise<unknown>, done?: string | (() => string | null)): Promise<boolean>
  say(text: string, undo?: () => void): void
  dismiss(): void
}

export function createActions(): Actions {
  const busy = signal<ReadonlySet<string>>(new Set())
  const notice = signal<Notice | null>(null)
  let count = 0
  const post = (text: string | null, fault: Fault | null, undo: (() => void) | null) => {
    count += 1
    notice.value = { id: count, text, fault, undo }
  }
  const without = (name: string) => new Set([...busy.value].filter((other) => other !== name))
  return {
    busy,
    notice,
    async run(name, port, done) {
      if (busy.value.has(name)) return false
      busy.value = new Set([...busy.value, name])
      try {
        await port()
        const text = typeof done === 'function' ? done() : (done ?? null)
        if (text !== null) post(text, null, null)
        return true
      } catch (error) {
        if (!isCancelled(error)) post(null, toFault(error), null)
        return false
      } finally {
        busy.value = without(name)
      }
    },
    say: (text, undo) => post(text, null, undo ?? null),
    dismiss() {
      notice.value = null
    },
  }
}
