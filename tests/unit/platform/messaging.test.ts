import * as v from 'valibot'
import { describe, expect, it } from 'vitest'
import { CallFault, type Channel, createCall, type Handlers, handle } from '../../../src/platform/messaging.ts'
import { createFakeWire } from './fake-wire.ts'

type Sums = {
  add: { params: { a: number; b: number }; result: number }
  wait: { params: { ms: number }; result: null }
  lie: { params: null; result: string }
  fail: { params: { code: string | null }; result: null }
}

const SUMS: Channel<Sums> = {
  name: 'sums',
  sender: 'extension',
  methods: {
    add: { params: v.strictObject({ a: v.number(), b: v.number() }), result: v.number() },
    wait: { params: v.strictObject({ ms: v.number() }), result: v.null() },
    lie: { params: v.null(), result: v.string() },
    fail: { params: v.strictObject({ code: v.nullable(v.string()) }), result: v.null() },
  },
}

const HANDLERS: Handlers<Sums> = {
  add: async ({ a, b }) => a + b,
  wait: async ({ ms }) => new Promise((resolve) => setTimeout(() => resolve(null), ms)),
  lie: async () => 7 as unknown as string,
  fail: async ({ code }) => {
    if (code !== null) throw new CallFault(code, 'said so')
    throw new Error('broke')
  },
}

function connect(sender = {}) {
  const wire = createFakeWire()
  const stop = new AbortController()
  handle(SUMS, HANDLERS, wire.receiver, stop.signal)
  return { wire, stop, call: createCall(SUMS, wire.transport(sender)) }
}

const faultOf = (answer: { ok: boolean; fault?: { code: string } }) => (answer.ok ? null : answer.fault?.code)

describe('messages between contexts', () => {
  it('bring the result back', async () => {
    expect(await connect().call('add', { a: 2, b: 3 })).toEqual({ ok: true, value: 5 })
  })

  it('refuse parameters that do not parse', async () => {
    const answer = await connect().call('add', { a: 2, b: '3' } as never)
    expect(faultOf(answer)).toBe('bad-params')
    expect(answer.ok ? '' : answer.fault.message).toContain('b: ')
  })

  it('refuse a result that does not parse', async () => {
    expect(faultOf(await connect().call('lie', null))).toBe('bad-result')
  })

  it('answer an unknown method with an error, inherited names included', async () => {
    const { wire } = connect()
    for (const method of ['subtract', 'toString', '__proto__']) {
      const raw = await wire.transport()({ touchstone: 'sums', method, params: null })
      expect(faultOf(raw as never)).toBe('unknown-method')
    }
  })

  it('answer an envelope with more or less in it than there should be with an error', async () => {
    const { wire } = connect()
    expect(faultOf((await wire.transport()({ touchstone: 'sums' })) as never)).toBe('bad-message')
  })

  it("leave another channel's messages to others", async () => {
    const { wire } = connect()
    await expect(wire.transport()({ touchstone: 'other', method: 'add', params: null })).rejects.toThrow()
    await expect(wire.transport()('a stranger')).rejects.toThrow()
  })

  it('give up in time, and say so', async () => {
    expect(faultOf(await connect().call('wait', { ms: 500 }, { timeoutMs: 10 }))).toBe('time-out')
  })

  it('are given up by their signal', async () => {
    const stop = new AbortController()
    const answer = connect().call('wait', { ms: 500 }, { signal: stop.signal })
    stop.abort()
    expect(faultOf(await answer)).toBe('aborted')
    expect(faultOf(await connect().call('wait', { ms: 5 }, { signal: stop.signal }))).toBe('aborted')
  })

  it('say that nobody listens, instead of never answering', async () => {
    const { call, stop } = connect()
    stop.abort()
    expect(faultOf(await call('add', { a: 1, b: 1 }))).toBe('no-receiver')
    expect(faultOf(await createCall(SUMS, async () => undefined)('add', { a: 1, b: 1 }))).toBe('no-receiver')
  })

  it("carry a handler's own code, and hide nothing of what broke", async () => {
    const { call } = connect()
    expect(await call('fail', { code: 'forbidden-page' })).toEqual({
      ok: false,
      fault: { code: 'forbidden-page', message: 'said so' },
    })
    expect(await call('fail', { code: null })).toEqual({
      ok: false,
      fault: { code: 'handler-failed', message: 'fail: broke' },
    })
  })

  it.each([
    ['another extension', { id: 'someone-else' }],
    ['a content script', { url: 'https://lots.example/1', tab: { id: 1 }, frameId: 0 }],
    ['a page whose address only begins like ours', { url: 'extension://touchstone-in-test.example/', tab: { id: 1 } }],
  ])('refuse %s on a channel for our own pages', async (_who, sender) => {
    expect(faultOf(await connect(sender).call('add', { a: 1, b: 1 }))).toBe('refused-sender')
  })

  it('take a content script of the top frame, and no other, where one is meant', async () => {
    const wire = createFakeWire()
    const channel: Channel<Sums> = { ...SUMS, sender: 'content-script' }
    handle(channel, HANDLERS, wire.receiver)
    const from = (sender: object) => createCall(channel, wire.transport(sender))('add', { a: 1, b: 1 })
    const page = { url: 'https://lots.example/1', tab: { id: 1 } }
    expect((await from({ ...page, frameId: 0 })).ok).toBe(true)
    expect(faultOf(await from({ ...page, frameId: 3 }))).toBe('refused-sender')
    expect(faultOf(await from({}))).toBe('refused-sender')
  })
})
