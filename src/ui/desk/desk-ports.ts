/**
 * Everything that the desk asks of the world outside it. A port rejects with a `Fault`; a lost revision race is
 * `record-changed-elsewhere`. Lists come whole and light; a dossier and its bytes come one at a time.
 */

import type { Dossier } from '../../domain/dossier.ts'
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import type { Grader, RiskyIssue } from '../../domain/grader-book.ts'
import type { Settings } from '../../domain/settings.ts'
import type { SiteHint } from '../../domain/site-hint.ts'
import type { DossierPorts } from '../dossier/dossier-ports.ts'
import type { ExemplarPorts } from '../exemplars/exemplar-ports.ts'
import type { KeepingPorts } from '../keeping/keeping-ports.ts'
import type { LedgerPorts } from '../ledger/ledger-ports.ts'
import type { RulePorts } from './rule-ports.ts'

/** A stored record beside its id, so that two graders of one name stay two. */
export type Stored<T> = T & { readonly id: string }

export interface Progress {
  readonly signal: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress: (share: number) => void
}

export interface BackupProgress extends Progress {
  /** Closes the file, or opens it; `null`: the file is open to everybody. */
  readonly passphrase: string | null
}

/** The lists that can be shared as a file of their own. */
export type ShareKind = 'site-hints' | 'risky-issues' | 'graders'

export interface DeskPorts extends RulePorts, ExemplarPorts, LedgerPorts {
  readonly keeping: KeepingPorts
  /** ISO 8601 in UTC. */
  now(): string

  listDossiers(): Promise<readonly DossierSummary[]>
  /** The `count` captured last, newest first: what a long list shows until all of it is read. */
  newestDossiers(count: number): Promise<readonly DossierSummary[]>
  openDossier(id: string): Promise<Dossier | null>
  /** Bytes kept under this SHA-256, `null` where they are gone. */
  openBlob(sha256: string): Promise<Blob | null>
  saveNotes(id: string, notes: string): Promise<Dossier>
  /** The steps of a dossier's life. */
  readonly life: DossierPorts
  deleteDossier(id: string): Promise<void>
  restoreDossier(id: string): Promise<void>
  /** Open the listing's own page in a tab. */
  openPage(url: string): Promise<void>
  /** Writes one dossier, without its photos' bytes, as a JSON file and hands it to the browser's download. */
  exportDossier(id: string): Promise<void>

  /** Writes one file with everything and hands it to the browser's download. */
  exportAll(progress: BackupProgress): Promise<void>
  /** Checks the whole file first; writes all of it or nothing. */
  importAll(
    file: File,
    progress: BackupProgress,
  ): Promise<{ readonly added: number; readonly replaced: number; readonly left: number }>

  /** Hands one list to the browser's download as a readable file. */
  exportList(kind: ShareKind): Promise<void>
  /** Checks the whole file first. What is in the list already is not added again. */
  importList(kind: ShareKind, file: File): Promise<{ readonly added: number; readonly known: number }>

  listGraders(): Promise<readonly Stored<Grader>[]>
  /** Without an id: a new one. */
  saveGrader(grader: Grader, id: string | null): Promise<void>
  deleteGrader(id: string): Promise<void>
  restoreGrader(id: string): Promise<void>

  listRiskyIssues(): Promise<readonly RiskyIssue[]>
  saveRiskyIssue(issue: Omit<RiskyIssue, 'id'>, id: string | null): Promise<void>
  deleteRiskyIssue(id: string): Promise<void>
  restoreRiskyIssue(id: string): Promise<void>

  readSettings(): Promise<Settings>
  changeSettings(change: Partial<Settings>): Promise<Settings>
  /** Sites that the buyer switched on, by origin. */
  listSites(): Promise<readonly string[]>
  forgetSite(origin: string): Promise<void>
  listSiteHints(): Promise<readonly Stored<SiteHint>[]>
  deleteSiteHint(id: string): Promise<void>
  openSetup(): Promise<void>
}
