/** Deadlines of one dossier: entered in a zone, or taken from the usual periods with their source. No legal period is assumed. */
import { useState } from 'preact/hooks'
import { OFFERED_PERIODS, offerDeadline, toInstant } from '../../domain/dossier/deadlines.ts'
import type { DeadlineState, DossierState } from '../../domain/dossier/derive-state.ts'
import { DEADLINE_KINDS, type DeadlineKind, type Dossier } from '../../domain/dossier.ts'
import { useDesk } from '../desk/desk-context.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useSteps } from './use-step.ts'

export function Deadlines({ dossier, state }: { dossier: Dossier; state: DossierState }) {
  const { t } = useWording()
  const { ports, actions } = useDesk()
  const [adding, setAdding] = useState(false)
  const open = state.deadlines.filter(({ status }) => status === 'open')
  const ends = dossier.inspection.listing.endsAt
  const knowsEnd = state.deadlines.some(({ kind }) => kind === 'auction-end')
  const steps = useSteps(dossier)
  return (
    <section aria-labelledby="deadlines-heading">
      <h2 id="deadlines-heading">{t('deadline.heading')}</h2>
      {state.deadlines.length === 0 && <p class="quiet">{t('deadline.none')}</p>}
      <ul class="deadlines">
        {state.deadlines.map((deadline) => (
          <DeadlineLine key={deadline.id} deadline={deadline} dossier={dossier} />
        ))}
      </ul>
      {ends !== null && !knowsEnd && ends > ports.now() && (
        <p class="form-actions">
          <button
            type="button"
            class="button"
            disabled={steps.busy}
            onClick={() => {
              const { life } = ports
              const deadline = { id: life.newId(), kind: 'auction-end', at: ends, zone: life.zone() } as const
              void steps.add(
                { event: 'deadline-set', detail: '', deadline: { ...deadline, from: 'page', note: '' } },
                t('deadline.set'),
              )
            }}
          >
            {t('deadline.from-page')}
          </button>
        </p>
      )}
      {adding ? (
        <DeadlineForm dossier={dossier} state={state} onDone={() => setAdding(false)} />
      ) : (
        <div class="form-actions">
          <button type="button" class="button" onClick={() => setAdding(true)}>
            <Icon name="add" />
            {t('deadline.add')}
          </button>
          {open.length > 0 && (
            <button
              type="button"
              class="button"
              onClick={() =>
                actions.run('calendar', () =>
                  ports.life.saveCalendar(
                    open.map(({ id, kind }) => ({
                      dossierId: dossier.id,
                      deadlineId: id,
                      summary: t('deadline.calendar-line', { kind: t(`deadline.${kind}`), title: dossier.title }),
                    })),
                  ),
                )
              }
            >
              <Icon name="save" />
              {t('deadline.calendar')}
            </button>
          )}
        </div>
      )}
    </section>
  )
}

function DeadlineLine({ deadline, dossier }: { deadline: DeadlineState; dossier: Dossier }) {
  const { t, dateTime, relative } = useWording()
  const { ports } = useDesk()
  const steps = useSteps(dossier)
  const { id, kind, at, status, note } = deadline
  const isOver = at < ports.now()
  return (
    <li class={`deadline is-${status === 'open' && isOver ? 'over' : status}`}>
      <p>
        <strong>{t(`deadline.${kind}`)}</strong> <time dateTime={at}>{dateTime(at)}</time>{' '}
        <span class="quiet">
          {status === 'open' ? relative(at, ports.now()) : t(`deadline.status.${status}`)}
          {status === 'open' && isOver && ` · ${t('deadline.status.over')}`}
        </span>
      </p>
      {note !== '' && (
        <p class="hint">
          {note} {deadline.from === 'offered' && t('deadline.check-yours')}
        </p>
      )}
      {status === 'open' && (
        <p class="deadline-actions">
          <button
            type="button"
            class="link-button"
            onClick={() => steps.add({ event: 'deadline-met', detail: '', deadline: id }, t('deadline.met'))}
          >
            {t('deadline.meet')}
          </button>
          <button
            type="button"
            class="link-button"
            onClick={() => steps.add({ event: 'deadline-lifted', detail: '', deadline: id }, t('deadline.lifted'))}
          >
            {t('deadline.lift')}
          </button>
        </p>
      )}
    </li>
  )
}

interface DeadlineFormProps {
  readonly dossier: Dossier
  readonly state: DossierState
  readonly onDone: () => void
}

function DeadlineForm({ dossier, state, onDone }: DeadlineFormProps) {
  const { t } = useWording()
  const { ports } = useDesk()
  const steps = useSteps(dossier)
  const zone = ports.life.zone()
  const [kind, setKind] = useState<DeadlineKind>('reply')
  const [local, setLocal] = useState('')
  const [note, setNote] = useState('')
  const at = toInstant(local, zone)
  const reached = (event: 'decided' | 'arrived') => dossier.log.findLast((entry) => entry.event === event)?.at ?? null
  const days = {
    today: ports.now(),
    decided: state.decision === 'bought' ? reached('decided') : null,
    arrived: reached('arrived'),
  }
  const offers = OFFERED_PERIODS.filter((period) => period.kind === kind).flatMap((period) => {
    const deadline = offerDeadline(period, days, zone, ports.life.newId())
    return deadline === null ? [] : [{ period, deadline }]
  })
  const set = async (deadline: (typeof offers)[number]['deadline']) => {
    if (await steps.add({ event: 'deadline-set', detail: '', deadline }, t('deadline.set'))) onDone()
  }
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault()
        if (at !== null) void set({ id: ports.life.newId(), kind, at, zone, from: 'entered', note: note.trim() })
      }}
    >
      <SelectField
        label={t('deadline.kind')}
        value={kind}
        onChange={(value) => setKind(value as DeadlineKind)}
        options={DEADLINE_KINDS.map((value) => ({ value, text: t(`deadline.${value}`) }))}
      />
      {offers.length > 0 && (
        <fieldset>
          <legend>{t('deadline.usual')}</legend>
          <p class="hint">{t('deadline.usual.hint')}</p>
          <ul class="offered-periods">
            {offers.map(({ period, deadline }) => (
              <li key={period.id}>
                <button type="button" class="button small" disabled={steps.busy} onClick={() => void set(deadline)}>
                  {t(`deadline.days.${period.from}`, { count: period.days })}
                </button>
                <span class="hint">{period.source}</span>
              </li>
            ))}
          </ul>
        </fieldset>
      )}
      <label class="field">
        {t('deadline.when', { zone })}
        <input type="datetime-local" value={local} onInput={(event) => setLocal(event.currentTarget.value)} />
      </label>
      <TextField label={t('deadline.note')} value={note} onChange={setNote} />
      <div class="form-actions">
        <button type="submit" class="button primary" disabled={at === null || steps.busy}>
          {t('deadline.save')}
        </button>
        <button type="button" class="button" onClick={onDone}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
