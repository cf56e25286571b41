/** How envelopes travel between the contexts of a real extension, seen from a page of its own or from its script in a web page. */
import { extensionRuntime, type RuntimeListener } from './extension-runtime.ts'
import type { Receiver, Transport } from './messaging.ts'

export function browserReceiver(): Receiver {
  const runtime = extensionRuntime()
  const wired = new Map<unknown, RuntimeListener>()
  return {
    id: runtime.id ?? '',
    ownOrigin: runtime.getURL(''),
    listen(listener) {
      // Chromium waits for no promise: it wants `true` now, and the answer through `respond`. Firefox takes either.
      const wire: RuntimeListener = (message, sender, respond) => {
        const answer = listener(message, sender)
        if (answer === undefined) return undefined
        void answer.then(respond)
        return true
      }
      wired.set(listener, wire)
      runtime.onMessage.addListener(wire)
    },
    unlisten(listener) {
      const wire = wired.get(listener)
      if (wire !== undefined) runtime.onMessage.removeListener(wire)
      wired.delete(listener)
    },
  }
}

/** To the extension's own contexts. */
export const toExtension: Transport = (envelope) => extensionRuntime().sendMessage(envelope)
