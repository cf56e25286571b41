/**
 * The desk's view model: where the person is, what runs, and a count that grows whenever the store changed, so that every
 * list reloads. Must not keep records: each screen asks its port and lets go of them when it is left.
 */
import { type ReadonlySignal, type Signal, signal } from '@preact/signals'
import { type Actions, createActions } from '../parts/actions.ts'
import type { DeskPorts } from './desk-ports.ts'

export const SECTIONS = [
  'dossiers',
  'exemplars',
  'light-table',
  'sales',
  'value',
  'wants',
  'graders',
  'risky-issues',
  'rules',
  'outcomes',
  'settings',
] as const

export type Section = (typeof SECTIONS)[number]

export interface DeskPlace {
  readonly section: Section
  /** The opened record's id. */
  readonly id: string | null
}

/** `#dossiers/ID` and the like; anything else is the list of dossiers. */
export function parsePlace(hash: string): DeskPlace {
  const [head = '', ...rest] = hash.replace(/^#?\/?/, '').split('/')
  const section = SECTIONS.find((known) => known === head)
  if (section === undefined) return { section: 'dossiers', id: null }
  const id = rest.join('/')
  return { section, id: id === '' ? null : decodeURIComponent(id) }
}

export function formatPlace({ section, id }: DeskPlace): string {
  return id === null ? `#${section}` : `#${section}/${encodeURIComponent(id)}`
}

export interface DeskModel {
  readonly ports: DeskPorts
  readonly actions: Actions
  readonly place: Signal<DeskPlace>
  readonly version: ReadonlySignal<number>
  /** The store changed, here or in another window: reload what is shown. */
  refresh(): void
  go(place: DeskPlace): void
}

export function createDeskModel(ports: DeskPorts, hash = ''): DeskModel {
  const place = signal(parsePlace(hash))
  const version = signal(0)
  const actions = createActions()
  return {
    ports,
    actions,
    place,
    version,
    refresh() {
      version.value += 1
    },
    go(next) {
      // What was said of one place is not said of the next; only an undo stays within reach.
      const elsewhere = next.section !== place.value.section
      if (elsewhere && actions.notice.value?.undo === null) actions.dismiss()
      place.value = next
    },
  }
}
