/**
 * All sales, the newest first, of which only those in sight are read. A marked sale is hollow and says why; the opened one shows what is known
 * of it and what can be done with it.
 */
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import { createMarkReader, type SaleMark } from '../../domain/pricing/sale-marks.ts'
import type { Sale } from '../../domain/valuation.ts'
import { useDesk } from '../desk/desk-context.ts'
import { Ready } from '../desk/Ready.tsx'
import { useLoaded } from '../desk/use-loaded.ts'
import { VirtualList } from '../desk/VirtualList.tsx'
import { TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import { SaleDetail } from './SaleDetail.tsx'
import { useSaid } from './say.ts'

/** CSS pixels. Browsers end a scrolled height between 17 and 33 million: beyond so many rows they are drawn on one line. */
const ROW_HEIGHT = 52
const LOW_ROW_HEIGHT = 32
const LOW_FROM = 300_000
/** Milliseconds of quiet before a search begins. Ours. */
const TYPING_MS = 150

type Kept<T> = T & { readonly id: string }

export function LedgerList() {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const [query, setQuery] = useState('')
  const [asked, setAsked] = useState('')
  useEffect(() => {
    const timer = setTimeout(() => setAsked(query), TYPING_MS)
    return () => clearTimeout(timer)
  }, [query])
  const loaded = useLoaded(
    async () => ({ places: await ports.listSalePlaces(asked), marks: await ports.listSaleMarks() }),
    [ports, version.value, asked],
  )
  return (
    <section>
      <div class="list-tools">
        <TextField label={t('ledger.search')} type="search" value={query} onChange={setQuery} />
      </div>
      <Ready loaded={loaded}>
        {({ places, marks }) =>
          places.length === 0 ? (
            <p class="quiet">{t(asked === '' ? 'ledger.empty' : 'ledger.nothing-found')}</p>
          ) : (
            <Rows key={`${version.value}`} places={places} marks={marks} />
          )
        }
      </Ready>
    </section>
  )
}

function Rows({ places, marks }: { places: Uint32Array; marks: readonly Kept<SaleMark>[] }) {
  const { t, money, date, number } = useWording()
  const say = useSaid()
  const sales = useSalesAt()
  const [open, setOpen] = useState<number | null>(null)
  const whyNot = useMemo(() => createMarkReader(marks, ''), [marks])
  const low = places.length > LOW_FROM
  const opened = open === null ? null : sales.at(open)
  return (
    <>
      <p class="quiet list-count" role="status">
        {t('ledger.count', { count: places.length, number: number(places.length) })}
      </p>
      {opened !== null && opened !== undefined && (
        <SaleDetail key={opened.id} sale={opened} marks={marks} onClose={() => setOpen(null)} />
      )}
      <VirtualList
        items={places}
        rowHeight={low ? LOW_ROW_HEIGHT : ROW_HEIGHT}
        label={t('desk.sales')}
        keyOf={String}
        row={(place, tabIndex) => {
          const sale = sales.at(place)
          if (sale === undefined)
            return <button type="button" class="ledger-row" tabIndex={tabIndex} aria-busy="true" />
          const why = whyNot(sale)
          return (
            <button
              type="button"
              class={`ledger-row${low ? ' is-low' : ''}${why === null ? '' : ' is-hollow'}`}
              tabIndex={tabIndex}
              aria-expanded={open === place}
              onClick={() => setOpen(open === place ? null : place)}
            >
              <span class={`sale-dot${sale.bestOffer ? ' is-bound' : ''}`} aria-hidden="true" />
              <span class="ledger-words">
                <span class="sale-title">
                  <PageText text={sale.title} />
                </span>
                <span class="quiet">
                  <time dateTime={sale.date}>{date(sale.date)}</time>
                  {[sale.venue, sale.seller].map((name) => name !== null && <bdi key={name}> · {name}</bdi>)}
                  {why !== null && <em> · {say(why)}</em>}
                  {(sale.merged?.length ?? 0) > 0 &&
                    ` · ${t('ledger.sources', { count: (sale.merged?.length ?? 0) + 1 })}`}
                </span>
              </span>
              <strong class="sale-price">
                {sale.bestOffer && <span class="for-readers">{t('ledger.at-most')} </span>}
                {sale.bestOffer && <span aria-hidden="true">≤ </span>}
                {money(sale.price)}
              </strong>
            </button>
          )
        }}
      />
    </>
  )
}

/** Sales by place: what is asked for is read in one go after each drawing, and drawn when it is there. */
function useSalesAt(): { at(place: number): Sale | undefined } {
  const { ports } = useDesk()
  const known = useRef(new Map<number, Sale>())
  const wanted = useRef(new Set<number>())
  const reading = useRef(false)
  const [, redraw] = useState(0)
  useEffect(() => {
    if (reading.current || wanted.current.size === 0) return
    reading.current = true
    const places = [...wanted.current]
    wanted.current.clear()
    ports
      .readSales(places)
      .then((sales) => {
        // Scrolled through half a million, the rows behind are let go.
        if (known.current.size > 5_000) known.current.clear()
        for (const [i, sale] of sales.entries()) known.current.set(places[i] as number, sale)
      })
      .catch(() => {})
      .finally(() => {
        reading.current = false
        redraw((count) => count + 1)
      })
  })
  return {
    at(place) {
      const sale = known.current.get(place)
      if (sale === undefined) wanted.current.add(place)
      return sale
    },
  }
}
