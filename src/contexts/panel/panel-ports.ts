/** The panel's ports onto page, storage and platform. Wiring only. */
import type { Inspection } from '../../domain/inspection.ts'
import type { Point, Quadrilateral } from '../../domain/photo-facts.ts'
import type { Translate } from '../../domain/translate.ts'
import { copyText } from '../../platform/clipboard.ts'
import { now } from '../../platform/clock.ts'
import { askToRead } from '../../platform/permissions.ts'
import { openOwnPage, openPage } from '../../platform/tabs.ts'
import { Fault } from '../../ui/fault.ts'
import { labelOfField } from '../../ui/inspection/field-label.ts'
import type { PanelPorts } from '../../ui/panel/panel-ports.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import type { Stores } from '../stores.ts'
import { keepListing } from './keep-listing.ts'
import { hostOf, type ListingInFront } from './listing-state.ts'
import { type AttachedPage, callBackground, expectValue } from './page-link.ts'
import type { PanelSession } from './panel-session.ts'
import { createPricePorts } from './price-ports.ts'

interface PortsNeed {
  readonly session: PanelSession
  readonly stores: Stores
  readonly texts: () => InterfaceTexts
  readonly windowId: number | null
}

export function createPanelPorts({ session, stores, texts, windowId }: PortsNeed): PanelPorts {
  const t: Translate = (key, params) => texts().translate(key, params)

  function page(): AttachedPage {
    if (session.page === null) throw new Fault('page-gone', '')
    return session.page
  }
  function front(): ListingInFront {
    if (session.front === null) throw new Fault('page-gone', '')
    return session.front
  }
  /** A kept dossier follows what the buyer says about its listing. */
  async function follow(event: 'concern-settled' | 'note', detail: string): Promise<void> {
    await session.judgeAgain()
    const { kept, inspection, corrections } = front()
    if (kept === null) return
    session.setKept(
      await stores.dossiers.record(kept.id, event, detail, (dossier) => ({
        inspection: sameListingAs(dossier.inspection, inspection),
        viewCorrections: corrections,
      })),
    )
  }
  async function logCopied(text: string): Promise<void> {
    const kept = session.front?.kept
    if (kept) session.setKept(await stores.dossiers.record(kept.id, 'request-copied', text))
  }
  /** What stands in the page's own box counts as asked; who did not send it after all takes the step back on the desk. */
  async function logAsked(text: string): Promise<void> {
    const { kept, inspection } = front()
    if (kept === null) return
    const { views, language } = inspection.request
    session.setKept(await stores.dossiers.addStep(kept.id, { event: 'asked', detail: text, views, language }))
  }

  return {
    now,
    rescan: session.look,
    async pickField(field) {
      const prompt = t('pick.prompt', { field: labelOfField(t, field) })
      const picked = expectValue(await page().call('pickElement', { prompt }))
      if (picked === null) return false
      const host = hostOf(page().url)
      if (host === null || picked.selectors.length === 0) throw new Fault('not-found-on-page', '')
      const before = (await stores.siteHints.list()).filter((hint) => hint.host === host && hint.field === field)
      for (const { id } of before) await stores.siteHints.remove(id)
      await stores.siteHints.add({ host, field, selectors: picked.selectors })
      await session.look()
      return true
    },
    scrollTo: async (place) => expectValue(await page().call('scrollTo', place)).found,
    async copyText(text) {
      if (!(await copyText(text))) throw new Fault('clipboard-refused', '')
      await logCopied(text)
    },
    async fillMessage(text) {
      const { filled, reason } = expectValue(await page().call('fillMessage', { text }))
      if (filled) await logAsked(text)
      return { filled, reason: reason && t(`message.fill.${reason}`) }
    },
    async setMessageLanguage(messageLanguage) {
      await stores.changeSettings({ messageLanguage })
      await session.judgeAgain()
    },
    async setMessageTone(messageTone) {
      await stores.changeSettings({ messageTone })
      await session.judgeAgain()
    },
    async setMessageMostViews(messageMostViews) {
      await stores.changeSettings({ messageMostViews })
      await session.judgeAgain()
    },
    async save(notes) {
      session.setKept(await keepListing({ front: front(), page: page(), notes, windowId }, stores, t))
    },
    async saveNotes(notes) {
      const { kept } = front()
      if (kept !== null) session.setKept(await stores.dossiers.record(kept.id, 'note', notes, () => ({ notes })))
    },
    async settle(rule, reason) {
      front().settled[rule] = reason
      await follow('concern-settled', `${rule}: ${reason}`)
    },
    async unsettle(rule) {
      delete front().settled[rule]
      await follow('concern-settled', `${rule}: –`)
    },
    async assignView(photoUrl, view) {
      if (view === null) delete front().corrections[photoUrl]
      else front().corrections[photoUrl] = view
      await follow('note', `${photoUrl}: ${view ?? '–'}`)
    },
    async addPhotos(files) {
      const added = await front().photos.add(files)
      // They take their time, and the panel shows how far they are.
      void session.examinePhotos()
      return added.length
    },
    async removePhoto(photoUrl) {
      front().photos.remove(photoUrl)
      await session.judgeAgain()
    },
    async restorePhoto(photoUrl) {
      front().photos.restore(photoUrl)
      await session.judgeAgain()
    },
    async setCorners(photoUrl, corners) {
      const { photos } = front()
      const { width, height } = photos.get(photoUrl)?.facts ?? {}
      if (!width || !height) throw new Fault('page-gone', photoUrl)
      const inPixels = corners?.map(([x, y]): Point => [x * width, y * height])
      photos.setCard(photoUrl, inPixels ? (inPixels as unknown as Quadrilateral['corners']) : null)
      await session.judgeAgain()
    },
    requestSite() {
      const { listing, snapshot } = front()
      if (listing.url === null) return Promise.reject(new Fault('no-permission', ''))
      const { origin } = new URL(listing.url)
      // The question comes first, before anything is awaited: it needs the click.
      const answered = askToRead([origin, ...snapshot.photoOrigins])
      return answered.then(async (granted) => {
        session.setAccess(granted ? 'allowed' : 'refused')
        if (!granted) return 'refused'
        expectValue(await callBackground('alwaysOnSite', { origin, photoOrigins: snapshot.photoOrigins }))
        // The photos take their time, and the panel shows how far they are.
        void session.examinePhotos()
        return 'granted'
      })
    },
    cancelPhotos: session.cancelPhotos,
    async addGrader(grader) {
      await stores.graders.add(grader)
      await session.judgeAgain()
    },
    async removeGrader(name) {
      const added = (await stores.graders.list()).filter((grader) => grader.name === name)
      const last = added.toSorted((a, b) => b.createdAt.localeCompare(a.createdAt))[0]
      if (last !== undefined) await stores.graders.remove(last.id)
      await session.judgeAgain()
    },
    async addRiskyIssue(issue) {
      await stores.riskyIssues.add(issue)
      await session.judgeAgain()
    },
    async lookUp(name, certificate) {
      const graders = await stores.graders.list()
      const grader = graders.find((known) => [known.name, ...known.abbreviations].includes(name))
      const address = grader?.lookUp?.replaceAll('{certificate}', encodeURIComponent(certificate))
      if (!address || !/^https?:\/\//i.test(address)) throw new Fault('unexpected', address ?? name)
      await openPage(address)
    },
    ...createPricePorts(session, stores),
    readRecord: session.readRecord,
    openDesk: (path) => openOwnPage(path === '' ? 'desk/index.html' : `desk/index.html#${path}`),
    async openRow(url) {
      if (!/^https?:\/\//i.test(url)) throw new Fault('unexpected', url)
      await openPage(url)
    },
  }
}

/** The kept words stay what they were when they were kept; what is said about them moves on. */
function sameListingAs(kept: Inspection, present: Inspection): Inspection {
  return { ...present, listing: kept.listing }
}
