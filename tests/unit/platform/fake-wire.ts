/** Both ends of a channel in one process, for tests: messages are cloned as the browser would, listeners answer in order. */
import type { Runtime } from 'webextension-polyfill'
import type { Receiver, Transport } from '../../../src/platform/messaging.ts'

type Listener = Parameters<Receiver['listen']>[0]

export interface FakeWire {
  readonly receiver: Receiver
  /** Sends as `sender`, by default as a page of the extension. */
  transport(sender?: Partial<Runtime.MessageSender>): Transport
}

export function createFakeWire(id = 'touchstone-in-test', ownOrigin = 'extension://touchstone-in-test/'): FakeWire {
  const listeners: Listener[] = []
  return {
    receiver: {
      id,
      ownOrigin,
      listen: (listener) => void listeners.push(listener),
      unlisten: (listener) => void listeners.splice(listeners.indexOf(listener), 1),
    },
    transport:
      (sender = {}) =>
      async (envelope) => {
        const from = { id, url: `${ownOrigin}panel/index.html`, ...sender } as Runtime.MessageSender
        for (const listener of listeners) {
          const answered = listener(structuredClone(envelope), from)
          if (answered !== undefined) return structuredClone(await answered)
        }
        throw new Error('Could not establish connection. Receiving end does not exist.')
      },
  }
}
