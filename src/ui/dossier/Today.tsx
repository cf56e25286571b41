/** What needs the person today, above the list of dossiers: one line each, the most urgent first. */
import { type Due, dueToday } from '../../domain/dossier/due-today.ts'
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import { useDesk } from '../desk/desk-context.ts'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'

/** Lines that fit above a list without pushing it away; the rest is behind a fold. */
const MOST_SHOWN = 5

export function Today({ dossiers }: { dossiers: readonly DossierSummary[] }) {
  const { t } = useWording()
  const { ports } = useDesk()
  const due = dueToday(dossiers, ports.now())
  if (due.length === 0) return null
  const rest = due.slice(MOST_SHOWN)
  return (
    <section class="today" aria-labelledby="today-heading">
      <h2 id="today-heading">{t('today.heading')}</h2>
      <ul>
        {due.slice(0, MOST_SHOWN).map((one) => (
          <DueLine key={one.summary.id} due={one} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details>
          <summary>{t('today.more', { count: rest.length })}</summary>
          <ul>
            {rest.map((one) => (
              <DueLine key={one.summary.id} due={one} />
            ))}
          </ul>
        </details>
      )}
    </section>
  )
}

function DueLine({ due: { summary, reason, deadline, at } }: { due: Due }) {
  const { t, relative } = useWording()
  const { ports } = useDesk()
  return (
    <li class={`due is-${reason}`}>
      <a href={`#dossiers/${encodeURIComponent(summary.id)}`}>
        <strong>{deadline === null ? t(`today.${reason}`) : t(`deadline.${deadline.kind}`)}</strong>{' '}
        <span class="quiet">
          {deadline !== null && reason === 'over' && `${t('deadline.status.over')} · `}
          {relative(at, ports.now())}
        </span>
        <span class="due-title">
          <PageText text={summary.title} />
        </span>
      </a>
    </li>
  )
}
