/** The buyer's exchange rates: dated, entered by hand or imported. Without one nothing is converted. */
import { useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { Ready } from '../desk/Ready.tsx'
import { useLoaded } from '../desk/use-loaded.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { FilePick } from '../parts/FilePick.tsx'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { DateField } from './SaleByHand.tsx'

/** More faults of a file are counted, not listed. */
const FAULTS_SHOWN = 20

export function Rates() {
  const { t, date, list } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(() => ports.describeRates(), [ports, version.value])
  const [faults, setFaults] = useState<readonly { readonly line: number; readonly fault: string }[]>([])
  const [draft, setDraft] = useState({ day: ports.now().slice(0, 10), currency: 'USD', rate: '' })
  const rate = draft.rate.trim().replace(',', '.')
  const isRate = /^\d{1,9}(?:\.\d{1,9})?$/.test(rate) && Number(rate) > 0
  return (
    <div class="rates">
      <p class="quiet">{t('rates.explained')}</p>
      <Ready loaded={loaded}>
        {({ days, oldest, newest, currencies }) => (
          <p>
            {days === 0 || oldest === null || newest === null
              ? t('rates.none')
              : t('rates.held', {
                  count: days,
                  oldest: date(oldest),
                  newest: date(newest),
                  currencies: list(currencies),
                })}
          </p>
        )}
      </Ready>
      <FilePick
        label={t('rates.import')}
        accept=".csv,text/csv"
        onFile={(file) => {
          let taken = 0
          actions.run(
            'import-rates',
            async () => {
              const read = await ports.importRates(file)
              setFaults(read.faults)
              taken = read.days
              model.refresh()
            },
            () => t('rates.imported', { count: taken }),
          )
        }}
      />
      {faults.length > 0 && (
        <ul class="faults">
          {faults.slice(0, FAULTS_SHOWN).map(({ line, fault }) => (
            <li key={`${line}${fault}`}>
              {t('ledger.csv.line', { line })}: {fault}
            </li>
          ))}
        </ul>
      )}
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault()
          if (!isRate) return
          actions.run(
            'save-rate',
            async () => {
              await ports.saveRate(draft.day, draft.currency, rate)
              setDraft({ ...draft, rate: '' })
              model.refresh()
            },
            t('rates.saved'),
          )
        }}
      >
        <div class="form-row">
          <DateField label={t('rates.day')} value={draft.day} onChange={(day) => setDraft({ ...draft, day })} />
          <CurrencyField value={draft.currency} onChange={(currency) => setDraft({ ...draft, currency })} />
          <TextField
            label={t('rates.per-euro', { currency: draft.currency })}
            inputMode="decimal"
            value={draft.rate}
            fault={draft.rate !== '' && !isRate ? t('rates.fault') : null}
            onChange={(value) => setDraft({ ...draft, rate: value })}
          />
        </div>
        <div class="form-actions">
          <button type="submit" class="button" disabled={!isRate || draft.currency === 'EUR'}>
            {t('rates.save')}
          </button>
        </div>
      </form>
    </div>
  )
}
