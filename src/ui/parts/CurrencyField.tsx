/** The buyer's currency, by its name and ISO 4217 code, as the browser's own list of currencies has them. */
import { useMemo } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { SelectField } from './fields.tsx'

/** Listed first, since most listings of this trade are in one of them; the rest follow by name. Ours, no source. */
const FIRST = ['EUR', 'USD', 'GBP', 'CHF', 'CAD', 'AUD', 'JPY']

export function CurrencyField({ value, onChange }: { value: string; onChange: (currency: string) => void }) {
  const { t, language } = useWording()
  const options = useMemo(() => {
    const names = new Intl.DisplayNames([language], { type: 'currency' })
    const rest = Intl.supportedValuesOf('currency').filter((code) => !FIRST.includes(code))
    const named = (code: string) => ({ value: code, text: `${code} – ${names.of(code) ?? code}` })
    return [...FIRST, ...(rest.includes(value) || FIRST.includes(value) ? [] : [value]), ...rest].map(named)
  }, [language, value])
  return <SelectField label={t('setup.currency')} value={value} onChange={onChange} options={options} />
}
