/** Ports that do nothing, for pictures; a test replaces the ones that it watches. */
import type { Dossier } from '../../src/domain/dossier.ts'
import { summarise } from '../../src/domain/dossier-summary.ts'
import { DEFAULT_SETTINGS } from '../../src/domain/settings.ts'
import type { DeskPorts } from '../../src/ui/desk/desk-ports.ts'
import type { PanelPorts } from '../../src/ui/panel/panel-ports.ts'
import type { SetupPorts } from '../../src/ui/setup/setup-ports.ts'
import { drawnCard, quietExemplarPorts } from './quiet-exemplars.ts'
import { quietLedgerPorts } from './quiet-ledger.ts'
import { createQuietLifePorts } from './quiet-life-ports.ts'
import { quietRulePorts } from './quiet-rule-ports.ts'
import {
  cleanState,
  concerns,
  drawnPhoto,
  graders,
  inspection,
  NOW,
  photos,
  riskyIssues,
  unseenState,
} from './samples.ts'

const nothing = async () => {}

export const quietPanelPorts: PanelPorts = {
  now: () => NOW,
  rescan: nothing,
  findRowSales: () => quietLedgerPorts.salesOfDossiers({ signal: new AbortController().signal, onProgress() {} }),
  addSales: quietLedgerPorts.addSales,
  takeBackSales: nothing,
  pickField: async () => true,
  scrollTo: async () => true,
  copyText: nothing,
  fillMessage: async () => ({ filled: true, reason: null }),
  setMessageLanguage: nothing,
  setMessageTone: nothing,
  setMessageMostViews: nothing,
  save: nothing,
  saveNotes: nothing,
  settle: nothing,
  unsettle: nothing,
  assignView: nothing,
  addPhotos: async (files) => files.length,
  removePhoto: async () => {},
  restorePhoto: async () => {},
  setCorners: async () => {},
  requestSite: async () => 'granted',
  cancelPhotos: () => {},
  addGrader: nothing,
  removeGrader: nothing,
  addRiskyIssue: nothing,
  lookUp: nothing,
  readRecord: nothing,
  openDesk: nothing,
  openRow: nothing,
}

export const quietSetupPorts: SetupPorts = {
  finish: nothing,
  skip: nothing,
  openDesk: nothing,
  setInterfaceLanguage: () => {},
}

const HASHES = ['holder', 'label', 'card', 'back'].map((kind, index) => `${index}f2c4a7be01d5583a6f4${kind}`)

const dossier = (id: string, kept: Dossier['inspection'], partial: Partial<Dossier> = {}): Dossier => ({
  id,
  revision: 1,
  createdAt: '2026-11-24T09:12:00Z',
  updatedAt: '2026-11-24T09:12:00Z',
  deletedAt: null,
  title: kept.listing.title ?? '',
  url: kept.listing.url,
  capturedAt: '2026-11-24T09:12:00Z',
  pageText: `${kept.listing.title}\n\n${kept.listing.description}`,
  inspection: kept,
  photos: photos.map(({ url, facts }, index) => ({
    url,
    alt: null,
    sha256: HASHES[index]!,
    mediaType: 'image/jpeg',
    facts,
  })),
  viewCorrections: {},
  outcome: null,
  screenshot: '5b1e7c20aa9f4d0c8e77d1203b6a1f9925d0',
  notes: 'Asked for the label on Tuesday.',
  tags: [],
  log: [
    { at: '2026-11-24T09:12:00Z', event: 'kept', detail: kept.listing.url ?? '' },
    { at: '2026-11-24T09:14:00Z', event: 'request-copied', detail: '4 views' },
  ],
  ...partial,
})

export const dossiers: readonly Dossier[] = [
  dossier('d1', {
    ...inspection,
    trace: concerns.map(({ rule, why }) => ({ rule, raised: true, reason: why })),
  }),
  dossier('d2', cleanState.inspection, { capturedAt: '2026-11-23T18:40:00Z' }),
  dossier('d3', unseenState.inspection, { capturedAt: '2026-11-20T07:02:00Z', photos: [] }),
]

const KINDS = ['holder', 'label', 'card', 'back'] as const

export async function drawnBlob(kind: (typeof KINDS)[number]): Promise<Blob> {
  return new Blob([decodeURIComponent(drawnPhoto(kind).split(',')[1]!)], { type: 'image/svg+xml' })
}

export const quietLifePorts = createQuietLifePorts(() => dossiers[0]!)

export const quietDeskPorts: DeskPorts = {
  now: () => NOW,
  keeping: {
    makeBag: async () => ({ name: 'touchstone-2026-11-18-d1', files: 21, missing: 0 }),
    freeDeleted: async () => ({ dossiers: 2, bytes: 14_000_000 }),
    measureStorage: async () => ({
      used: 612_000_000,
      quota: 5_000_000_000,
      largest: dossiers.map(({ id, title }, index) => ({ id, title, bytes: 9_000_000 - 2_000_000 * index })),
    }),
  },
  listDossiers: async () => dossiers.map(summarise),
  newestDossiers: async () => dossiers.map(summarise),
  openDossier: async (id) => dossiers.find((one) => one.id === id) ?? null,
  openBlob: async (sha256) =>
    sha256.startsWith('drawn-')
      ? drawnCard(sha256 === 'drawn-questioned')
      : drawnBlob(KINDS[Math.max(0, HASHES.indexOf(sha256))]!),
  saveNotes: async () => dossiers[0]!,
  life: quietLifePorts,
  deleteDossier: nothing,
  restoreDossier: nothing,
  openPage: nothing,
  exportDossier: nothing,
  exportAll: nothing,
  importAll: async () => ({ added: 3, replaced: 0, left: 1 }),
  ...quietLedgerPorts,
  listGraders: async () =>
    graders.map((grader, index) => ({
      ...grader,
      id: `g${index}`,
      ...(index === 1
        ? {
            pictures: [
              { of: 'holder' as const, sha256: HASHES[0]! },
              { of: 'label' as const, sha256: HASHES[1]! },
            ],
          }
        : {}),
    })),
  saveGrader: nothing,
  deleteGrader: nothing,
  restoreGrader: nothing,
  listRiskyIssues: async () => riskyIssues,
  saveRiskyIssue: nothing,
  deleteRiskyIssue: nothing,
  restoreRiskyIssue: nothing,
  ...quietRulePorts,
  ...quietExemplarPorts,
  readSettings: async () => DEFAULT_SETTINGS,
  changeSettings: async (change) => ({ ...DEFAULT_SETTINGS, ...change }),
  exportList: nothing,
  importList: async () => ({ added: 2, known: 1 }),
  listSites: async () => ['https://quayside-lots.example'],
  forgetSite: nothing,
  listSiteHints: async () => [{ id: 'h1', host: 'brambleboard.example', field: 'price', selectors: ['.amount'] }],
  deleteSiteHint: nothing,
  openSetup: nothing,
}
