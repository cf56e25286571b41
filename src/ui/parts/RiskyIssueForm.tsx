/** An issue that is often copied, in the buyer's own words. Asks; keeps nothing. */
import { useState } from 'preact/hooks'
import type { RiskyIssue } from '../../domain/grader-book.ts'
import { useWording } from '../wording.ts'
import { TextField } from './fields.tsx'
import { parseAmountOf, parseWords } from './parse-fields.ts'

interface RiskyIssueFormProps {
  readonly issue: Partial<RiskyIssue>
  /** ISO 4217: what the worth is given in. */
  readonly currency: string
  readonly onSave: (issue: Omit<RiskyIssue, 'id'>) => void
  readonly onCancel: () => void
}

export function RiskyIssueForm({ issue, currency, onSave, onCancel }: RiskyIssueFormProps) {
  const { t } = useWording()
  const [name, setName] = useState(issue.name ?? '')
  const [words, setWords] = useState((issue.words ?? []).join(', '))
  const [worth, setWorth] = useState(issue.worthIfGenuine?.amount ?? '')
  const [copies, setCopies] = useState((issue.copies ?? []).join('\n'))
  const [askFor, setAskFor] = useState(issue.askFor ?? '')
  const [tried, setTried] = useState(false)
  const usedCurrency = issue.worthIfGenuine?.currency ?? currency
  const money = parseAmountOf(worth, usedCurrency)
  const worthFault = worth.trim() !== '' && money === null
  const noWords = parseWords(words).length === 0

  const submit = (event: Event) => {
    event.preventDefault()
    setTried(true)
    if (worthFault || noWords) return
    const identifying = parseWords(words)
    onSave({
      name: name.trim() || identifying.join(' '),
      words: identifying,
      worthIfGenuine: money,
      copies: copies
        .split('\n')
        .map((line) => line.trim())
        .filter(Boolean),
      exemplar: issue.exemplar ?? null,
      askFor: askFor.trim() || null,
    })
  }

  return (
    <form class="form" onSubmit={submit}>
      <TextField label={t('risky.name')} value={name} onChange={setName} />
      <TextField
        label={t('risky.words')}
        hint={t('risky.words.hint')}
        value={words}
        onChange={setWords}
        fault={tried && noWords ? t('risky.words.fault') : null}
      />
      <TextField
        label={t('risky.worth', { currency: usedCurrency })}
        hint={t('risky.worth.hint')}
        value={worth}
        onChange={setWorth}
        inputMode="decimal"
        fault={worthFault ? t('fault.amount') : null}
      />
      <TextField
        label={t('risky.copies')}
        hint={t('risky.copies.hint')}
        value={copies}
        onChange={setCopies}
        lines={3}
      />
      <TextField
        label={t('risky.askFor')}
        hint={t('risky.askFor.hint')}
        value={askFor}
        onChange={setAskFor}
        lines={2}
      />
      <div class="form-actions">
        <button type="submit" class="button primary">
          {t('action.put-in-list')}
        </button>
        <button type="button" class="button" onClick={onCancel}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
