/** Everything out as one file and in again: storage, sealing and the browser's download put together. Wiring only. */
import { now } from '../../platform/clock.ts'
import { createFileSink } from '../../platform/file-sink.ts'
import { saveFile } from '../../platform/save-file.ts'
import { BackupFault } from '../../storage/faults.ts'
import { createSealer, isSealed, unseal } from '../../storage/seal.ts'
import type { DeskPorts } from '../../ui/desk/desk-ports.ts'
import type { Stores } from '../stores.ts'

// The zip library is large, and most visits to the desk save nothing.
const loadBackup = () => import('../../storage/backup.ts')

export function createBackupPorts({ database, changeSettings }: Stores): Pick<DeskPorts, 'exportAll' | 'importAll'> {
  return {
    async exportAll({ passphrase, signal, onProgress }) {
      const { writeBackup } = await loadBackup()
      const createdAt = now()
      const file = createFileSink()
      const sealer = passphrase === null ? null : await createSealer(passphrase, file.write)
      await writeBackup(database, createdAt, sealer?.write ?? file.write, { signal, onProgress })
      await sealer?.finish()
      const name = `touchstone-${createdAt.slice(0, 10)}.zip`
      if (sealer === null) saveFile(name, file.finish('application/zip'))
      else saveFile(`${name}.sealed`, file.finish('application/octet-stream'))
      await changeSettings({ lastBackupAt: createdAt, backupLaterAt: null })
    },
    async importAll(file, { passphrase, signal, onProgress }) {
      const { restoreBackup } = await loadBackup()
      const sealed = await isSealed(file)
      if (sealed && passphrase === null) throw new BackupFault('the file', 'is closed: type its passphrase first')
      const open = sealed ? await unseal(file, passphrase!, signal) : file
      return restoreBackup(database, open, { signal, onProgress })
    },
  }
}
