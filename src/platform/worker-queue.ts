/**
 * One worker, one task at a time. A given-up task ends its worker at once; a worker is renewed after a number of tasks, since
 * WebAssembly memory never shrinks, and let go when idle. Knows nothing of what the worker does.
 */

export interface WorkerQueueOptions {
  readonly create: () => Worker
  /** Tasks after which the worker is replaced. */
  readonly renewAfter?: number
  /** Milliseconds without a task after which it is let go. */
  readonly idleMs?: number
  /** Milliseconds after which a task has failed. */
  readonly timeoutMs?: number
}

export interface WorkerQueue<Task, Result> {
  /**
   * `onEarly` hears of what the worker knows before it is done. Rejects with the signal's reason when given up, and with the worker's
   * own words when it failed.
   */
  run(task: Task, transfer: Transferable[], signal?: AbortSignal, onEarly?: (result: Result) => void): Promise<Result>
  close(): void
}

/** What a worker of ours posts for each task. */
export type WorkerAnswer<Result> =
  | { readonly early: Result }
  | { readonly ok: true; readonly result: Result }
  | { readonly ok: false; readonly message: string }

// About a listing's photos twice over; each may leave some tens of MB of wasm memory behind. Ours, no source.
const RENEW_AFTER = 40
const IDLE_MS = 30_000
// A large photo takes a slow machine some seconds, loading the wasm some more. Ours, no source.
const TIMEOUT_MS = 60_000

export function createWorkerQueue<Task, Result>(options: WorkerQueueOptions): WorkerQueue<Task, Result> {
  const { create, renewAfter = RENEW_AFTER, idleMs = IDLE_MS, timeoutMs = TIMEOUT_MS } = options
  let worker: Worker | null = null
  let done = 0
  let idle: ReturnType<typeof setTimeout> | undefined
  let last: Promise<unknown> = Promise.resolve()

  function letGo(): void {
    clearTimeout(idle)
    worker?.terminate()
    worker = null
    done = 0
  }

  function work(
    task: Task,
    transfer: Transferable[],
    signal?: AbortSignal,
    onEarly?: (result: Result) => void,
  ): Promise<Result> {
    signal?.throwIfAborted()
    clearTimeout(idle)
    worker ??= create()
    const present = worker
    return new Promise<Result>((resolve, reject) => {
      const over = new AbortController()
      const end = (settle: () => void, broken: boolean) => {
        over.abort()
        clearTimeout(timer)
        done++
        if (broken || done >= renewAfter) letGo()
        else idle = setTimeout(letGo, idleMs)
        settle()
      }
      const timer = setTimeout(() => end(() => reject(new Error(`no answer within ${timeoutMs} ms`)), true), timeoutMs)
      const heard = { signal: over.signal }
      present.addEventListener(
        'message',
        ({ data }: MessageEvent<WorkerAnswer<Result>>) => {
          if ('early' in data) return onEarly?.(data.early)
          end(() => (data.ok ? resolve(data.result) : reject(new Error(data.message))), false)
        },
        heard,
      )
      present.addEventListener(
        'error',
        (event) => end(() => reject(new Error(event.message || 'the worker could not start')), true),
        heard,
      )
      signal?.addEventListener('abort', () => end(() => reject(signal.reason), true), heard)
      present.postMessage(task, transfer)
    })
  }

  return {
    run(task, transfer, signal, onEarly) {
      const result = last.then(
        () => work(task, transfer, signal, onEarly),
        () => work(task, transfer, signal, onEarly),
      )
      last = result
      return result
    },
    close: letGo,
  }
}
