/** One card in words: its sales, what they say, and the most that is sensible to pay. */
import { useEffect, useState } from 'preact/hooks'
import { cardKey } from '../../domain/pricing/sale-marks.ts'
import { CeilingForm } from '../ceiling/CeilingForm.tsx'
import { ValuationLine } from '../inspection/PriceComparison.tsx'
import type { Valued } from '../ledger/ledger-ports.ts'
import { useSaid } from '../ledger/say.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { TextField } from '../parts/fields.tsx'
import { parseAmountOf } from '../parts/parse-fields.ts'
import { LazyPlot } from '../plots/LazyPlot.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { useLoaded } from './use-loaded.ts'

export function ValueCard({ words: given }: { words: string | null }) {
  const { t } = useWording()
  const say = useSaid()
  const model = useDesk()
  const { actions, ports, version } = model
  const settings = useLoaded(() => ports.readSettings(), [ports])
  const [words, setWords] = useState(given ?? '')
  const [ask, setAsk] = useState('')
  const [chosen, setCurrency] = useState<string | null>(null)
  const currency = chosen ?? (settings.phase === 'ready' ? settings.value.currency : 'EUR')
  const [asked, setAsked] = useState<{ words: string; ask: string } | null>(
    given === null ? null : { words: given, ask: '' },
  )
  const [valued, setValued] = useState<Valued | null>(null)
  useEffect(() => {
    if (asked === null || settings.phase !== 'ready') return
    void actions.run('value', async () =>
      setValued(await ports.valueWords(asked.words, asked.ask === '' ? null : parseAmountOf(asked.ask, currency))),
    )
  }, [asked, version.value, currency, settings.phase])
  const valuation = valued?.valuation ?? null
  return (
    <>
      <h1>{t('desk.value')}</h1>
      <p class="lead">{t('value.lead')}</p>
      <form
        class="sheet form"
        onSubmit={(event) => {
          event.preventDefault()
          if (words.trim() !== '') setAsked({ words: words.trim(), ask: ask.trim() })
        }}
      >
        <TextField label={t('value.words')} hint={t('value.words-hint')} value={words} onChange={setWords} />
        <div class="form-row">
          <TextField label={t('value.ask')} inputMode="decimal" value={ask} onChange={setAsk} />
          <CurrencyField value={currency} onChange={setCurrency} />
        </div>
        <div class="form-actions">
          <button type="submit" class="button primary" disabled={words.trim() === ''}>
            {t('value.go')}
          </button>
        </div>
      </form>
      {valued !== null && valuation === null && <p class="quiet">{t('value.empty-ledger')}</p>}
      {valued !== null && valuation !== null && (
        <section class="sheet" aria-labelledby="value-heading">
          <h2 id="value-heading">{t('valuation.heading')}</h2>
          {valuation.level === null ? (
            <p class="quiet">{t('valuation.none-of-this')}</p>
          ) : (
            <p class="valuation-line">
              <ValuationLine valuation={valuation} />{' '}
              <span class="quiet">{t(`valuation.level.${valuation.level}`)}</span>
            </p>
          )}
          <LazyPlot
            valuation={valuation}
            ceiling={null}
            now={ports.now()}
            onOpen={(url) => actions.run('open-sale', () => ports.openPage(url))}
            onReject={(point) =>
              actions.run('reject-sale', async () => {
                const id = await ports.markSale({ kind: 'another-card', sale: point.sale, card: cardKey(valued.claim) })
                model.refresh()
                actions.say(t('value.rejected'), () =>
                  actions.run('lift-mark', async () => {
                    await ports.liftMark(id)
                    model.refresh()
                  }),
                )
              })
            }
          />
          <details class="valuation-steps">
            <summary>{t('valuation.steps')}</summary>
            <ol>
              {(valuation.said ?? []).map((step) => (
                <li key={step.code}>{say(step)}</li>
              ))}
            </ol>
          </details>
        </section>
      )}
      <CeilingForm
        key={`${valuation?.centre}${valuation?.currency ?? currency}`}
        currency={valuation?.currency ?? currency}
        worth={valuation?.centre ?? null}
        ask={valuation?.ask?.amount ?? null}
      />
    </>
  )
}
