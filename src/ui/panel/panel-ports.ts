/**
 * Everything that the panel asks of the world outside it. The context injects these; a port rejects with a `Fault`.
 * A port that changes what the panel shows does not return the change: the context calls `model.show` with the new state.
 */
import type { DrawnCorners } from '../../domain/exemplar.ts'
import type { Grader, RiskyIssue } from '../../domain/grader-book.ts'
import type { RowSales } from '../../domain/pricing/sales-from-rows.ts'
import type { MessageTone } from '../../domain/request/message-style.ts'
import type { MessageLanguage } from '../../domain/settings.ts'
import type { Sale } from '../../domain/valuation.ts'
import type { ViewId } from '../../domain/views.ts'
import type { Added } from '../ledger/ledger-ports.ts'

export interface PagePlace {
  /** CSS selector, `null` where only the words are known. */
  readonly where: string | null
  readonly quote: string | null
}

export type PickedField = 'title' | 'price' | 'shipping' | 'endsAt' | 'seller' | 'condition' | 'description'

export interface PanelPorts {
  /** ISO 8601 in UTC. */
  now(): string
  /** Read the page again and show what comes of it. */
  rescan(): Promise<void>
  /** Let the person point at this field on the page. Resolves `false` when they gave up. */
  pickField(field: PickedField): Promise<boolean>
  /** Bring a place of the page into view and mark it. Resolves `false` when it is no longer there. */
  scrollTo(place: PagePlace): Promise<boolean>
  copyText(text: string): Promise<void>
  /** Put the words into the page's own message box. Must never submit. `reason` says why not, in the interface's language. */
  fillMessage(text: string): Promise<{ readonly filled: boolean; readonly reason: string | null }>
  setMessageLanguage(language: MessageLanguage): Promise<void>
  setMessageTone(tone: MessageTone): Promise<void>
  /** Ask for the best so many views only; `null`: for all that are open. */
  setMessageMostViews(most: number | null): Promise<void>
  /** Keep the listing as a dossier, or, when it is kept already, the present state as its newest. */
  save(notes: string): Promise<void>
  saveNotes(notes: string): Promise<void>
  settle(rule: string, reason: string): Promise<void>
  unsettle(rule: string): Promise<void>
  /** The person says which view a photo shows; `null` gives the photo back to the examination. */
  assignView(photoUrl: string, view: ViewId | 'other' | null): Promise<void>
  /** Photos from elsewhere, such as from the seller's reply; they are examined as those of the page. Resolves with how many are new. */
  addPhotos(files: readonly File[]): Promise<number>
  /** Takes an added photo away again. */
  removePhoto(photoUrl: string): Promise<void>
  /** Brings the photo that was taken away last back. */
  restorePhoto(photoUrl: string): Promise<void>
  /** The card's four corners by the person, in shares of the photo; `null` gives them back to the examination. */
  setCorners(photoUrl: string, corners: DrawnCorners | null): Promise<void>
  /** Ask the browser for this site and its photo hosts, in one question, then examine the photos. Must be called from a click. */
  requestSite(): Promise<'granted' | 'refused'>
  /** Stop examining; what is done stays. */
  cancelPhotos(): void
  addGrader(grader: Grader): Promise<void>
  /** Takes the grader of that name, added last, out of the book again. */
  removeGrader(name: string): Promise<void>
  addRiskyIssue(issue: Omit<RiskyIssue, 'id'>): Promise<void>
  /** Open the grader's own record page in a tab. */
  lookUp(grader: string, certificate: string): Promise<void>
  /** Hold the page in front, as a grader's record, against the listing looked at before. */
  readRecord(): Promise<void>
  /** Open a page of the extension's desk, such as `dossiers/ID`. */
  openDesk(path: string): Promise<void>
  /** What of the results page in front can go into the ledger, and what not and why. Writes nothing. */
  findRowSales(): Promise<RowSales>
  addSales(sales: readonly Sale[]): Promise<Added>
  takeBackSales(ids: readonly string[]): Promise<void>
  /** Open a row of a results page in its tab. */
  openRow(url: string): Promise<void>
}
