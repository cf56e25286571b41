/**
 * Messages between contexts: one `call` and one `handle`, both inferred from a map of methods. Payloads are parsed on both
 * sides, senders checked, every answer is a success-or-failure union, and an unknown method is answered with an error.
 * Must know no method by name: the maps live with the contexts.
 */
import * as v from 'valibot'
import type { Runtime } from 'webextension-polyfill'

export type Methods = { readonly [method: string]: { readonly params: unknown; readonly result: unknown } }

/** Who may send on a channel: a page of the extension (its background included), or its content script in a page. */
export type SenderKind = 'extension' | 'content-script'

type FaultCode =
  | 'no-receiver'
  | 'time-out'
  | 'aborted'
  | 'bad-message'
  | 'bad-params'
  | 'bad-result'
  | 'unknown-method'
  | 'refused-sender'
  | 'handler-failed'

export interface Fault {
  /** One of `FaultCode`, or a code of the handler's own (`CallFault`). */
  readonly code: FaultCode | (string & {})
  readonly message: string
}

export type Answer<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly fault: Fault }

/** Thrown by a handler that wants its caller to know which of several things went wrong. */
export class CallFault extends Error {
  override readonly name = 'CallFault'
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message)
  }
}

export interface MethodSchema<Params, Result> {
  readonly params: v.GenericSchema<unknown, Params>
  readonly result: v.GenericSchema<unknown, Result>
  /** Milliseconds; absent: `DEFAULT_TIMEOUT_MS`. */
  readonly timeoutMs?: number
}

export interface Channel<M extends Methods> {
  readonly name: string
  readonly sender: SenderKind
  readonly methods: { readonly [K in keyof M]: MethodSchema<M[K]['params'], M[K]['result']> }
}

export type Handlers<M extends Methods> = {
  readonly [K in keyof M]: (params: M[K]['params'], sender: Runtime.MessageSender) => Promise<M[K]['result']>
}

export interface CallOptions {
  readonly timeoutMs?: number
  readonly signal?: AbortSignal
}

export type Call<M extends Methods> = <K extends keyof M & string>(
  method: K,
  params: M[K]['params'],
  options?: CallOptions,
) => Promise<Answer<M[K]['result']>>

/** Carries one envelope to where the channel ends, and brings back whatever answers. */
export type Transport = (envelope: unknown) => Promise<unknown>

type Listener = (message: unknown, sender: Runtime.MessageSender) => Promise<unknown> | undefined

/** Where envelopes arrive. The browser's is in `message-wire.ts`; tests hand over their own. */
export interface Receiver {
  /** The extension's id and the prefix of its own pages' addresses. */
  readonly id: string
  readonly ownOrigin: string
  listen(listener: Listener): void
  unlisten(listener: Listener): void
}

/** Longer than any of ours takes on a slow machine, short enough that a person does not give up first. Ours, no source. */
const DEFAULT_TIMEOUT_MS = 10_000

const ENVELOPE = v.strictObject({ touchstone: v.string(), method: v.string(), params: v.unknown() })
const ANSWER = v.variant('ok', [
  v.strictObject({ ok: v.literal(true), value: v.unknown() }),
  v.strictObject({ ok: v.literal(false), fault: v.strictObject({ code: v.string(), message: v.string() }) }),
])

export const failure = (code: string, message: string): { ok: false; fault: Fault } => ({
  ok: false,
  fault: { code, message },
})

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

function faultsOf(issues: readonly v.BaseIssue<unknown>[]): string {
  return issues.map((issue) => `${v.getDotPath(issue) ?? '(whole)'}: ${issue.message}`).join('; ')
}

/** Calls on `channel` through `transport`. Never rejects: what goes wrong comes back as a fault. */
export function createCall<M extends Methods>(channel: Channel<M>, transport: Transport): Call<M> {
  return async (method, params, options = {}) => {
    const schema = channel.methods[method]
    if (schema === undefined) return failure('unknown-method', `${channel.name} has no method ${method}`)
    const { signal } = options
    const timeoutMs = options.timeoutMs ?? schema.timeoutMs ?? DEFAULT_TIMEOUT_MS
    if (signal?.aborted) return failure('aborted', `${method} was given up`)

    let timer: ReturnType<typeof setTimeout> | undefined
    let onAbort: (() => void) | undefined
    const givenUp = new Promise<Answer<never>>((resolve) => {
      timer = setTimeout(() => resolve(failure('time-out', `${method} took longer than ${timeoutMs} ms`)), timeoutMs)
      onAbort = () => resolve(failure('aborted', `${method} was given up`))
      signal?.addEventListener('abort', onAbort, { once: true })
    })
    const sent = transport({ touchstone: channel.name, method, params }).then(
      (raw): Answer<M[typeof method]['result']> => {
        // Nobody listened, or nobody felt spoken to: browsers answer `undefined` or `null`.
        if (raw === undefined || raw === null) return failure('no-receiver', `nobody answers ${channel.name}`)
        const answer = v.safeParse(ANSWER, raw)
        if (!answer.success) return failure('bad-result', faultsOf(answer.issues))
        if (!answer.output.ok) return answer.output
        const value = v.safeParse(schema.result, answer.output.value)
        return value.success ? { ok: true, value: value.output } : failure('bad-result', faultsOf(value.issues))
      },
      (error) => failure('no-receiver', wordsOf(error)),
    )
    try {
      return await Promise.race([sent, givenUp])
    } finally {
      clearTimeout(timer)
      if (onAbort) signal?.removeEventListener('abort', onAbort)
    }
  }
}

/** Answers `channel` until `signal` aborts. A handler table that misses a method does not compile. */
export function handle<M extends Methods>(
  channel: Channel<M>,
  handlers: Handlers<M>,
  receiver: Receiver,
  signal?: AbortSignal,
): void {
  const listener: Listener = (message, sender) => {
    // Another channel's message is another listener's business: no answer, so that theirs is not overtaken.
    if (typeof message !== 'object' || message === null || !('touchstone' in message)) return undefined
    if (message.touchstone !== channel.name) return undefined
    return answer(channel, handlers, message, sender, receiver)
  }
  receiver.listen(listener)
  signal?.addEventListener('abort', () => receiver.unlisten(listener), { once: true })
}

async function answer<M extends Methods>(
  channel: Channel<M>,
  handlers: Handlers<M>,
  message: object,
  sender: Runtime.MessageSender,
  receiver: Receiver,
): Promise<Answer<unknown>> {
  if (senderKind(sender, receiver) !== channel.sender) {
    return failure('refused-sender', `${channel.name} is not for this sender`)
  }
  const envelope = v.safeParse(ENVELOPE, message)
  if (!envelope.success) return failure('bad-message', faultsOf(envelope.issues))
  const { method } = envelope.output
  if (!Object.hasOwn(channel.methods, method) || !Object.hasOwn(handlers, method)) {
    return failure('unknown-method', `${channel.name} has no method ${method}`)
  }
  const params = v.safeParse(channel.methods[method]!.params, envelope.output.params)
  if (!params.success) return failure('bad-params', `${method}: ${faultsOf(params.issues)}`)
  try {
    return { ok: true, value: await handlers[method]!(params.output, sender) }
  } catch (error) {
    return error instanceof CallFault
      ? failure(error.code, error.message)
      : failure('handler-failed', `${method}: ${wordsOf(error)}`)
  }
}

/** A page of ours has our own origin, in a tab as in a panel; a content script has the page's, and always a tab. */
function senderKind(sender: Runtime.MessageSender, receiver: Receiver): SenderKind | 'foreign' {
  if (sender.id !== receiver.id) return 'foreign'
  if (sender.url?.startsWith(receiver.ownOrigin)) return 'extension'
  if (sender.tab !== undefined) return sender.frameId === 0 ? 'content-script' : 'foreign'
  // Chromium's service worker sends without an address.
  return sender.url === undefined ? 'extension' : 'foreign'
}
