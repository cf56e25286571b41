/** What was decided, whether it came, and how it ended. Each is a step of its own and can be taken back. */
import { useState } from 'preact/hooks'
import type { DossierState } from '../../domain/dossier/derive-state.ts'
import { DECISIONS, type Dossier } from '../../domain/dossier.ts'
import { OUTCOMES, type Outcome } from '../../domain/facts.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { useSteps } from './use-step.ts'

export function Purchase({ dossier, state }: { dossier: Dossier; state: DossierState }) {
  const { t } = useWording()
  const steps = useSteps(dossier)
  const [note, setNote] = useState('')
  const { decision, stage } = state
  const came = stage === 'arrived' || stage === 'checked' || stage === 'closed'
  return (
    <section aria-labelledby="purchase-heading">
      <h2 id="purchase-heading">{t('life.purchase')}</h2>
      {decision !== null && (
        <p>
          <strong>{t(`life.decided.${decision}`)}</strong>
        </p>
      )}
      {stage !== 'closed' && (
        <div class="form">
          <TextField label={t('life.decision.note')} value={note} onChange={setNote} />
          <div class="form-actions">
            {DECISIONS.filter((one) => one !== decision).map((one) => (
              <button
                key={one}
                type="button"
                class="button"
                disabled={steps.busy}
                onClick={() => {
                  setNote('')
                  void steps.add({ event: 'decided', detail: note, decision: one }, t('settings.saved'))
                }}
              >
                {t(`life.decide.${one}`)}
              </button>
            ))}
            {decision === 'bought' && !came && (
              <button
                type="button"
                class="button primary"
                disabled={steps.busy}
                onClick={() => steps.add({ event: 'arrived', detail: '' }, t('settings.saved'))}
              >
                {t('life.it-arrived')}
              </button>
            )}
          </div>
        </div>
      )}
      <SelectField
        label={t('outcome.question')}
        hint={t('outcome.hint')}
        value={state.outcome ?? ''}
        onChange={(value) =>
          steps.add(
            value === ''
              ? { event: 'closed', detail: '', outcome: null }
              : { event: 'closed', detail: '', outcome: value as Outcome },
            t('settings.saved'),
          )
        }
        options={[
          { value: '', text: t('outcome.open') },
          ...OUTCOMES.map((outcome) => ({ value: outcome, text: t(`outcome.${outcome}`) })),
        ]}
      />
    </section>
  )
}
