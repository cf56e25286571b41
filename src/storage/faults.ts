/** What can go wrong when keeping records, as errors that a caller can tell apart and put into words. */

/** Somebody else wrote the record since it was read; nothing was changed. */
export class RevisionConflict extends Error {
  override readonly name = 'RevisionConflict'
  constructor(
    readonly store: string,
    readonly id: string,
  ) {
    super(`${store} ${id} was changed elsewhere since it was read`)
  }
}

/** The browser refuses to keep more; nothing was written. */
export class StorageFull extends Error {
  override readonly name = 'StorageFull'
}

/** The file is no backup of ours, or it is damaged; nothing was written. `place` names the file inside it and the line. */
export class BackupFault extends Error {
  override readonly name = 'BackupFault'
  constructor(
    readonly place: string,
    readonly fault: string,
  ) {
    super(`${place}: ${fault}`)
  }
}

/** A write that failed for lack of room comes back as `StorageFull`, every other error as it is. */
export function namedFault(error: unknown): unknown {
  return error instanceof DOMException && error.name === 'QuotaExceededError' ? new StorageFull(error.message) : error
}
