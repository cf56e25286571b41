/** What the screens of a dossier's life ask of the world outside them. A port rejects with a `Fault`. */
import type { Dossier, LifeStep } from '../../domain/dossier.ts'
import type { RequestMessage } from '../../domain/inspection.ts'
import type { MessageStyle } from '../../domain/request/message-style.ts'
import type { MessageLanguage } from '../../domain/settings.ts'
import type { ViewId } from '../../domain/views.ts'

/** What came from the seller. */
export interface Reply {
  readonly words: string
  readonly photos: readonly ReplyPhoto[]
  readonly refused: readonly ViewId[]
}

export interface ReplyPhoto {
  readonly file: File
  /** The person's word on what it shows; `null`: to be found. */
  readonly view: ViewId | 'other' | null
}

export interface ReplyProgress {
  readonly signal: AbortSignal
  /** Photos examined. */
  readonly onPhoto: (done: number, total: number) => void
}

export interface CalendarLine {
  readonly dossierId: string
  readonly deadlineId: string
  /** What is due, in the interface's language. */
  readonly summary: string
}

/** An offer that is on no page: a message, photos from a phone, a card on a show's table. */
export interface LooseOffer {
  readonly title: string
  readonly words: string
  readonly seller: string
  /** As typed; `null` where it says no amount. */
  readonly price: { readonly amount: string; readonly currency: string } | null
  readonly photos: readonly ReplyPhoto[]
}

export interface DossierPorts {
  /** A new id for a deadline. */
  newId(): string
  /** IANA name of the zone of this machine. */
  zone(): string
  addStep(id: string, step: LifeStep): Promise<Dossier>
  /** Examines the photos, judges anew and keeps all of it, or, given up, nothing. */
  addReply(id: string, reply: Reply, progress: ReplyProgress): Promise<Dossier>
  /** The message that is due now, in these words; `views` only those still open. */
  writeMessage(id: string, language: MessageLanguage, style: MessageStyle): Promise<RequestMessage>
  copyText(text: string): Promise<void>
  /** Hands the deadlines to the browser's download as an iCalendar file. */
  saveCalendar(lines: readonly CalendarLine[]): Promise<void>
  /** Hands a page for teaching to the browser's download, without seller and prices unless they are wanted. */
  sharePage(id: string, include: { readonly seller: boolean; readonly prices: boolean }): Promise<void>
  /** Begins a dossier without a page. Resolves to its id. */
  beginDossier(offer: LooseOffer, progress: ReplyProgress): Promise<string>
}
