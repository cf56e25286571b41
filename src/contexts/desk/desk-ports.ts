/** The desk's ports onto storage, platform and the core. Wiring only: nothing is decided here. */
import { now } from '../../platform/clock.ts'
import { toExtension } from '../../platform/message-wire.ts'
import { createCall } from '../../platform/messaging.ts'
import { pictureBlob } from '../../platform/picture-blob.ts'
import { saveFile } from '../../platform/save-file.ts'
import { openOwnPage, openPage } from '../../platform/tabs.ts'
import type { DeskPorts } from '../../ui/desk/desk-ports.ts'
import { Fault } from '../../ui/fault.ts'
import { PANEL_TO_BACKGROUND } from '../channels.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import { loadAllPacks, readOwnRules } from '../rule-packs.ts'
import type { Stores } from '../stores.ts'
import { createBackupPorts } from './backup-ports.ts'
import { createBagPorts } from './bag-ports.ts'
import { createDossierPorts } from './dossier-ports.ts'
import { createExemplarPorts } from './exemplar-ports.ts'
import { createRulePorts } from './rule-ports.ts'
import { createSalesPorts } from './sales-ports.ts'
import { createShareLists } from './share-lists.ts'

const callBackground = createCall(PANEL_TO_BACKGROUND, toExtension)

export function createDeskPorts(stores: Stores, texts: () => InterfaceTexts): DeskPorts {
  const { dossiers, graders, riskyIssues, siteHints } = stores
  return {
    now,
    keeping: createBagPorts(stores, texts),

    listDossiers: () => dossiers.search(''),
    newestDossiers: (count) => dossiers.newest(count),
    openDossier: (id) => dossiers.get(id),
    async openBlob(sha256) {
      const blob = await dossiers.readBlob(sha256)
      return blob === null ? null : pictureBlob(blob.bytes, blob.mediaType)
    },
    saveNotes: (id, notes) => dossiers.record(id, 'note', notes, () => ({ notes })),
    life: createDossierPorts(stores, async () => loadAllPacks(texts(), await readOwnRules(stores)).packs, texts),
    deleteDossier: async (id) => void (await dossiers.remove(id)),
    restoreDossier: async (id) => void (await dossiers.restore(id)),
    openPage,
    async exportDossier(id) {
      const dossier = await dossiers.get(id)
      if (dossier === null) throw new Fault('record-changed-elsewhere', id)
      const day = dossier.capturedAt.slice(0, 10)
      const words = JSON.stringify(dossier, null, 2)
      saveFile(`touchstone-dossier-${day}-${id.slice(0, 8)}.json`, new Blob([words], { type: 'application/json' }))
    },

    ...createBackupPorts(stores),
    ...createShareLists(stores),

    ...createSalesPorts(stores, texts),

    listGraders: () => graders.list(),
    saveGrader: async (grader, id) =>
      void (id === null
        ? await graders.add(grader)
        : await graders.update(id, (current) => ({ ...current, ...grader }))),
    deleteGrader: async (id) => void (await graders.remove(id)),
    restoreGrader: async (id) => void (await graders.restore(id)),

    listRiskyIssues: () => riskyIssues.list(),
    saveRiskyIssue: async (issue, id) =>
      void (id === null
        ? await riskyIssues.add(issue)
        : await riskyIssues.update(id, (current) => ({ ...current, ...issue }))),
    deleteRiskyIssue: async (id) => void (await riskyIssues.remove(id)),
    restoreRiskyIssue: async (id) => void (await riskyIssues.restore(id)),

    ...createRulePorts(stores, texts),

    ...createExemplarPorts(stores, texts),

    readSettings: stores.readSettings,
    changeSettings: stores.changeSettings,
    async listSites() {
      const answer = await callBackground('sites', null)
      if (!answer.ok) throw new Fault('unexpected', answer.fault.message)
      return answer.value.origins
    },
    async forgetSite(origin) {
      const answer = await callBackground('neverOnSite', { origin })
      if (!answer.ok) throw new Fault('unexpected', answer.fault.message)
    },
    listSiteHints: () => siteHints.list(),
    deleteSiteHint: async (id) => void (await siteHints.remove(id)),
    openSetup: () => openOwnPage('setup/index.html'),
  }
}
