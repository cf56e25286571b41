/** One sale in full, with what can be said of it: that it does not count, that nothing of its seller or venue does, that two are one. */
import { useState } from 'preact/hooks'
import type { SaleMark } from '../../domain/pricing/sale-marks.ts'
import type { Sale } from '../../domain/valuation.ts'
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

type Kept<T> = T & { readonly id: string }
type Scope = 'sale' | 'seller' | 'venue'

interface SaleDetailProps {
  readonly sale: Sale
  readonly marks: readonly Kept<SaleMark>[]
  readonly onClose: () => void
}

export function SaleDetail({ sale, marks, onClose }: SaleDetailProps) {
  const { t, money, date } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const own = marks.filter((mark) => concerns(mark, sale))
  const facts = [
    sale.premiumIncluded == null ? null : t(`ledger.premium.${sale.premiumIncluded ? 'in' : 'out'}`),
    sale.shippingIncluded == null ? null : t(`ledger.shipping.${sale.shippingIncluded ? 'in' : 'out'}`),
    sale.bestOffer ? t('why.bound') : null,
    sale.source === undefined ? null : t(`ledger.source.${sale.source}`),
  ].filter((fact) => fact !== null)
  const remove = () =>
    actions.run('delete-sale', async () => {
      await ports.deleteSale(sale.id)
      onClose()
      model.refresh()
      actions.say(t('ledger.deleted'), () =>
        actions.run('restore-sale', async () => {
          await ports.restoreSale(sale.id)
          model.refresh()
        }),
      )
    })
  const lift = (id: string) =>
    actions.run('lift-mark', async () => {
      await ports.liftMark(id)
      model.refresh()
      actions.say(t('ledger.mark.lifted'), () =>
        actions.run('restore-mark', async () => {
          await ports.restoreMark(id)
          model.refresh()
        }),
      )
    })
  return (
    <section class="sheet sale-detail" aria-label={t('ledger.detail')}>
      <div class="sale-detail-head">
        <h2>
          <PageText text={sale.title} />
        </h2>
        <button type="button" class="icon-button" aria-label={t('ledger.close')} onClick={onClose}>
          <Icon name="close" />
        </button>
      </div>
      <p>
        <strong>{money(sale.price)}</strong> · <time dateTime={sale.date}>{date(sale.date)}</time>
        {[sale.venue, sale.seller].map((name) => name !== null && <bdi key={name}> · {name}</bdi>)}
      </p>
      {facts.length > 0 && <p class="quiet">{facts.join(' · ')}</p>}
      {sale.url !== null && (
        <button
          type="button"
          class="link-button"
          onClick={() => actions.run('open-sale', () => ports.openPage(sale.url as string))}
        >
          <Icon name="out" />
          {t('ledger.open-page')}
        </button>
      )}
      {(sale.merged?.length ?? 0) > 0 && <Merged sale={sale} />}
      {own.map((mark) => (
        <p key={mark.id} class="sale-mark">
          <span>
            {mark.kind === 'another-card' ? t('why.rejected') : t(`ledger.mark.${mark.kind}`, { reason: mark.reason })}
          </span>
          <button type="button" class="button small" onClick={() => lift(mark.id)}>
            {t('ledger.mark.lift')}
          </button>
        </p>
      ))}
      <MarkForm sale={sale} />
      <div class="form-actions">
        <button type="button" class="button" onClick={remove}>
          <Icon name="remove" />
          {t('ledger.delete')}
        </button>
      </div>
    </section>
  )
}

function concerns(mark: SaleMark, sale: Sale): boolean {
  if (mark.kind === 'sale' || mark.kind === 'another-card') return mark.sale === sale.id
  return mark.name === (mark.kind === 'seller' ? sale.seller : sale.venue)
}

function Merged({ sale }: { sale: Sale }) {
  const { t, money, date } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(() => ports.readSalesById(sale.merged ?? []), [ports, version.value, sale.id])
  if (loaded.phase !== 'ready') return null
  const part = (other: Sale) =>
    actions.run('part-sales', async () => {
      await ports.partSales(sale.id, other.id)
      model.refresh()
      actions.say(t('ledger.parted'), () =>
        actions.run('join-sales', async () => {
          await ports.joinSales(sale.id, other.id)
          model.refresh()
        }),
      )
    })
  return (
    <div class="sale-merged">
      <h3>{t('ledger.told-again')}</h3>
      <ul>
        {loaded.value.map((other) => (
          <li key={other.id} class="sale-mark">
            <span>
              <PageText text={other.title} />{' '}
              <span class="quiet">
                {date(other.date)} · {money(other.price)}
                {[other.venue, other.seller].map((name) => name !== null && <bdi key={name}> · {name}</bdi>)}
              </span>
            </span>
            <button type="button" class="button small" onClick={() => part(other)}>
              {t('ledger.part')}
            </button>
          </li>
        ))}
      </ul>
    </div>
  )
}

function MarkForm({ sale }: { sale: Sale }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [scope, setScope] = useState<Scope>('sale')
  const [reason, setReason] = useState('')
  const scopes = [
    { value: 'sale', text: t('ledger.scope.sale') },
    ...(sale.seller === null ? [] : [{ value: 'seller', text: t('ledger.scope.seller', { name: sale.seller }) }]),
    ...(sale.venue === null ? [] : [{ value: 'venue', text: t('ledger.scope.venue', { name: sale.venue }) }]),
  ]
  const save = () =>
    actions.run('mark-sale', async () => {
      const words = reason.trim()
      const mark: SaleMark =
        scope === 'sale'
          ? { kind: 'sale', sale: sale.id, reason: words }
          : { kind: scope, name: (scope === 'seller' ? sale.seller : sale.venue) as string, reason: words }
      const id = await ports.markSale(mark)
      model.refresh()
      actions.say(t('ledger.mark.done'), () =>
        actions.run('lift-mark', async () => {
          await ports.liftMark(id)
          model.refresh()
        }),
      )
    })
  return (
    <details class="mark-form">
      <summary>{t('ledger.mark.open')}</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault()
          if (reason.trim() !== '') save()
        }}
      >
        <div class="form-row">
          <SelectField
            label={t('ledger.mark.scope')}
            value={scope}
            onChange={(value) => setScope(value as Scope)}
            options={scopes}
          />
          <TextField
            label={t('ledger.mark.reason')}
            hint={t('ledger.mark.reason-hint')}
            value={reason}
            onChange={setReason}
          />
        </div>
        <div class="form-actions">
          <button type="submit" class="button" disabled={reason.trim() === ''}>
            {t('ledger.mark.save')}
          </button>
        </div>
      </form>
    </details>
  )
}
