/**
 * Everything that the desk asks of the world outside it. A port rejects with a `Fault`; a lost revision race is
 * `record-changed-elsewhere`. Lists come whole and light; a dossier and its bytes come one at a time.
 */
import type { Dossier } from '../../domain/dossier.ts'
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import type { BorderPoint, CannotTellCause, DrawnCorners, DrawnKind, Exemplar } from '../../domain/exemplar.ts'
import type { Outcome } from '../../domain/facts.ts'
import type { Grader, RiskyIssue } from '../../domain/grader-book.ts'
import type { Strength } from '../../domain/inspection.ts'
import type { Settings } from '../../domain/settings.ts'
import type { SiteHint } from '../../domain/site-hint.ts'
import type { Sale } from '../../domain/valuation.ts'

/** A stored record beside its id, so that two graders of one name stay two. */
export type Stored<T> = T & { readonly id: string }

export interface RuleLine {
  readonly id: string
  readonly title: string
  readonly why: string
  readonly settles: string
  readonly strength: Strength
  readonly group: string
  readonly likelihoodRatio: number
  readonly basis: 'assumed' | 'learned'
  readonly count: number
}

/** In shares of the picture's width and height, 0–1, from the top left. */
export interface Region {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Comparison {
  readonly verdict: 'agrees' | 'differs' | 'cannot-tell'
  /** In `unit`; `null` where nothing could be measured. */
  readonly value: number | null
  readonly exemplarValue: number | null
  readonly unit: string
  readonly uncertainty: number | null
  readonly tolerance: number | null
  /** From the measuring, in English: why nothing could be measured. What was measured, the figures say. */
  readonly reason: string
  /** The same for the interface's language; `null`: the reason is all there is. */
  readonly cause: CannotTellCause | null
}

export interface ComparisonRequest {
  readonly kind: DrawnKind
  readonly exemplar: Blob
  readonly region: Region
  /** For `tint`: an unprinted or evenly grey place, on the same picture, by which light and camera are balanced out. */
  readonly neutral: Region
  /** For `border-width`: the cut edge from which the border runs. */
  readonly edge: BorderPoint['edge']
  readonly nominalSize: Exemplar['nominalSize']
  readonly questioned: Blob
  /** Of the card in the exemplar's picture, by the person; `null`: to be found. */
  readonly corners: DrawnCorners | null
  readonly questionedCorners: DrawnCorners | null
}

export interface SalesImport {
  readonly sales: readonly Sale[]
  readonly faults: readonly { readonly line: number; readonly fault: string }[]
  /** Already in the ledger, so they would not be added again. */
  readonly known: number
}

export interface Progress {
  readonly signal: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress: (share: number) => void
}

/** The lists that can be shared as a file of their own. */
export type ShareKind = 'site-hints' | 'risky-issues' | 'graders'

export interface DeskPorts {
  /** ISO 8601 in UTC. */
  now(): string

  listDossiers(): Promise<readonly DossierSummary[]>
  openDossier(id: string): Promise<Dossier | null>
  /** Bytes kept under this SHA-256, `null` where they are gone. */
  openBlob(sha256: string): Promise<Blob | null>
  saveNotes(id: string, notes: string): Promise<Dossier>
  /** How it ended; `null` opens it again. */
  saveOutcome(id: string, outcome: Outcome | null): Promise<void>
  deleteDossier(id: string): Promise<void>
  restoreDossier(id: string): Promise<void>
  /** Open the listing's own page in a tab. */
  openPage(url: string): Promise<void>
  /** Writes one dossier, without its photos' bytes, as a JSON file and hands it to the browser's download. */
  exportDossier(id: string): Promise<void>

  /** Writes one file with everything and hands it to the browser's download. */
  exportAll(progress: Progress): Promise<void>
  /** Checks the whole file first; writes all of it or nothing. */
  importAll(
    file: File,
    progress: Progress,
  ): Promise<{ readonly added: number; readonly replaced: number; readonly left: number }>

  /** Hands one list to the browser's download as a readable file. */
  exportList(kind: ShareKind): Promise<void>
  /** Checks the whole file first. What is in the list already is not added again. */
  importList(kind: ShareKind, file: File): Promise<{ readonly added: number; readonly known: number }>

  listSales(): Promise<readonly Sale[]>
  /** Reads the file and writes nothing. */
  checkSales(file: File): Promise<SalesImport>
  addSales(sales: readonly Sale[]): Promise<void>
  deleteSale(id: string): Promise<void>
  restoreSale(id: string): Promise<void>

  listGraders(): Promise<readonly Stored<Grader>[]>
  /** Without an id: a new one. */
  saveGrader(grader: Grader, id: string | null): Promise<void>
  deleteGrader(id: string): Promise<void>
  restoreGrader(id: string): Promise<void>

  listRiskyIssues(): Promise<readonly RiskyIssue[]>
  saveRiskyIssue(issue: Omit<RiskyIssue, 'id'>, id: string | null): Promise<void>
  deleteRiskyIssue(id: string): Promise<void>
  restoreRiskyIssue(id: string): Promise<void>

  listRules(): Promise<readonly RuleLine[]>

  compare(request: ComparisonRequest, signal: AbortSignal): Promise<Comparison>

  readSettings(): Promise<Settings>
  changeSettings(change: Partial<Settings>): Promise<Settings>
  /** Sites that the buyer switched on, by origin. */
  listSites(): Promise<readonly string[]>
  forgetSite(origin: string): Promise<void>
  listSiteHints(): Promise<readonly Stored<SiteHint>[]>
  deleteSiteHint(id: string): Promise<void>
  openSetup(): Promise<void>
}
