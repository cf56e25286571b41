/**
 * What one panel does: attaches to the page beside it, has it read, gathers what is known, lets `inspect` decide and shows the
 * result; again whenever page, photos or the buyer's knowledge change. Wiring only: it judges nothing.
 */

import { deriveState } from '../../domain/dossier/derive-state.ts'
import type { Dossier } from '../../domain/dossier.ts'
import type { Inspection } from '../../domain/inspection.ts'
import type { Listing, Results } from '../../domain/listing.ts'
import { PLAIN_STYLE } from '../../domain/request/message-style.ts'
import type { Packs } from '../../domain/rules/packs.ts'
import type { SiteHint } from '../../domain/site-hint.ts'
import { now } from '../../platform/clock.ts'
import { mayRead } from '../../platform/permissions.ts'
import { isCancelled, toFault } from '../../ui/fault.ts'
import type { PanelState, PhotoAccess } from '../../ui/panel/panel-state.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import { judgeOffer, settledIn } from '../judge-offer.ts'
import { judgeRows } from '../judge-rows.ts'
import type { PageSnapshot } from '../protocol.ts'
import type { Stores } from '../stores.ts'
import { hostOf, type ListingInFront, stateOf } from './listing-state.ts'
import { markListing, markResults } from './mark-page.ts'
import { type AttachedPage, attachTo, expectValue } from './page-link.ts'
import { createPhotoShelf, type PhotoShelf } from './photo-shelf.ts'
import { pricesOf } from './price-ports.ts'
import { findRecordNumber, type Remembered, readRecordPage } from './record-page.ts'
import { createSeenBefore } from './seen-before.ts'

export interface PanelSurroundings {
  readonly stores: Stores
  readonly packs: () => Packs
  readonly texts: () => InterfaceTexts
  readonly show: (state: PanelState) => void
  readonly windowId: number | null
  /** The tab that a panel in a tab of its own stands beside; `null`: whichever is in front of the window. */
  readonly tabId: number | null
}

export type PanelSession = ReturnType<typeof createPanelSession>

export function createPanelSession(around: PanelSurroundings) {
  const { stores, show } = around
  let page: AttachedPage | null = null
  let front: ListingInFront | null = null
  let results: Results | null = null
  /** Everything that was begun for the page in front; another page ends it. */
  let work = new AbortController()
  let photoWork: AbortController | null = null
  /** For the grader's record page that is opened from a listing. */
  let remembered: Remembered | null = null
  let lastSnapshot: PageSnapshot | null = null
  const lookUp = createSeenBefore(stores)

  async function look(): Promise<void> {
    work.abort()
    work = new AbortController()
    const { signal } = work
    const before = front
    if (before === null) show({ phase: 'reading', host: hostOf(page?.url ?? null) })
    else show(stateOf(before, 'reading'))
    try {
      page = await attachTo(around.windowId, around.tabId)
      signal.throwIfAborted()
      if (before !== null && page.url !== before.listing.url) show({ phase: 'reading', host: hostOf(page.url) })
      await read(page, signal)
    } catch (error) {
      if (signal.aborted || isCancelled(error)) return
      leave()
      const fault = toFault(error)
      show(fault.code === 'page-forbidden' ? { phase: 'forbidden' } : { phase: 'failed', fault })
    }
  }

  async function read(from: AttachedPage, signal: AbortSignal): Promise<void> {
    const readAt = now()
    const snapshot = expectValue(await from.call('read', { hints: await hintsFor(from.url) }, { signal }))
    signal.throwIfAborted()
    const { reading } = snapshot
    results = reading.kind === 'results' ? reading : null
    lastSnapshot = snapshot
    if (remembered !== null && findRecordNumber(from.url, await stores.graders.list()) !== null) return readRecord()
    if (reading.kind === 'listing') return takeListing(reading, snapshot, readAt, signal)
    leave()
    if (reading.kind === 'none') {
      return show({ phase: 'none', host: hostOf(reading.url), remembered: remembered?.title ?? null })
    }
    const rows = await judgeRows(reading.rows, stores, around.packs())
    signal.throwIfAborted()
    show({ phase: 'results', rows, partlyRead: reading.partlyRead })
    await markResults(from, rows, around.texts().translate)
  }

  async function readRecord(): Promise<void> {
    if (remembered === null || lastSnapshot === null) return
    leave()
    show(readRecordPage(remembered, lastSnapshot, await stores.graders.list(), around.packs()))
  }

  async function hintsFor(url: string | null): Promise<SiteHint[]> {
    const host = hostOf(url)
    return (await stores.siteHints.list())
      .filter((hint) => hint.host === host)
      .map(({ host, field, selectors }) => ({ host, field, selectors }))
  }

  async function takeListing(listing: Listing, snapshot: PageSnapshot, readAt: string, signal: AbortSignal) {
    const same = front !== null && front.listing.url === listing.url ? front : null
    if (same === null) leave()
    const kept = listing.url === null ? null : await stores.dossiers.findByUrl(listing.url)
    const photos = same?.photos ?? createPhotoShelf()
    if (same === null && kept !== null) await putKeptPhotos(kept, photos, stores)
    const next: Omit<ListingInFront, 'inspection'> = {
      listing,
      snapshot,
      readAt,
      photos,
      seen: same?.seen ?? new Map(),
      corrections: same?.corrections ?? { ...kept?.viewCorrections },
      settled: same?.settled ?? settledIn(kept),
      kept,
      access: await photoAccess(listing, snapshot, same?.access ?? 'unseen'),
      progress: null,
      graders: await stores.graders.list(),
      ...(await messageChoices()),
    }
    const inspection = await judge(next)
    signal.throwIfAborted()
    front = { ...next, inspection, prices: await pricesOf(inspection, stores, around.packs().vocabulary) }
    remembered = { title: listing.title ?? listing.url ?? '', claim: inspection.claim }
    showFront()
    if (page !== null) await markListing(page, front.inspection, around.texts().translate)
    if (front.access === 'allowed') await examinePhotos()
  }

  async function photoAccess(
    listing: Listing,
    { photoOrigins }: PageSnapshot,
    before: PhotoAccess,
  ): Promise<PhotoAccess> {
    if (listing.photos.length === 0) return 'none'
    if (photoOrigins.length > 0 && (await mayRead(photoOrigins))) return 'allowed'
    return before === 'refused' ? 'refused' : 'unseen'
  }

  async function judge(offer: Omit<ListingInFront, 'inspection'>): Promise<Inspection> {
    const { messageLanguage } = await stores.readSettings()
    return judgeOffer(
      {
        listing: offer.listing,
        photos: offer.photos.facts(),
        seen: [...offer.seen.values()].flat(),
        viewCorrections: offer.corrections,
        settled: offer.settled,
        messageLanguage,
        messageMostViews: offer.messageMostViews,
        messageStyle: { ...PLAIN_STYLE, tone: offer.messageTone, again: wasAsked(offer.kept) },
        messageMaxLength: offer.snapshot.messageBox?.maxLength ?? null,
        readAt: offer.readAt,
      },
      stores,
      around.packs(),
    )
  }

  /** The same page with what is known now. */
  async function judgeAgain(): Promise<void> {
    const offer = front
    if (offer === null) return
    offer.graders = await stores.graders.list()
    Object.assign(offer, await messageChoices())
    const inspection = await judge(offer)
    if (front !== offer) return
    offer.inspection = inspection
    offer.prices = await pricesOf(inspection, stores, around.packs().vocabulary)
    showFront()
    if (page !== null) await markListing(page, inspection, around.texts().translate)
  }

  async function messageChoices() {
    const { messageMostViews, messageTone } = await stores.readSettings()
    return { messageMostViews, messageTone }
  }

  async function examinePhotos(): Promise<void> {
    const offer = front
    if (offer === null) return
    photoWork?.abort()
    photoWork = new AbortController()
    const signal = AbortSignal.any([photoWork.signal, work.signal])
    try {
      await offer.photos.examine(
        // What the person has just handed over is waited for.
        [...offer.photos.added(), ...(offer.access === 'allowed' ? offer.listing.photos : [])].map(({ url }) => url),
        (done, total) => {
          if (front !== offer) return
          offer.progress = { done, total }
          showFront()
        },
        signal,
      )
    } catch (error) {
      if (!signal.aborted) throw error
    } finally {
      offer.progress = null
    }
    if (front !== offer) return
    await judgeAgain()
    await lookForSeen(offer, work.signal)
  }

  /** Were these photos in another listing? Slower than the rest and of no use without it, so it comes last. */
  async function lookForSeen(offer: ListingInFront, signal: AbortSignal): Promise<void> {
    let news = false
    for (const facts of offer.photos.facts()) {
      const bytes = offer.photos.get(facts.file)?.bytes
      if (!bytes || offer.seen.has(facts.file) || !facts.examined) continue
      try {
        const seen = await lookUp({ facts, bytes, listingUrl: offer.listing.url }, signal)
        offer.seen.set(facts.file, seen)
        news ||= seen.length > 0
      } catch (error) {
        if (signal.aborted) return
        throw error
      }
    }
    if (news && front === offer) await judgeAgain()
  }

  function showFront(): void {
    if (front !== null) show(stateOf(front, 'none'))
  }

  function leave(): void {
    photoWork?.abort()
    front?.photos.clear()
    for (const { picture } of [...(front?.seen.values() ?? [])].flat()) if (picture) URL.revokeObjectURL(picture)
    front = null
  }

  return {
    look,
    judgeAgain,
    readRecord,
    examinePhotos,
    get page() {
      return page
    },
    /** The results page in front. */
    get results() {
      return results
    },
    vocabulary: () => around.packs().vocabulary,
    get front() {
      return front
    },
    setAccess(access: PhotoAccess): void {
      if (front === null) return
      front.access = access
      showFront()
    },
    setKept(kept: Dossier): void {
      if (front === null) return
      front.kept = kept
      showFront()
    },
    cancelPhotos(): void {
      photoWork?.abort()
    },
    /** Our marks go with the panel. */
    async end(): Promise<void> {
      work.abort()
      leave()
      await page?.call('clear', null)
    },
  }
}

/** Something went to the seller before: the next message thanks and asks for the rest. */
function wasAsked(kept: Dossier | null): boolean {
  return kept !== null && deriveState(kept.log).requests.length > 0
}

/** What was kept can be looked at without asking the site again. */
async function putKeptPhotos(kept: Dossier, shelf: PhotoShelf, stores: Stores): Promise<void> {
  const onPage = new Set(kept.inspection.listing.photos.map(({ url }) => url))
  for (const { url, alt, sha256, mediaType, facts } of kept.photos) {
    if (sha256 === null || facts === null) continue
    const blob = await stores.dossiers.readBlob(sha256)
    if (blob !== null) {
      shelf.put(url, new Uint8Array(blob.bytes), mediaType, facts, onPage.has(url) ? undefined : (alt ?? ''))
    }
  }
}
