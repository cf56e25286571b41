/** The page beside the panel: attaching to it, calling its content script, and faults put into the interface's kinds. */
import { toExtension } from '../../platform/message-wire.ts'
import { type Answer, type Call, createCall, type Fault as MessageFault } from '../../platform/messaging.ts'
import { toTab } from '../../platform/tab-wire.ts'
import { Fault, type FaultCode } from '../../ui/fault.ts'
import { PANEL_TO_BACKGROUND, PANEL_TO_PAGE } from '../channels.ts'
import type { Calls } from '../protocol.ts'

export const callBackground = createCall(PANEL_TO_BACKGROUND, toExtension)

export interface AttachedPage {
  readonly tabId: number
  readonly url: string | null
  readonly call: Call<Calls['panel-to-page']>
}

const CODES: Readonly<Record<string, FaultCode>> = {
  'no-permission': 'no-permission',
  'forbidden-page': 'page-forbidden',
  'no-tab': 'page-gone',
  'no-receiver': 'page-gone',
  'time-out': 'timed-out',
}

export function toShownFault({ code, message }: MessageFault): Fault {
  return new Fault(CODES[code] ?? 'unexpected', message)
}

/** The value, or the fault thrown. */
export function expectValue<Value>(answer: Answer<Value>): Value {
  if (answer.ok) return answer.value
  throw toShownFault(answer.fault)
}

export async function attachTo(windowId: number | null, tabId: number | null): Promise<AttachedPage> {
  const attached = expectValue(await callBackground('attach', { windowId, tabId }))
  return { ...attached, call: createCall(PANEL_TO_PAGE, toTab(attached.tabId)) }
}
