/** Answers travel in both browsers' ways: `true` at once and the words later; a listener that is not meant stays silent. */
import { afterEach, expect, it, vi } from 'vitest'
import type { RuntimeListener } from '../../../src/platform/extension-runtime.ts'
import { isConnected } from '../../../src/platform/extension-runtime.ts'
import { browserReceiver, toExtension } from '../../../src/platform/message-wire.ts'

const listeners = new Set<RuntimeListener>()
const runtime = {
  id: 'touchstone-in-test' as string | undefined,
  getURL: (path: string) => `extension://touchstone-in-test/${path}`,
  sendMessage: vi.fn(async (message: unknown) => message),
  onMessage: {
    addListener: (listener: RuntimeListener) => void listeners.add(listener),
    removeListener: (listener: RuntimeListener) => void listeners.delete(listener),
  },
}
afterEach(() => vi.unstubAllGlobals())

it.each(['browser', 'chrome'])('works on the namespace %s', async (namespace) => {
  vi.stubGlobal(namespace, { runtime })
  const receiver = browserReceiver()
  const listener = (message: unknown) => (message === 'mine' ? Promise.resolve('answer') : undefined)
  receiver.listen(listener)
  const [wire] = listeners
  const respond = vi.fn()
  expect(wire?.('other', {}, respond)).toBeUndefined()
  expect(wire?.('mine', {}, respond)).toBe(true)
  await vi.waitFor(() => expect(respond).toHaveBeenCalledExactlyOnceWith('answer'))
  receiver.unlisten(listener)
  expect(listeners.size).toBe(0)
  expect(await toExtension('hello')).toBe('hello')
})

it('knows when its extension is gone', () => {
  expect(isConnected()).toBe(false)
  vi.stubGlobal('chrome', { runtime })
  expect(isConnected()).toBe(true)
  vi.stubGlobal('chrome', { runtime: { ...runtime, id: undefined } })
  expect(isConnected()).toBe(false)
  vi.stubGlobal('chrome', {})
  expect(isConnected()).toBe(false)
})
