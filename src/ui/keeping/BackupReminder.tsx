/** A quiet line above the dossiers when there is something to lose and the last copy of it is old. */
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { useWording } from '../wording.ts'

/** Dossiers from which on losing them would hurt, days after which a copy is old, days of silence after "later". Ours, no source. */
const FEWEST_DOSSIERS = 5
const OLD_AFTER_DAYS = 30
const LATER_DAYS = 7
const DAY_MS = 86_400_000

export function BackupReminder({ dossiers }: { dossiers: number }) {
  const { t } = useWording()
  const { actions, ports, refresh, version } = useDesk()
  const loaded = useLoaded(() => ports.readSettings(), [ports, version.value])
  if (dossiers < FEWEST_DOSSIERS || loaded.phase !== 'ready') return null
  const { lastBackupAt = null, backupLaterAt = null } = loaded.value
  const days = (since: string) => Math.floor((Date.parse(ports.now()) - Date.parse(since)) / DAY_MS)
  if (lastBackupAt !== null && days(lastBackupAt) < OLD_AFTER_DAYS) return null
  if (backupLaterAt !== null && days(backupLaterAt) < LATER_DAYS) return null
  const later = () =>
    actions.run('later', async () => {
      await ports.changeSettings({ backupLaterAt: ports.now() })
      refresh()
    })
  return (
    <p class="backup-reminder">
      {lastBackupAt === null ? t('keeping.reminder.never') : t('keeping.reminder.old', { count: days(lastBackupAt) })}{' '}
      <a class="link" href="#settings">
        {t('keeping.reminder.open')}
      </a>{' '}
      <button type="button" class="link-button" onClick={() => void later()}>
        {t('keeping.reminder.later')}
      </button>
    </p>
  )
}
