/**
 * The list to go through with the parcel in hand, step by step, each ending in a finding. Kept whole as one step of the log;
 * nothing here concludes anything.
 */
import { useState } from 'preact/hooks'
import { type ArrivalStep, arrivalSteps, tallyArrival } from '../../domain/dossier/arrival.ts'
import type { DossierState } from '../../domain/dossier/derive-state.ts'
import type { ArrivalFinding, Dossier } from '../../domain/dossier.ts'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { useSteps } from './use-step.ts'

const FINDINGS = ['as-listed', 'differs', 'cannot-tell', 'not-done'] as const

const untouched = (step: string): ArrivalFinding => ({
  step,
  finding: 'not-done',
  note: '',
  measured: null,
  photos: [],
})

export function ArrivalCheck({ dossier, state }: { dossier: Dossier; state: DossierState }) {
  const { t, number, list } = useWording()
  const steps = useSteps(dossier)
  const todo = arrivalSteps(dossier.inspection.claim.encapsulation)
  const [findings, setFindings] = useState<readonly ArrivalFinding[]>(() =>
    todo.map(({ id }) => state.arrival.find(({ step }) => step === id) ?? untouched(id)),
  )
  const tally = tallyArrival(todo, findings)
  const change = (id: string, part: Partial<ArrivalFinding>) =>
    setFindings(findings.map((finding) => (finding.step === id ? { ...finding, ...part } : finding)))
  return (
    <section aria-labelledby="arrival-heading">
      <h2 id="arrival-heading">{t('arrival.heading')}</h2>
      <p class="hint">{t('arrival.hint')}</p>
      <p role="status">{t('arrival.tally', { done: number(tally.done), of: number(tally.of) })}</p>
      <ol class="arrival">
        {todo.map((step) => (
          <ArrivalLine
            key={step.id}
            step={step}
            finding={findings.find((one) => one.step === step.id)!}
            onChange={(part) => change(step.id, part)}
          />
        ))}
      </ol>
      {tally.differs.length > 0 && (
        <p class="life-differs">
          <strong>{t('arrival.differs')}</strong> {list(tally.differs.map((id) => t(`arrival.${id}`)))}
        </p>
      )}
      <div class="form-actions">
        <button
          type="button"
          class="button primary"
          disabled={steps.busy || tally.done === 0}
          onClick={() => steps.add({ event: 'checked', detail: '', findings }, t('arrival.kept'))}
        >
          {t('arrival.keep')}
        </button>
      </div>
    </section>
  )
}

interface ArrivalLineProps {
  readonly step: ArrivalStep
  readonly finding: ArrivalFinding
  readonly onChange: (part: Partial<ArrivalFinding>) => void
}

function ArrivalLine({ step, finding, onChange }: ArrivalLineProps) {
  const { t } = useWording()
  const { unit } = step
  const [measured, setMeasured] = useState(finding.measured === null ? '' : String(finding.measured.value))
  return (
    <li>
      <fieldset>
        <legend>{t(`arrival.${step.id}`)}</legend>
        <div class="arrival-findings">
          {FINDINGS.map((one) => (
            <label key={one} class="choice">
              <input
                type="radio"
                name={`arrival-${step.id}`}
                checked={finding.finding === one}
                onChange={() => onChange({ finding: one })}
              />
              {t(`arrival.finding.${one}`)}
            </label>
          ))}
        </div>
        {unit !== null && finding.finding !== 'not-done' && (
          <TextField
            label={t('arrival.measured', { unit })}
            inputMode="decimal"
            value={measured}
            onChange={(value) => {
              setMeasured(value)
              const amount = Number(value.replace(',', '.'))
              onChange({ measured: value.trim() !== '' && amount > 0 ? { value: amount, unit } : null })
            }}
          />
        )}
        {finding.finding === 'differs' && (
          <TextField label={t('arrival.note')} value={finding.note} onChange={(note) => onChange({ note })} />
        )}
      </fieldset>
    </li>
  )
}
