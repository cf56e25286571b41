/** What the desk asks for to hand evidence on, to keep a second copy of everything, and to know how much room is left. */
import type { Progress } from '../desk/desk-ports.ts'

export interface BagMade {
  readonly name: string
  readonly files: number
  /** Photos whose bytes are gone; the bag names them. */
  readonly missing: number
}

export interface StorageUse {
  /** Bytes; `null`: the browser does not say. */
  readonly used: number | null
  readonly quota: number | null
  /** The largest dossiers, largest first. */
  readonly largest: readonly { readonly id: string; readonly title: string; readonly bytes: number }[]
}

export interface KeepingPorts {
  /** Writes one dossier's evidence bag and hands it to the browser's download. */
  makeBag(id: string, options: Progress & { readonly sign: boolean }): Promise<BagMade>
  measureStorage(): Promise<StorageUse>
  /** Lets go of the pictures and texts of deleted dossiers; nothing brings them back. */
  freeDeleted(progress: Progress): Promise<{ readonly dossiers: number; readonly bytes: number }>
}
