/** The life of a dossier where nothing is kept: steps lead nowhere, the message is the one that the sample has. */
import type { Dossier } from '../../src/domain/dossier.ts'
import type { DossierPorts } from '../../src/ui/dossier/dossier-ports.ts'

/** `first` is asked for late: samples and ports are made of each other. */
export function createQuietLifePorts(first: () => Dossier): DossierPorts {
  return {
    newId: () => 'new-id',
    zone: () => 'Europe/Berlin',
    addStep: async () => first(),
    addReply: async () => first(),
    writeMessage: async () => first().inspection.request,
    copyText: async () => {},
    saveCalendar: async () => {},
    sharePage: async () => {},
    beginDossier: async () => first().id,
  }
}
