/** Everything out as one file and in again, closed with a passphrase where that is wished. */
import { useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { FilePick } from '../parts/FilePick.tsx'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { ShareDone } from './ShareDone.tsx'
import { useProgress } from './use-progress.ts'

export function Backup() {
  const { t, number, date } = useWording()
  const { ports, refresh, version } = useDesk()
  const [passphrase, setPassphrase] = useState('')
  const work = useProgress()
  const settings = useLoaded(() => ports.readSettings(), [ports, version.value])
  const last = settings.phase === 'ready' ? (settings.value.lastBackupAt ?? null) : undefined
  const given = passphrase === '' ? null : passphrase

  const save = () =>
    work.run('data', async (progress) => {
      await ports.exportAll({ ...progress, passphrase: given })
      refresh()
      return t('settings.exported')
    })
  const load = (file: File) =>
    work.run('data', async (progress) => {
      const { added, replaced, left } = await ports.importAll(file, { ...progress, passphrase: given })
      refresh()
      return t('settings.imported', { added: number(added), replaced: number(replaced), left: number(left) })
    })

  return (
    <section class="sheet">
      <h2>{t('settings.data')}</h2>
      <p class="quiet">{t('settings.data.explained')}</p>
      {last !== undefined && (
        <p>{last === null ? t('keeping.backup.never') : t('keeping.backup.last', { date: date(last) })}</p>
      )}
      {work.share === null ? (
        <>
          <TextField
            label={t('keeping.backup.passphrase')}
            hint={t('keeping.backup.passphrase.hint')}
            type="password"
            value={passphrase}
            onChange={setPassphrase}
          />
          <div class="form-actions">
            <button type="button" class="button" onClick={() => void save()}>
              {t('settings.export')}
            </button>
            <FilePick
              label={t('settings.import')}
              accept=".zip,.sealed,application/zip,application/octet-stream"
              onFile={(file) => void load(file)}
            />
          </div>
        </>
      ) : (
        <ShareDone work={work} label={t('settings.data.progress')} />
      )}
    </section>
  )
}
