/** One finished sale, written down by hand. What the person does not know stays unknown. */
import { useState } from 'preact/hooks'
import { saleId } from '../../domain/pricing/sale-id.ts'
import type { Sale } from '../../domain/valuation.ts'
import { useDesk } from '../desk/desk-context.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'

type Known = '' | 'yes' | 'no'

export function SaleByHand({ currency, onDone }: { currency: string; onDone: () => void }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const today = ports.now().slice(0, 10)
  const [tried, setTried] = useState(false)
  const [draft, setDraft] = useState({
    title: '',
    date: '',
    price: '',
    currency,
    venue: '',
    seller: '',
    url: '',
    premium: '' as Known,
    shipping: '' as Known,
    bestOffer: false,
  })
  const set = (change: Partial<typeof draft>) => setDraft({ ...draft, ...change })
  const amount = parseAmount(draft.price)
  const words = (text: string) => (text.trim() === '' ? null : text.trim())
  const faults = {
    title: words(draft.title) === null ? t('ledger.hand.title-needed') : null,
    date: draft.date === '' ? t('ledger.hand.date-needed') : draft.date > today ? t('ledger.hand.date-future') : null,
    price: amount === null || Number(amount) === 0 ? t('ledger.hand.price-needed') : null,
  }
  const yes = (value: Known) => (value === '' ? {} : { value: value === 'yes' })
  const save = () => {
    setTried(true)
    if (faults.title ?? faults.date ?? faults.price) return
    const [title, venue, seller, url] = [draft.title, draft.venue, draft.seller, draft.url].map(words)
    const premium = yes(draft.premium)
    const shipping = yes(draft.shipping)
    const sale: Sale = {
      id: saleId([draft.date, title as string, amount, draft.currency, venue ?? null, seller ?? null, url ?? null]),
      date: draft.date,
      title: title as string,
      price: { amount: amount as string, currency: draft.currency },
      venue: venue ?? null,
      seller: seller ?? null,
      url: url ?? null,
      source: 'by-hand',
      ...('value' in premium ? { premiumIncluded: premium.value as boolean } : {}),
      ...('value' in shipping ? { shippingIncluded: shipping.value as boolean } : {}),
      ...(draft.bestOffer ? { bestOffer: true } : {}),
    }
    actions.run('add-sale', async () => {
      const { known, merged } = await ports.addSales([sale])
      model.refresh()
      onDone()
      actions.say(t(known > 0 ? 'ledger.hand.known' : merged > 0 ? 'ledger.hand.merged' : 'ledger.hand.added'), () =>
        actions.run('undo-sale', async () => {
          await ports.deleteSale(sale.id)
          model.refresh()
        }),
      )
    })
  }
  const knowledge = [
    { value: '', text: t('ledger.hand.not-known') },
    { value: 'yes', text: t('ledger.hand.yes') },
    { value: 'no', text: t('ledger.hand.no') },
  ]
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault()
        save()
      }}
    >
      <TextField
        label={t('ledger.field.title')}
        hint={t('ledger.hand.title-hint')}
        value={draft.title}
        fault={tried ? faults.title : null}
        onChange={(title) => set({ title })}
      />
      <div class="form-row">
        <DateField
          label={t('ledger.field.date')}
          value={draft.date}
          max={today}
          fault={tried ? faults.date : null}
          onChange={(date) => set({ date })}
        />
        <TextField
          label={t('ledger.field.price')}
          inputMode="decimal"
          value={draft.price}
          fault={tried ? faults.price : null}
          onChange={(price) => set({ price })}
        />
        <CurrencyField value={draft.currency} onChange={(code) => set({ currency: code })} />
      </div>
      <div class="form-row">
        <TextField label={t('ledger.field.venue')} value={draft.venue} onChange={(venue) => set({ venue })} />
        <TextField label={t('ledger.field.seller')} value={draft.seller} onChange={(seller) => set({ seller })} />
        <TextField label={t('ledger.field.url')} inputMode="url" value={draft.url} onChange={(url) => set({ url })} />
      </div>
      <div class="form-row">
        <SelectField
          label={t('ledger.field.premium-included')}
          value={draft.premium}
          onChange={(value) => set({ premium: value as Known })}
          options={knowledge}
        />
        <SelectField
          label={t('ledger.field.shipping-included')}
          value={draft.shipping}
          onChange={(value) => set({ shipping: value as Known })}
          options={knowledge}
        />
      </div>
      <label class="choice">
        <input type="checkbox" checked={draft.bestOffer} onChange={() => set({ bestOffer: !draft.bestOffer })} />
        {t('ledger.hand.best-offer')}
      </label>
      <div class="form-actions">
        <button type="submit" class="button primary" disabled={actions.busy.value.has('add-sale')}>
          {t('ledger.hand.add')}
        </button>
        <button type="button" class="button" onClick={onDone}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}

interface DateFieldProps {
  readonly label: string
  readonly value: string
  readonly max?: string
  readonly fault?: string | null
  readonly onChange: (value: string) => void
}

/** The browser's own calendar: no order of day and month to mistake. */
export function DateField({ label, value, max, fault, onChange }: DateFieldProps) {
  return (
    <div class="field">
      <label>
        <span class="date-label">{label}</span>
        <input
          type="date"
          value={value}
          max={max}
          aria-invalid={fault ? 'true' : undefined}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      </label>
      {fault && <p class="field-fault">{fault}</p>}
    </div>
  )
}
