/** Ports that do nothing, for pictures; a test replaces the ones that it watches. */
import type { PanelPorts } from '../../src/ui/panel/panel-ports.ts'
import { NOW } from './samples.ts'

const nothing = async () => {}

export const quietPanelPorts: PanelPorts = {
  now: () => NOW,
  rescan: nothing,
  pickField: async () => true,
  scrollTo: async () => true,
  copyText: nothing,
  fillMessage: async () => ({ filled: true, reason: null }),
  setMessageLanguage: nothing,
  save: nothing,
  saveNotes: nothing,
  settle: nothing,
  unsettle: nothing,
  assignView: nothing,
  requestSite: async () => 'granted',
  cancelPhotos: () => {},
  addGrader: nothing,
  addRiskyIssue: nothing,
  lookUp: nothing,
  openDesk: nothing,
  openRow: nothing,
}
