/** Every state that is looked at, by name. */
import type { ReadonlySignal } from '@preact/signals'
import type { JSX } from 'preact'
import { DEFAULT_SETTINGS } from '../../src/domain/settings.ts'
import { Desk } from '../../src/ui/desk/Desk.tsx'
import { createDeskModel } from '../../src/ui/desk/desk-model.ts'
import type { DeskPorts } from '../../src/ui/desk/desk-ports.ts'
import { Fault } from '../../src/ui/fault.ts'
import { Panel } from '../../src/ui/panel/Panel.tsx'
import { createPanelModel } from '../../src/ui/panel/panel-model.ts'
import type { PanelState } from '../../src/ui/panel/panel-state.ts'
import { Setup } from '../../src/ui/setup/Setup.tsx'
import type { Wording } from '../../src/ui/wording.ts'
import { photosDone, photosWorking } from './photo-samples.ts'
import { quietDeskPorts, quietPanelPorts, quietSetupPorts } from './quiet-ports.ts'
import { cleanState, encapsulatedListing, listingState, unseenState } from './samples.ts'

const row = (title: string, amount: string) => ({
  title,
  url: `https://quayside-lots.example/item/${amount}`,
  price: { amount, currency: 'EUR' },
  sold: false,
  soldAt: null,
  photo: null,
  seller: null,
})

export const PANEL_STATES: Readonly<Record<string, PanelState>> = {
  listing: listingState,
  clean: cleanState,
  unseen: unseenState,
  progress: { ...listingState, photoProgress: { done: 3, total: 12 }, unknownGrader: null },
  'photos-working': photosWorking,
  'photos-done': photosDone,
  reading: { phase: 'reading', host: 'quayside-lots.example' },
  none: { phase: 'none', host: 'quayside-lots.example' },
  'none-remembered': { phase: 'none', host: 'records.kestrel-vault.example', remembered: encapsulatedListing.title! },
  record: {
    phase: 'record',
    title: encapsulatedListing.title!,
    fields: [
      { field: 'year', listing: '1931-32', record: '1931-32', verdict: 'agrees' },
      { field: 'subject', listing: 'Odo Marrable', record: 'Odo Marrable', verdict: 'agrees' },
      { field: 'cardNumber', listing: '17', record: null, verdict: 'not-shown' },
      { field: 'grade', listing: '7', record: '5', verdict: 'differs' },
      { field: 'certificate', listing: '40312036', record: '40312036', verdict: 'agrees' },
    ],
  },
  forbidden: { phase: 'forbidden' },
  failed: { phase: 'failed', fault: new Fault('timed-out', 'no answer within 10 s') },
  results: {
    phase: 'results',
    partlyRead: false,
    rows: [
      {
        row: row('1931-32 Skerryball Stars #14 Odo Marrable KVX 7', '940.00'),
        openConcerns: 0,
        foremost: null,
        keptAs: 'd2',
        singleCard: true,
      },
      {
        row: row(encapsulatedListing.title!, '610.00'),
        openConcerns: 3,
        foremost: 'Grader not in your book',
        keptAs: null,
        singleCard: true,
      },
      {
        row: row('Lot of 24 Harbour Ships of the Cold Coast, mixed', '85.00'),
        openConcerns: 0,
        foremost: null,
        keptAs: null,
        singleCard: false,
      },
      {
        row: row('1958 Tidal League Hesper Lunn rookie RP', '22.00'),
        openConcerns: 1,
        foremost: 'Reprint wording is ambiguous',
        keptAs: null,
        singleCard: true,
      },
    ],
  },
}

/** The desk by its address. */
export const DESK_STATES: Readonly<Record<string, string>> = {
  'desk-dossiers': '#dossiers',
  'desk-dossier': '#dossiers/d1',
  'desk-empty': '#dossiers',
  'desk-exemplars': '#exemplars',
  'desk-exemplar': '#exemplars/e1',
  'desk-exemplars-empty': '#exemplars',
  'desk-light-table': '#light-table',
  'desk-alone': '#light-table/x1',
  'desk-table': '#light-table/x2',
  'desk-blind': '#light-table/x3',
  'desk-sales': '#sales',
  'desk-value': '#value/1931-32%20Skerryball%20Stars%20%2314%20Odo%20Marrable%20KVX%207',
  'desk-wants': '#wants',
  'desk-graders': '#graders',
  'desk-risky-issues': '#risky-issues',
  'desk-rules': '#rules',
  'desk-outcomes': '#outcomes',
  'desk-no-outcomes': '#outcomes',
  'desk-settings': '#settings',
}

/** Before anything is kept. */
const EMPTY: Readonly<Record<string, Partial<DeskPorts>>> = {
  'desk-empty': { listDossiers: async () => [] },
  'desk-no-outcomes': { readLessons: async () => ({ sound: 0, wrong: 0, score: null, lessons: [] }) },
}

export function drawState(name: string, wording: ReadonlySignal<Wording>): JSX.Element {
  const place = DESK_STATES[name]
  if (place !== undefined) {
    const ports = { ...quietDeskPorts, ...EMPTY[name] }
    return <Desk model={createDeskModel(ports, place)} wording={wording} />
  }
  if (name === 'setup') return <Setup ports={quietSetupPorts} wording={wording} settings={DEFAULT_SETTINGS} />
  const state = PANEL_STATES[name]
  if (state === undefined) throw new Error(`no state "${name}"`)
  return <Panel model={createPanelModel(quietPanelPorts, state)} wording={wording} />
}
