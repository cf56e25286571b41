/** The desk's lists out as files and in again. Wiring only. */
import { now } from '../../platform/clock.ts'
import { saveFile } from '../../platform/save-file.ts'
import { parseShareFile, type Shared, type ShareKind, writeShareFile } from '../../storage/share-file.ts'
import type { DeskPorts } from '../../ui/desk/desk-ports.ts'
import type { Stores } from '../stores.ts'

export function createShareLists(stores: Stores): Pick<DeskPorts, 'exportList' | 'importList'> {
  const lists = { 'site-hints': stores.siteHints, 'risky-issues': stores.riskyIssues, graders: stores.graders }
  return {
    async exportList(kind) {
      const text = writeShareFile(kind, (await lists[kind].list()) as never)
      saveFile(`touchstone-${kind}-${now().slice(0, 10)}.json`, new Blob([text], { type: 'application/json' }))
    },
    async importList(kind, file) {
      const items = parseShareFile(kind, await file.text())
      const present = new Set((await lists[kind].list()).map((record) => likeness(kind, record as never)))
      const fresh = items.filter((item) => !present.has(likeness(kind, item as never)))
      await lists[kind].addAll(fresh.map((item) => ({ ...item, id: stores.newId() })) as never)
      return { added: fresh.length, known: items.length - fresh.length }
    },
  }
}

/** Two entries are the same when their files are. */
function likeness<Kind extends ShareKind>(kind: Kind, item: Shared[Kind]): string {
  return writeShareFile(kind, [item])
}
