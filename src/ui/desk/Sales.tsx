/** The ledger of finished sales, and a CSV file looked at before anything is added. */
import { useMemo, useState } from 'preact/hooks'
import { foldForSearch } from '../../domain/dossier-summary.ts'
import type { Sale } from '../../domain/valuation.ts'
import { FilePick } from '../parts/FilePick.tsx'
import { TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import type { SalesImport } from './desk-ports.ts'
import { Ready } from './Ready.tsx'
import { useLoaded } from './use-loaded.ts'
import { VirtualList } from './VirtualList.tsx'

/** More faults than this are counted, not listed. */
const FAULTS_SHOWN = 50

export function Sales() {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const loaded = useLoaded(() => ports.listSales(), [ports, version.value])
  return (
    <>
      <h1>{t('desk.sales')}</h1>
      <p class="lead">{t('sales.explained')}</p>
      <ImportSales />
      <Ready loaded={loaded}>
        {(sales) => (sales.length === 0 ? <p class="quiet">{t('sales.empty')}</p> : <Ledger sales={sales} />)}
      </Ready>
    </>
  )
}

function ImportSales() {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [checked, setChecked] = useState<{ name: string; result: SalesImport } | null>(null)
  return (
    <section class="sheet">
      <h2>{t('sales.import')}</h2>
      <p class="quiet">
        {t('sales.import.header')} <code>date,title,price,currency,venue,seller,url</code>
      </p>
      <FilePick
        label={t('sales.import.choose')}
        accept=".csv,text/csv"
        onFile={(file) => {
          setChecked(null)
          actions.run('check-sales', async () => setChecked({ name: file.name, result: await ports.checkSales(file) }))
        }}
      />
      {checked !== null && (
        <div class="import-report">
          <p>
            <strong>{checked.name}</strong>: {t('sales.import.ready', { count: checked.result.sales.length })}{' '}
            {checked.result.known > 0 && t('sales.import.known', { count: checked.result.known })}{' '}
            {checked.result.faults.length > 0
              ? t('sales.import.faults', { count: checked.result.faults.length })
              : t('sales.import.no-faults')}
          </p>
          {checked.result.faults.length > 0 && (
            <ul class="faults">
              {checked.result.faults.slice(0, FAULTS_SHOWN).map(({ line, fault }) => (
                <li key={`${line}${fault}`}>
                  {t('sales.import.line', { line })}: {fault}
                </li>
              ))}
              {checked.result.faults.length > FAULTS_SHOWN && (
                <li>{t('sales.import.more', { count: checked.result.faults.length - FAULTS_SHOWN })}</li>
              )}
            </ul>
          )}
          <div class="form-actions">
            <button
              type="button"
              class="button primary"
              disabled={checked.result.sales.length === 0 || actions.busy.value.has('add-sales')}
              onClick={() =>
                actions
                  .run(
                    'add-sales',
                    async () => {
                      await ports.addSales(checked.result.sales)
                      model.refresh()
                    },
                    t('sales.added', { count: checked.result.sales.length }),
                  )
                  .then((done) => done && setChecked(null))
              }
            >
              {t('sales.import.add', { count: checked.result.sales.length })}
            </button>
            <button type="button" class="button" onClick={() => setChecked(null)}>
              {t('action.cancel')}
            </button>
          </div>
        </div>
      )}
    </section>
  )
}

function Ledger({ sales }: { sales: readonly Sale[] }) {
  const { t, money, date } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [query, setQuery] = useState('')
  const found = useMemo(() => {
    const words = foldForSearch(query).split(/\s+/).filter(Boolean)
    const fits = (sale: Sale) => {
      const text = foldForSearch(`${sale.title} ${sale.venue ?? ''} ${sale.seller ?? ''}`)
      return words.every((word) => text.includes(word))
    }
    return (words.length === 0 ? [...sales] : sales.filter(fits)).sort((a, b) => (a.date < b.date ? 1 : -1))
  }, [sales, query])

  const remove = (sale: Sale) =>
    actions.run('delete-sale', async () => {
      await ports.deleteSale(sale.id)
      model.refresh()
      actions.say(t('sales.deleted'), () =>
        actions.run('restore-sale', async () => {
          await ports.restoreSale(sale.id)
          model.refresh()
        }),
      )
    })

  return (
    <section>
      <div class="list-tools">
        <TextField label={t('sales.search')} type="search" value={query} onChange={setQuery} />
      </div>
      <p class="quiet list-count" role="status">
        {t('sales.count', { count: found.length })}
      </p>
      <VirtualList
        items={found}
        rowHeight={52}
        label={t('desk.sales')}
        keyOf={({ id }) => id}
        row={(sale, tabIndex) => (
          <div class="sale-row">
            <span class="sale-words">
              <span class="sale-title">
                <PageText text={sale.title} />
              </span>
              <span class="quiet">
                <time dateTime={sale.date}>{date(sale.date)}</time>
                {[sale.venue, sale.seller].map((name) => name !== null && <bdi key={name}> · {name}</bdi>)}
              </span>
            </span>
            <strong class="sale-price">{money(sale.price)}</strong>
            <button
              type="button"
              class="icon-button"
              tabIndex={tabIndex}
              aria-label={t('sales.delete', { title: sale.title })}
              onClick={() => remove(sale)}
            >
              <Icon name="remove" />
            </button>
          </div>
        )}
      />
    </section>
  )
}
