/** What happened to a dossier, newest last, each line in the interface's words. Stored details are shown, never reworded. */
import type { ComponentChildren } from 'preact'
import type { Dossier, LogEntry } from '../../domain/dossier.ts'
import { OUTCOMES } from '../../domain/facts.ts'
import { VIEW_IDS } from '../../domain/views.ts'
import { useWording } from '../wording.ts'

/** How the panel writes down that something was taken back. */
const TAKEN_BACK = '–'

export function DossierLog({ dossier }: { dossier: Dossier }) {
  const { t, dateTime } = useWording()
  return (
    <section>
      <h2>{t('dossier.log')}</h2>
      <ol class="log">
        {dossier.log.map((entry, index) => (
          <li key={`${index}${entry.at}`}>
            <time dateTime={entry.at}>{dateTime(entry.at)}</time>
            <Line entry={entry} dossier={dossier} />
          </li>
        ))}
      </ol>
    </section>
  )
}

function Line({ entry, dossier }: { entry: LogEntry; dossier: Dossier }) {
  const { t } = useWording()
  const { event, detail } = entry
  const line = (words: string, rest: ComponentChildren = null) => (
    <span>
      {words} {rest !== null && <bdi class="quiet">{rest}</bdi>}
    </span>
  )
  if (event === 'kept' || event === 'seen-again') return line(t(`log.${event}`))
  if (event === 'outcome') {
    const outcome = OUTCOMES.find((known) => known === detail)
    return line(t('log.outcome'), t(outcome === undefined ? 'outcome.open' : `outcome.${outcome}`))
  }
  if (event === 'concern-settled') {
    const [rule = '', ...rest] = detail.split(': ')
    const reason = rest.join(': ')
    const title = dossier.inspection.concerns.find((concern) => concern.rule === rule)?.title ?? rule
    return reason === TAKEN_BACK
      ? line(t('log.concern-reopened'), title)
      : line(t('log.concern-settled'), `${title}: ${reason}`)
  }
  if (event === 'note') {
    const photo = dossier.photos.findIndex(({ url }) => detail.startsWith(`${url}: `))
    if (photo !== -1) {
      const word = detail.slice(dossier.photos[photo]!.url.length + 2)
      const view = [...VIEW_IDS, 'other' as const].find((known) => known === word)
      const number = photo + 1
      return view === undefined
        ? line(t('log.view-by-examination', { number }))
        : line(t('log.view-assigned', { number }), t(`view.${view}`))
    }
  }
  if (detail === '') return line(t(`log.${event}`))
  if (!detail.includes('\n')) return line(t(`log.${event}`), detail)
  return (
    <details>
      <summary>{t(`log.${event}`)}</summary>
      <p class="verbatim">{detail}</p>
    </details>
  )
}
