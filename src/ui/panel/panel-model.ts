/**
 * The panel's view model: the state as a signal, and what is only ever the panel's own business – the edited message,
 * what was announced, which action runs. Must not read a page or a store; it calls ports and shows what they answer.
 */
import { batch, type ReadonlySignal, type Signal, signal } from '@preact/signals'
import { type Actions, createActions } from '../parts/actions.ts'
import type { PanelPorts } from './panel-ports.ts'
import type { ListingState, PanelState } from './panel-state.ts'

export interface PanelModel {
  readonly state: ReadonlySignal<PanelState>
  readonly ports: PanelPorts
  readonly actions: Actions
  /** The message as it stands in the box; `null` while it is as written by the inspection. */
  readonly editedMessage: Signal<string | null>
  /** Notes not yet kept. */
  readonly draftNotes: Signal<string>
  /** The concern that the page or the mark asked to bring forward. */
  readonly focusedRule: Signal<string | null>
  /** ISO 8601 in UTC; moves on each half minute while the panel is drawn. */
  readonly now: Signal<string>
  show(next: PanelState): void
  focusConcern(rule: string | null): void
}

const sameListing = (a: PanelState, b: PanelState): a is ListingState =>
  a.phase === 'listing' && b.phase === 'listing' && a.inspection.listing.url === b.inspection.listing.url

export function createPanelModel(
  ports: PanelPorts,
  initial: PanelState = { phase: 'reading', host: null },
): PanelModel {
  const state = signal<PanelState>(initial)
  const editedMessage = signal<string | null>(null)
  const draftNotes = signal(initial.phase === 'listing' ? (initial.kept?.notes ?? '') : '')
  const focusedRule = signal<string | null>(null)
  const actions = createActions()
  return {
    state,
    ports,
    actions,
    editedMessage,
    draftNotes,
    focusedRule,
    now: signal(ports.now()),
    show(next) {
      batch(() => {
        const { phase } = state.value
        // What a person typed belongs to one listing: it outlives a second reading of it, never a change of page.
        if (!sameListing(state.value, next)) {
          editedMessage.value = null
          focusedRule.value = null
          // What was said of a listing is not said of the page after it.
          if (phase === 'listing') actions.dismiss()
          draftNotes.value = next.phase === 'listing' ? (next.kept?.notes ?? '') : ''
        }
        state.value = next
      })
    },
    focusConcern(rule) {
      focusedRule.value = rule
    },
  }
}
