/**
 * Reminds of deadlines. Woken by one alarm for the next moment, whenever a deadline changed, and when the browser starts: what
 * fell due while it was closed is then told at once. Nothing is kept in memory.
 */
import * as v from 'valibot'
import { dueReminders, nextReminder } from '../../domain/dossier/reminders.ts'
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import { onAlarm, setAlarm } from '../../platform/alarms.ts'
import { now } from '../../platform/clock.ts'
import { readBrowserLanguage } from '../../platform/interface-language.ts'
import { localValue } from '../../platform/local-settings.ts'
import { notify, onNotificationClick } from '../../platform/notifications.ts'
import { openOwnPage } from '../../platform/tabs.ts'
import { createWording } from '../../ui/wording.ts'
import { chooseLanguage, interfaceTexts } from '../interface-texts.ts'
import { openStores } from '../stores.ts'

const ALARM = 'deadline'
const NOTIFICATION = 'deadline:'

/** Until when was looked already. The epoch before the first look: then nothing is reminded of. */
const lookedUntil = localValue('deadlinesLookedUntil', v.nullable(v.pipe(v.string(), v.isoTimestamp())), null)

export async function remind(): Promise<void> {
  const stores = await openStores()
  try {
    const at = now()
    const open = (await stores.dossiers.search('')).flatMap((summary) =>
      (summary.life?.deadlines ?? []).map((deadline) => ({ ...deadline, summary })),
    )
    const since = await lookedUntil.read()
    const due = since === null ? [] : dueReminders(open, since, at)
    if (due.length > 0) {
      const language = chooseLanguage(await stores.readSettings(), readBrowserLanguage())
      const texts = interfaceTexts(language)
      const wording = createWording(language, texts.catalogue)
      for (const { kind, at: end, summary } of due) {
        const title = wording.t(`deadline.due.${kind}`, { when: wording.dateTime(end) })
        await notify(NOTIFICATION + summary.id, title, nameOf(summary))
      }
    }
    await lookedUntil.write(at)
    await setAlarm(ALARM, nextReminder(open, at))
  } finally {
    stores.database.close()
  }
}

/** To be called synchronously when the background starts. */
export function watchDeadlines(): void {
  onAlarm(ALARM, () => void remind())
  onNotificationClick((id) => {
    if (id.startsWith(NOTIFICATION)) {
      void openOwnPage(`desk/index.html#dossiers/${encodeURIComponent(id.slice(NOTIFICATION.length))}`)
    }
  })
}

function nameOf({ title, seller }: DossierSummary): string {
  return seller === null ? title : `${title} · ${seller}`
}
