/**
 * A CSV file of sales on its way into the ledger: which column is which, what the file leaves open is asked, every row is checked, and
 * only then is it added – all of it or nothing. It guesses columns from their names and nothing else.
 */
import { useState } from 'preact/hooks'
import { CSV_FIELDS, type CsvColumns, type CsvField, REQUIRED_FIELDS } from '../../domain/pricing/csv-columns.ts'
import type { DecimalMark } from '../../domain/pricing/parse-amount.ts'
import type { CsvPlan, DateOrder } from '../../domain/pricing/sales-csv.ts'
import { useDesk } from '../desk/desk-context.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { FilePick } from '../parts/FilePick.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import type { CheckedCsv, SurveyedCsv } from './ledger-ports.ts'
import { useSaid } from './say.ts'
import { useWork } from './use-work.ts'
import { WorkBar } from './WorkBar.tsx'

interface Answers {
  readonly dateOrder: DateOrder | null
  readonly decimal: DecimalMark | null
  readonly currency: string
  readonly venue: string
}

export function CsvImport({ currency, onDone }: { currency: string; onDone: () => void }) {
  const { t } = useWording()
  const { actions, ports } = useDesk()
  const work = useWork()
  const [file, setFile] = useState<File | null>(null)
  const [survey, setSurvey] = useState<SurveyedCsv | null>(null)
  const look = (chosen: File, columns: CsvColumns | null) => {
    setFile(chosen)
    actions.run('survey-csv', async () => {
      setSurvey(await work.start((working) => ports.surveyCsv(chosen, columns, working)))
    })
  }
  return (
    <div class="csv-import">
      <p class="quiet">{t('ledger.csv.explained')}</p>
      <FilePick
        label={t('ledger.csv.choose')}
        accept=".csv,.tsv,.txt,text/csv"
        onFile={(chosen) => {
          setSurvey(null)
          look(chosen, null)
        }}
      />
      {survey === null && <WorkBar work={work} label={t('ledger.csv.reading')} />}
      {file !== null && survey !== null && (
        <Plan
          key={`${file.name}${survey.rows}`}
          file={file}
          survey={survey}
          currency={currency}
          onColumns={(columns) => look(file, columns)}
          onDone={() => {
            setFile(null)
            setSurvey(null)
            onDone()
          }}
        />
      )}
    </div>
  )
}

interface PlanProps {
  readonly file: File
  readonly survey: SurveyedCsv
  readonly currency: string
  readonly onColumns: (columns: CsvColumns) => void
  readonly onDone: () => void
}

function Plan({ file, survey, currency, onColumns, onDone }: PlanProps) {
  const { t, date } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const work = useWork()
  const [answers, setAnswers] = useState<Answers>({ dateOrder: null, decimal: null, currency, venue: '' })
  const [checked, setChecked] = useState<CheckedCsv | null>(null)
  const { columns } = survey
  const missing = REQUIRED_FIELDS.filter((field) => columns[field] === undefined)
  const open =
    (survey.dateOrder === 'open' && answers.dateOrder === null) ||
    (survey.decimal === 'open' && answers.decimal === null)
  const answer = (change: Partial<Answers>) => {
    setAnswers({ ...answers, ...change })
    setChecked(null)
  }
  const plan: CsvPlan = {
    columns,
    width: survey.header.length,
    decimal: survey.decimal === 'open' ? answers.decimal : survey.decimal,
    dateOrder: survey.dateOrder === 'open' ? answers.dateOrder : survey.dateOrder,
    currency: answers.currency,
    venue: answers.venue.trim() === '' ? null : answers.venue.trim(),
    today: ports.now().slice(0, 10),
  }
  const check = () =>
    actions.run('check-csv', async () => setChecked(await work.start((working) => ports.checkCsv(file, plan, working))))
  const add = () =>
    actions.run('import-csv', async () => {
      const { id, added, known, merged } = await work.start((working) => ports.importCsv(file, plan, working))
      model.refresh()
      onDone()
      actions.say(t('ledger.added', { count: added, known, merged }), () =>
        actions.run('take-back', async () => {
          await ports.takeBackImport(id)
          model.refresh()
        }),
      )
    })
  return (
    <div class="csv-plan">
      <h3>{t('ledger.csv.rows', { name: file.name, count: survey.rows })}</h3>
      {survey.addedBefore !== null && (
        <p role="status">
          <strong>
            {t('ledger.csv.again', { date: date(survey.addedBefore.at), count: survey.addedBefore.added })}
          </strong>
        </p>
      )}
      <div class="csv-columns">
        {CSV_FIELDS.map((field) => (
          <SelectField
            key={field}
            label={t(`ledger.field.${field}`)}
            value={String(columns[field] ?? '')}
            onChange={(value) => {
              const next: Partial<Record<CsvField, number>> = { ...columns }
              if (value === '') delete next[field]
              else next[field] = Number(value)
              setChecked(null)
              onColumns(next)
            }}
            options={[
              { value: '', text: t('ledger.csv.no-column') },
              ...survey.header.map((name, place) => ({
                value: String(place),
                text: `${name || place + 1} – ${(survey.sample[0]?.[place] ?? '').slice(0, 30)}`,
              })),
            ]}
          />
        ))}
      </div>
      {missing.length > 0 && (
        <p class="field-fault">
          {t('ledger.csv.missing', { fields: missing.map((field) => t(`ledger.field.${field}`)).join(', ') })}
        </p>
      )}
      <div class="form-row">
        {survey.dateOrder === 'open' && (
          <SelectField
            label={t('ledger.csv.date-order', { example: survey.openDate ?? '' })}
            value={answers.dateOrder ?? ''}
            onChange={(value) => answer({ dateOrder: value === '' ? null : (value as DateOrder) })}
            options={[
              { value: '', text: t('ledger.csv.please-say') },
              { value: 'day-first', text: t('ledger.csv.day-first') },
              { value: 'month-first', text: t('ledger.csv.month-first') },
            ]}
          />
        )}
        {survey.decimal === 'open' && (
          <SelectField
            label={t('ledger.csv.decimal', { example: survey.openPrice ?? '' })}
            value={answers.decimal ?? ''}
            onChange={(value) => answer({ decimal: value === '' ? null : (value as DecimalMark) })}
            options={[
              { value: '', text: t('ledger.csv.please-say') },
              { value: '.', text: t('ledger.csv.decimal-point') },
              { value: ',', text: t('ledger.csv.decimal-comma') },
            ]}
          />
        )}
        {columns.currency === undefined && (
          <CurrencyField value={answers.currency} onChange={(code) => answer({ currency: code })} />
        )}
        {columns.venue === undefined && (
          <TextField label={t('ledger.csv.venue')} value={answers.venue} onChange={(venue) => answer({ venue })} />
        )}
      </div>
      <WorkBar work={work} label={t(checked === null ? 'ledger.csv.checking' : 'ledger.csv.adding')} />
      {checked === null ? (
        <div class="form-actions">
          <button
            type="button"
            class="button primary"
            disabled={open || missing.length > 0 || work.share !== null}
            onClick={check}
          >
            {t('ledger.csv.check')}
          </button>
        </div>
      ) : (
        <Checked checked={checked} busy={work.share !== null} onAdd={add} onCancel={onDone} />
      )}
    </div>
  )
}

interface CheckedProps {
  readonly checked: CheckedCsv
  readonly busy: boolean
  readonly onAdd: () => void
  readonly onCancel: () => void
}

function Checked({ checked, busy, onAdd, onCancel }: CheckedProps) {
  const { t, money, date } = useWording()
  const say = useSaid()
  return (
    <div class="import-report" role="status">
      <p>
        {t('ledger.csv.ready', { count: checked.ready })}{' '}
        {checked.known > 0 && t('ledger.csv.known', { count: checked.known })}{' '}
        {checked.faultCount > 0 ? t('ledger.csv.faults', { count: checked.faultCount }) : t('ledger.csv.no-faults')}
      </p>
      {checked.faultCount > 0 && (
        <ul class="faults">
          {checked.faults.map(({ line, fault }) => (
            <li key={`${line}${fault.code}`}>
              {t('ledger.csv.line', { line })}: {say(fault)}
            </li>
          ))}
          {checked.faultCount > checked.faults.length && (
            <li>{t('ledger.csv.more', { count: checked.faultCount - checked.faults.length })}</li>
          )}
        </ul>
      )}
      {checked.first.length > 0 && (
        <ul class="csv-first">
          {checked.first.map((sale) => (
            <li key={sale.id}>
              {date(sale.date)} · {money(sale.price)} · {sale.title}
            </li>
          ))}
        </ul>
      )}
      <div class="form-actions">
        <button type="button" class="button primary" disabled={busy || checked.ready === 0} onClick={onAdd}>
          {t('ledger.rows.add', { count: checked.ready })}
        </button>
        <button type="button" class="button" disabled={busy} onClick={onCancel}>
          {t('action.cancel')}
        </button>
      </div>
    </div>
  )
}
