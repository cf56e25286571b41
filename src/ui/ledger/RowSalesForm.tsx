/**
 * Sales that were read somewhere, shown before anything is added: each can be left out, and what will be skipped stands below with its
 * reason. Asks its caller to add; adds nothing itself.
 */
import { useState } from 'preact/hooks'
import type { RowSales } from '../../domain/pricing/sales-from-rows.ts'
import type { Sale } from '../../domain/valuation.ts'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import { useSaid } from './say.ts'

interface RowSalesFormProps {
  readonly found: RowSales
  readonly busy: boolean
  readonly onAdd: (sales: readonly Sale[]) => void
  readonly onCancel: () => void
}

export function RowSalesForm({ found, busy, onAdd, onCancel }: RowSalesFormProps) {
  const { t, money, date } = useWording()
  const say = useSaid()
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set())
  const chosen = found.sales.filter(({ id }) => !left.has(id))
  const turn = (id: string) => {
    const next = new Set(left)
    if (!next.delete(id)) next.add(id)
    setLeft(next)
  }
  return (
    <div class="row-sales">
      <p>{t('ledger.rows.found', { count: found.sales.length })}</p>
      {found.sales.length > 0 && (
        <ul class="row-sales-list">
          {found.sales.map((sale) => (
            <li key={sale.id}>
              <label class="row-sale">
                <input type="checkbox" checked={!left.has(sale.id)} onChange={() => turn(sale.id)} />
                <span class="row-sale-words">
                  <PageText text={sale.title} />
                  <span class="quiet">
                    <time dateTime={sale.date}>{date(sale.date)}</time>
                    {sale.seller !== null && <bdi> · {sale.seller}</bdi>}
                  </span>
                </span>
                <strong class="sale-price">{money(sale.price)}</strong>
              </label>
            </li>
          ))}
        </ul>
      )}
      {found.skipped.length > 0 && (
        <details open={found.sales.length === 0}>
          <summary>{t('ledger.rows.skipped', { count: found.skipped.length })}</summary>
          <ul class="row-skipped">
            {found.skipped.map(({ title, why }, index) => (
              <li key={`${index}${title}`}>
                <PageText text={title} /> <span class="quiet">– {say(why)}</span>
              </li>
            ))}
          </ul>
        </details>
      )}
      <div class="form-actions">
        <button
          type="button"
          class="button primary"
          disabled={busy || chosen.length === 0}
          onClick={() => onAdd(chosen)}
        >
          {t('ledger.rows.add', { count: chosen.length })}
        </button>
        <button type="button" class="button" onClick={onCancel}>
          {t('action.cancel')}
        </button>
      </div>
    </div>
  )
}
