/** The life of a dossier where nothing is kept: steps lead nowhere, the message is the one that the sample has. */
import type { DossierPorts } from '../../src/ui/dossier/dossier-ports.ts'
import { dossiers } from './samples.ts'

const [FIRST] = dossiers

export const quietLifePorts: DossierPorts = {
  newId: () => 'new-id',
  zone: () => 'Europe/Berlin',
  addStep: async (id) => dossiers.find((one) => one.id === id) ?? FIRST!,
  addReply: async () => FIRST!,
  writeMessage: async () => FIRST!.inspection.request,
  copyText: async () => {},
  saveCalendar: async () => {},
  beginDossier: async () => FIRST!.id,
}
