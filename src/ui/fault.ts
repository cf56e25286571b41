/**
 * What may go wrong behind a port, in the few kinds that the interface has a sentence and a remedy for.
 * Ports reject with a `Fault`; any other error is shown as `unexpected` with its words. Nothing here retries or hides.
 */

export const FAULT_CODES = [
  'storage-full',
  'record-changed-elsewhere',
  'damaged-file',
  'no-permission',
  'page-forbidden',
  'page-gone',
  'not-found-on-page',
  'no-message-box',
  'clipboard-refused',
  'image-not-loaded',
  'no-card-in-exemplar',
  'no-card-found',
  'exemplar-incomplete',
  'blind-answer-unknown',
  'timed-out',
  'unexpected',
] as const

export type FaultCode = (typeof FAULT_CODES)[number]

export class Fault extends Error {
  override readonly name = 'Fault'
  constructor(
    readonly code: FaultCode,
    /** What exactly, for a person who wants to report it: a file and line, an error's own words. May be empty. */
    readonly detail: string,
  ) {
    super(`${code}: ${detail}`)
  }
}

/** Names of errors thrown by other rooms, which this room may not import. */
const CODE_BY_NAME: Readonly<Record<string, FaultCode>> = {
  StorageFull: 'storage-full',
  RevisionConflict: 'record-changed-elsewhere',
  BackupFault: 'damaged-file',
}

export function toFault(error: unknown): Fault {
  if (error instanceof Fault) return error
  if (error instanceof Error) return new Fault(CODE_BY_NAME[error.name] ?? 'unexpected', error.message)
  return new Fault('unexpected', String(error))
}

/** A person cancelled it: nothing to report. */
export function isCancelled(error: unknown): boolean {
  return error instanceof Error && error.name === 'AbortError'
}
