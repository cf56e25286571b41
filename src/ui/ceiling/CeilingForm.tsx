/** The buyer's costs and what they leave for a bid: line by line, exact, remembered by name. */
import { useMemo, useState } from 'preact/hooks'
import type { TaxBase } from '../../domain/pricing/all-in-cost.ts'
import { areRatesOld, type CostPreset, ceilingOf } from '../../domain/pricing/ceiling.ts'
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { DateField } from '../ledger/SaleByHand.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { GradingDates } from './GradingDates.tsx'
import { Outcomes } from './Outcomes.tsx'
import { parseIncrements, parseNumber, parseTiers, writeIncrements, writeTiers } from './parse-costs.ts'

interface CeilingFormProps {
  readonly currency: string
  /** Decimal string: where the sales lie. */
  readonly worth: string | null
  readonly ask: string | null
  readonly onCeiling?: (bid: string | null) => void
}

const BASES: readonly TaxBase[] = ['hammer', 'premium', 'hammer-and-premium', 'everything']
const NUMBERS = [
  'premiumMinimum',
  'shipping',
  'insurance',
  'tax',
  'duty',
  'payment',
  'grading',
  'gradingShipping',
  'margin',
] as const
type NumberField = (typeof NUMBERS)[number]
const LABELS: Readonly<Record<NumberField, string>> = {
  premiumMinimum: 'ceiling.premium-minimum',
  shipping: 'ceiling.shipping',
  insurance: 'ceiling.insurance',
  tax: 'ceiling.tax',
  duty: 'ceiling.duty',
  payment: 'ceiling.payment',
  grading: 'ceiling.grading',
  gradingShipping: 'ceiling.grading-shipping',
  margin: 'ceiling.margin',
}

type Draft = Readonly<Record<NumberField | 'name' | 'premium' | 'increments' | 'ratesOf', string>> & {
  readonly base: TaxBase
}

function draftOf(preset: CostPreset | null, today: string): Draft {
  return {
    name: preset?.name ?? '',
    premium: preset === null ? '' : writeTiers(preset.terms.premium.tiers),
    premiumMinimum: preset?.terms.premium.minimum ?? '',
    shipping: preset?.terms.shipping ?? '',
    insurance: preset?.terms.insurancePercent ?? '',
    tax: preset?.terms.tax.percent ?? '',
    base: preset?.terms.tax.base ?? 'everything',
    duty: preset?.terms.dutyPercent ?? '',
    payment: preset?.terms.paymentPercent ?? '',
    grading: preset?.grading.fee ?? '',
    gradingShipping: preset?.grading.shipping ?? '',
    margin: preset?.marginPercent ?? '',
    increments: preset === null ? '0: 1' : writeIncrements(preset.increments),
    ratesOf: preset?.ratesOf ?? today,
  }
}

/** `null` where a field is not readable. */
function presetOf(draft: Draft, currency: string): CostPreset | null {
  const tiers = parseTiers(draft.premium.trim() === '' ? '0' : draft.premium)
  const increments = parseIncrements(draft.increments)
  const numbers = Object.fromEntries(NUMBERS.map((field) => [field, parseNumber(draft[field])])) as Record<
    NumberField,
    string | null
  >
  if (tiers === null || increments === null || Object.values(numbers).includes(null)) return null
  const known = numbers as Record<NumberField, string>
  return {
    name: draft.name.trim(),
    terms: {
      currency,
      premium: { tiers, minimum: known.premiumMinimum },
      shipping: known.shipping,
      insurancePercent: known.insurance,
      tax: { percent: known.tax, base: draft.base },
      dutyPercent: known.duty,
      paymentPercent: known.payment,
    },
    grading: { fee: known.grading, shipping: known.gradingShipping },
    marginPercent: known.margin,
    increments,
    ratesOf: draft.ratesOf,
  }
}

export function CeilingForm({ currency, worth, ask }: CeilingFormProps) {
  const { ports, version } = useDesk()
  const loaded = useLoaded(() => ports.listCostPresets(), [ports, version.value])
  if (loaded.phase !== 'ready') return null
  const fitting = loaded.value.filter(({ terms }) => terms.currency === currency)
  return (
    <Costs key={fitting.map(({ id }) => id).join()} presets={fitting} currency={currency} worth={worth} ask={ask} />
  )
}

type KeptPreset = CostPreset & { readonly id: string }

function Costs({ presets, currency, worth, ask }: CeilingFormProps & { presets: readonly KeptPreset[] }) {
  const { t, money } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const today = ports.now().slice(0, 10)
  const [chosen, setChosen] = useState<string>(presets.at(-1)?.id ?? '')
  const preset = presets.find(({ id }) => id === chosen) ?? null
  const [draft, setDraft] = useState<Draft>(draftOf(preset, today))
  const [value, setValue] = useState(worth ?? '')
  const set = (change: Partial<Draft>) => setDraft({ ...draft, ...change })
  const costs = useMemo(() => presetOf(draft, currency), [draft, currency])
  const exact = parseNumber(value)
  const ceiling = useMemo(
    () => (costs === null || exact === null || exact === '0' ? null : ceilingOf(exact, costs)),
    [costs, exact],
  )
  const amount = (sum: { toFixed(): string }) => money({ amount: sum.toFixed(), currency })
  const numberFault = (text: string) => (parseNumber(text) === null ? t('ceiling.fault') : null)

  const save = () =>
    actions.run(
      'save-costs',
      async () => {
        if (costs === null) return
        setChosen(await ports.saveCostPreset(costs, preset?.id ?? null))
        model.refresh()
      },
      t('ceiling.saved'),
    )
  const remove = () =>
    preset !== null &&
    actions.run('delete-costs', async () => {
      await ports.deleteCostPreset(preset.id)
      model.refresh()
      actions.say(t('ceiling.deleted'), () =>
        actions.run('restore-costs', async () => {
          await ports.restoreCostPreset(preset.id)
          model.refresh()
        }),
      )
    })

  return (
    <section class="sheet ceiling" aria-labelledby="ceiling-heading">
      <h2 id="ceiling-heading">{t('ceiling.heading')}</h2>
      <p class="quiet">{t('ceiling.lead')}</p>
      <div class="form-row">
        <TextField
          label={`${t('ceiling.worth')} (${currency})`}
          inputMode="decimal"
          value={value}
          fault={numberFault(value)}
          onChange={setValue}
        />
        <SelectField
          label={t('ceiling.preset')}
          value={chosen}
          onChange={(id) => {
            setChosen(id)
            setDraft(draftOf(presets.find((each) => each.id === id) ?? null, today))
          }}
          options={[
            { value: '', text: t('ceiling.preset.new') },
            ...presets.map(({ id, name }) => ({ value: id, text: name || id })),
          ]}
        />
      </div>
      {ceiling !== null && (
        <div class="ceiling-result" role="status">
          <p class="ceiling-bid">
            {ceiling.bid === null
              ? t('ceiling.none', { limit: amount(ceiling.limit) })
              : t('ceiling.result', { bid: amount(ceiling.bid) })}
          </p>
          {ceiling.allIn !== null && (
            <>
              <dl class="ceiling-lines">
                {ceiling.lines
                  .filter(({ amount: sum }) => !sum.isZero())
                  .map(({ line, amount: sum }) => (
                    <div key={line}>
                      <dt>{t(`ceiling.line.${line}`)}</dt>
                      <dd>{amount(sum)}</dd>
                    </div>
                  ))}
              </dl>
              <p>{t('ceiling.all-in', { amount: amount(ceiling.allIn), limit: amount(ceiling.limit) })}</p>
            </>
          )}
        </div>
      )}
      <details open={presets.length === 0}>
        <summary>{t('ceiling.preset')}</summary>
        <form
          class="form"
          onSubmit={(event) => {
            event.preventDefault()
            if (costs !== null && costs.name !== '') save()
          }}
        >
          <div class="form-row">
            <TextField label={t('ceiling.name')} value={draft.name} onChange={(name) => set({ name })} />
            <TextField
              label={t('ceiling.premium')}
              hint={t('ceiling.premium-hint')}
              value={draft.premium}
              fault={parseTiers(draft.premium.trim() === '' ? '0' : draft.premium) === null ? t('ceiling.fault') : null}
              onChange={(premium) => set({ premium })}
            />
            <TextField
              label={t('ceiling.increments')}
              hint={t('ceiling.increments-hint')}
              value={draft.increments}
              fault={parseIncrements(draft.increments) === null ? t('ceiling.fault') : null}
              onChange={(increments) => set({ increments })}
            />
          </div>
          <div class="form-row ceiling-numbers">
            {NUMBERS.map((field) => (
              <TextField
                key={field}
                label={t(LABELS[field])}
                inputMode="decimal"
                value={draft[field]}
                fault={numberFault(draft[field])}
                onChange={(text) => set({ [field]: text })}
              />
            ))}
            <SelectField
              label={t('ceiling.tax-base')}
              value={draft.base}
              onChange={(base) => set({ base: base as TaxBase })}
              options={BASES.map((base) => ({ value: base, text: t(`ceiling.base.${base}`) }))}
            />
            <DateField
              label={t('ceiling.rates-of')}
              value={draft.ratesOf}
              max={today}
              onChange={(ratesOf) => set({ ratesOf })}
            />
          </div>
          {costs !== null && areRatesOld(costs, today) && <p class="field-fault">{t('ceiling.rates-old')}</p>}
          <div class="form-actions">
            <button type="submit" class="button" disabled={costs === null || draft.name.trim() === ''}>
              {t('ceiling.save')}
            </button>
            {preset !== null && (
              <button type="button" class="button" onClick={remove}>
                {t('ceiling.delete')}
              </button>
            )}
          </div>
        </form>
      </details>
      {costs !== null && <Outcomes costs={costs} ask={ask} worth={worth} onUse={(sum) => setValue(sum)} />}
      <GradingDates today={today} />
    </section>
  )
}
