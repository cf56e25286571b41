/** On a page of sold results: its rows become sales, after they were looked at. */
import { useState } from 'preact/hooks'
import type { RowSales } from '../../domain/pricing/sales-from-rows.ts'
import type { PanelModel } from '../panel/panel-model.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { RowSalesForm } from './RowSalesForm.tsx'

export function AddRows({ model }: { model: PanelModel }) {
  const { t } = useWording()
  const { actions, ports } = model
  const [found, setFound] = useState<RowSales | null>(null)
  if (found === null) {
    return (
      <button
        type="button"
        class="button"
        onClick={() => actions.run('find-sales', async () => setFound(await ports.findRowSales()))}
      >
        <Icon name="sales" />
        {t('ledger.rows.open')}
      </button>
    )
  }
  return (
    <RowSalesForm
      found={found}
      busy={actions.busy.value.has('add-sales')}
      onCancel={() => setFound(null)}
      onAdd={(sales) =>
        actions.run('add-sales', async () => {
          const { added, known, merged } = await ports.addSales(sales)
          setFound(null)
          actions.say(t('ledger.added', { count: added, known, merged }), () =>
            actions.run('undo-sales', () => ports.takeBackSales(sales.map(({ id }) => id))),
          )
        })
      }
    />
  )
}
