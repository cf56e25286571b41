/** The ledger of finished sales: the ways in, all that is in it, and the rates between currencies. */
import { useState } from 'preact/hooks'
import { CsvImport } from '../ledger/CsvImport.tsx'
import { LedgerList } from '../ledger/LedgerList.tsx'
import { Rates } from '../ledger/Rates.tsx'
import { SaleByHand } from '../ledger/SaleByHand.tsx'
import { SalesOfDossiers } from '../ledger/SalesOfDossiers.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { useLoaded } from './use-loaded.ts'

const WAYS = ['csv', 'hand', 'dossiers', 'rates'] as const
type Way = (typeof WAYS)[number]

export function Sales() {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const settings = useLoaded(() => ports.readSettings(), [ports, version.value])
  const currency = settings.phase === 'ready' ? settings.value.currency : 'EUR'
  const [way, setWay] = useState<Way | null>(null)
  const done = () => setWay(null)
  return (
    <>
      <h1>{t('desk.sales')}</h1>
      <p class="lead">{t('ledger.explained')}</p>
      <div class="ways">
        {WAYS.map((each) => (
          <button
            key={each}
            type="button"
            class="button"
            aria-expanded={way === each}
            onClick={() => setWay(way === each ? null : each)}
          >
            {t(`ledger.way.${each}`)}
          </button>
        ))}
      </div>
      {way === null ? (
        <p class="hint">{t('ledger.way.page')}</p>
      ) : (
        <section class="sheet" aria-label={t(`ledger.way.${way}`)}>
          <h2>{t(`ledger.way.${way}`)}</h2>
          {way === 'csv' && <CsvImport currency={currency} onDone={done} />}
          {way === 'hand' && <SaleByHand currency={currency} onDone={done} />}
          {way === 'dossiers' && <SalesOfDossiers onDone={done} />}
          {way === 'rates' && <Rates />}
        </section>
      )}
      <LedgerList />
    </>
  )
}
