/** Sales that the buyer's own dossiers tell of: listings kept while they ran, seen again when they were sold. */
import { useState } from 'preact/hooks'
import type { RowSales } from '../../domain/pricing/sales-from-rows.ts'
import { useDesk } from '../desk/desk-context.ts'
import { useWording } from '../wording.ts'
import { RowSalesForm } from './RowSalesForm.tsx'
import { useWork } from './use-work.ts'
import { WorkBar } from './WorkBar.tsx'

export function SalesOfDossiers({ onDone }: { onDone: () => void }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const work = useWork()
  const [found, setFound] = useState<RowSales | null>(null)
  const look = () =>
    actions.run('dossier-sales', async () => setFound(await work.start((working) => ports.salesOfDossiers(working))))
  if (found === null) {
    return (
      <>
        <p class="quiet">{t('ledger.dossiers.explained')}</p>
        <WorkBar work={work} label={t('ledger.dossiers.looking')} />
        <div class="form-actions">
          <button type="button" class="button" disabled={work.share !== null} onClick={look}>
            {t('ledger.dossiers.look')}
          </button>
        </div>
      </>
    )
  }
  return (
    <RowSalesForm
      found={found}
      busy={actions.busy.value.has('add-sales')}
      onCancel={onDone}
      onAdd={(sales) =>
        actions.run('add-sales', async () => {
          const { added, known, merged } = await ports.addSales(sales)
          model.refresh()
          onDone()
          actions.say(t('ledger.added', { count: added, known, merged }))
        })
      }
    />
  )
}
