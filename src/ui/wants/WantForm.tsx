/** One want, written or changed. */
import { useState } from 'preact/hooks'
import type { Want } from '../../domain/pricing/want.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'

interface WantFormProps {
  readonly want: Want | null
  readonly currency: string
  readonly onSave: (want: Want) => void
  readonly onCancel: () => void
}

export function WantForm({ want, currency: own, onSave, onCancel }: WantFormProps) {
  const { t } = useWording()
  const [words, setWords] = useState(want?.words ?? '')
  const [condition, setCondition] = useState<Want['condition']>(want?.condition ?? 'any')
  const [from, setFrom] = useState(want?.gradeFrom == null ? '' : String(want.gradeFrom))
  const [to, setTo] = useState(want?.gradeTo == null ? '' : String(want.gradeTo))
  const [most, setMost] = useState(want?.most?.amount ?? '')
  const [currency, setCurrency] = useState(want?.most?.currency ?? own)
  const [note, setNote] = useState(want?.note ?? '')
  const [tried, setTried] = useState(false)
  const grade = (text: string) =>
    /^\d{1,2}(?:[.,]5)?$/.test(text.trim()) ? Number(text.trim().replace(',', '.')) : null
  const faults = {
    words: words.trim() === '' ? t('wants.words-needed') : null,
    from: from.trim() !== '' && grade(from) === null ? t('ceiling.fault') : null,
    to: to.trim() !== '' && grade(to) === null ? t('ceiling.fault') : null,
    most: most.trim() !== '' && parseAmount(most) === null ? t('ledger.hand.price-needed') : null,
  }
  const save = () => {
    setTried(true)
    if (faults.words ?? faults.from ?? faults.to ?? faults.most) return
    const amount = parseAmount(most)
    onSave({
      words: words.trim(),
      condition,
      gradeFrom: condition === 'raw' ? null : grade(from),
      gradeTo: condition === 'raw' ? null : grade(to),
      most: amount === null ? null : { amount, currency },
      note: note.trim(),
    })
  }
  const shown = (fault: string | null) => (tried ? fault : null)
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault()
        save()
      }}
    >
      <TextField
        label={t('wants.words')}
        hint={t('wants.words-hint')}
        value={words}
        fault={shown(faults.words)}
        onChange={setWords}
      />
      <div class="form-row">
        <SelectField
          label={t('wants.condition')}
          value={condition}
          onChange={(value) => setCondition(value as Want['condition'])}
          options={(['any', 'raw', 'graded'] as const).map((value) => ({ value, text: t(`wants.condition.${value}`) }))}
        />
        {condition !== 'raw' && (
          <>
            <TextField
              label={t('wants.from')}
              inputMode="decimal"
              value={from}
              fault={shown(faults.from)}
              onChange={setFrom}
            />
            <TextField label={t('wants.to')} inputMode="decimal" value={to} fault={shown(faults.to)} onChange={setTo} />
          </>
        )}
      </div>
      <div class="form-row">
        <TextField
          label={t('wants.most')}
          inputMode="decimal"
          value={most}
          fault={shown(faults.most)}
          onChange={setMost}
        />
        <CurrencyField value={currency} onChange={setCurrency} />
        <TextField label={t('wants.note')} value={note} onChange={setNote} />
      </div>
      <div class="form-actions">
        <button type="submit" class="button primary">
          {t('wants.save')}
        </button>
        <button type="button" class="button" onClick={onCancel}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
