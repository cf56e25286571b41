/** Tells every open window of ours which record was written, so that no screen shows an old one. */

export interface RecordChange {
  readonly store: string
  /** `null`: many at once, read everything again. */
  readonly id: string | null
}

const CHANNEL = 'touchstone-records'

export function announce(change: RecordChange): void {
  const channel = new BroadcastChannel(CHANNEL)
  channel.postMessage(change)
  channel.close()
}

/** Calls `listen` for every change made by another window, until `signal` aborts. */
export function watchRecords(listen: (change: RecordChange) => void, signal: AbortSignal): void {
  const channel = new BroadcastChannel(CHANNEL)
  channel.onmessage = (event: MessageEvent<RecordChange>) => listen(event.data)
  signal.addEventListener('abort', () => channel.close(), { once: true })
}
