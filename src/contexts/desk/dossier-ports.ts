/** The ports of a dossier's life onto storage, the examination, the message and the calendar. Wiring only. */

import { deriveState } from '../../domain/dossier/derive-state.ts'
import { type CalendarEntry, writeCalendar } from '../../domain/dossier/write-calendar.ts'
import type { Dossier } from '../../domain/dossier.ts'
import type { Inspection } from '../../domain/inspection.ts'
import { toListing } from '../../domain/loose-offer.ts'
import { type MessageStyle, PLAIN_STYLE } from '../../domain/request/message-style.ts'
import type { Packs } from '../../domain/rules/packs.ts'
import { copyText } from '../../platform/clipboard.ts'
import { now } from '../../platform/clock.ts'
import { toExtension } from '../../platform/message-wire.ts'
import { createCall } from '../../platform/messaging.ts'
import { saveFile } from '../../platform/save-file.ts'
import { shrinkPicture } from '../../platform/shrink-picture.ts'
import { dataAddress } from '../../storage/bag/dossier-bag.ts'
import { type SharedPicture, writeSharedPage } from '../../storage/bag/shared-page.ts'
import type { DossierDraft } from '../../storage/dossiers.ts'
import type { DossierPorts } from '../../ui/dossier/dossier-ports.ts'
import { Fault } from '../../ui/fault.ts'
import { PANEL_TO_BACKGROUND } from '../channels.ts'
import { type ExaminedFile, examineFiles } from '../examine-files.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import { judgeKept, type KeptOffer, keptOffer } from '../judge-kept.ts'
import type { Stores } from '../stores.ts'
import { readBagTexts } from './bag-texts.ts'

/** A day and an hour before: time to act, and time to act at once. In minutes. Ours, no source. */
const CALENDAR_ALARMS = [1440, 60]

const callBackground = createCall(PANEL_TO_BACKGROUND, toExtension)

export function createDossierPorts(
  stores: Stores,
  packs: () => Promise<Packs>,
  texts: () => InterfaceTexts,
): DossierPorts {
  const { dossiers } = stores

  async function open(id: string): Promise<Dossier> {
    const dossier = await dossiers.get(id)
    if (dossier === null || dossier.deletedAt !== null) throw new Fault('record-changed-elsewhere', id)
    return dossier
  }

  async function judge(offer: KeptOffer, messageLanguage: string, messageStyle: MessageStyle): Promise<Inspection> {
    return judgeKept(offer, { at: now(), messageLanguage, messageStyle }, stores, await packs())
  }

  return {
    newId: stores.newId,
    zone: () => new Intl.DateTimeFormat().resolvedOptions().timeZone,
    async addStep(id, step) {
      const dossier = await dossiers.addStep(id, step)
      if (step.event.startsWith('deadline') || step.event === 'undone' || step.event === 'closed')
        void callBackground('deadlinesChanged', null)
      return dossier
    },
    copyText: async (text) => {
      if (!(await copyText(text))) throw new Fault('clipboard-refused', '')
    },

    async addReply(id, { words, photos, refused }, progress) {
      const files = await examineFiles(photos, progress)
      const before = keptOffer(await open(id))
      const grown = withPhotos({ ...before, refused: [...before.refused, ...refused] }, files)
      const { messageLanguage, messageTone } = await stores.readSettings()
      const inspection = await judge(grown, messageLanguage, { ...PLAIN_STYLE, tone: messageTone, again: true })
      progress.signal.throwIfAborted()
      const urls = files.map(({ url }) => url)
      const shows = inspection.views.flatMap(({ view, status, photo }) =>
        status === 'shown' && photo !== null && urls.includes(photo) ? [view] : [],
      )
      const step = { event: 'answered', detail: words, photos: urls, shows, refused } as const
      return dossiers.addStepWithPhotos(id, step, files.map(toDraft), () => ({
        inspection,
        viewCorrections: grown.viewCorrections,
      }))
    },

    async writeMessage(id, language, style) {
      const { request } = await judge(keptOffer(await open(id)), language, style)
      return request
    },

    async saveCalendar(lines) {
      const entries: CalendarEntry[] = []
      for (const { dossierId, deadlineId, summary } of lines) {
        const { title, url, log } = await open(dossierId)
        const deadline = deriveState(log).deadlines.find((one) => one.id === deadlineId)
        if (deadline !== undefined) entries.push({ deadline, summary, description: title, url })
      }
      const calendar = writeCalendar(entries, { now: now(), alarms: CALENDAR_ALARMS })
      saveFile('touchstone-deadlines.ics', new Blob([calendar], { type: 'text/calendar' }))
    },

    async sharePage(id, include) {
      const dossier = await open(id)
      const pictures: SharedPicture[] = []
      for (const [index, { sha256 }] of dossier.photos.entries()) {
        const blob = sha256 === null ? null : await dossiers.readBlob(sha256)
        const small = blob && (await shrinkPicture(new Uint8Array(blob.bytes), blob.mediaType))
        const caption = texts().translate('photo.number', { number: index + 1 })
        if (small) pictures.push({ caption, source: dataAddress(small) })
      }
      const page = writeSharedPage(dossier, { ...include, pictures }, await readBagTexts(texts()), texts().language)
      saveFile('touchstone-page.html', new Blob([page], { type: 'text/html' }))
    },

    async beginDossier({ title, words, seller, price, photos }, progress) {
      const files = await examineFiles(photos, progress)
      const { messageLanguage, messageTone } = await stores.readSettings()
      const listing = toListing({ title, words, seller, price, language: null, photos: files.map(({ url }) => url) })
      const offer = withPhotos({ id: null, listing, photos: [], viewCorrections: {}, settled: {}, refused: [] }, files)
      const inspection = await judge(offer, messageLanguage, { ...PLAIN_STYLE, tone: messageTone })
      progress.signal.throwIfAborted()
      const dossier = await dossiers.keep({
        title: listing.title ?? '',
        url: null,
        capturedAt: now(),
        pageText: words,
        inspection,
        viewCorrections: offer.viewCorrections,
        outcome: null,
        notes: '',
        tags: [],
        photos: files.map(toDraft),
        screenshot: null,
      })
      return dossier.id
    },
  }
}

function toDraft({ url, alt, mediaType, facts, bytes }: ExaminedFile): DossierDraft['photos'][number] {
  return { url, alt, mediaType, facts, bytes }
}

/** The offer with photos that came, and the person's word on what they show. */
function withPhotos(offer: KeptOffer, files: readonly ExaminedFile[]): KeptOffer {
  const present = new Set(offer.photos.map(({ url }) => url))
  const added = files.filter(({ url }) => !present.has(url))
  const said = files.flatMap(({ url, view }) => (view === null ? [] : [[url, view] as const]))
  return {
    ...offer,
    photos: [...offer.photos, ...added.map(({ url, alt, mediaType, facts }) => ({ url, alt, mediaType, facts }))],
    viewCorrections: { ...offer.viewCorrections, ...Object.fromEntries(said) },
  }
}
