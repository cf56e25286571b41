/** The rows of a results page with what their words alone already say. Rows without a mark are listed too: nothing is hidden. */
import { AddRows } from '../ledger/AddRows.tsx'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { ResultsRowState } from './panel-state.ts'

interface ResultsRowsProps {
  readonly model: PanelModel
  readonly rows: readonly ResultsRowState[]
  readonly partlyRead: boolean
}

export function ResultsRows({ model, rows, partlyRead }: ResultsRowsProps) {
  const { t, money } = useWording()
  const { actions, ports } = model
  return (
    <section class="results" aria-labelledby="results-heading">
      <h2 id="results-heading">{t('results.heading', { count: rows.length })}</h2>
      <p class="quiet">{t('results.explained')}</p>
      {rows.some(({ row }) => row.sold === true || row.soldAt !== null) && <AddRows model={model} />}
      {partlyRead && <p class="quiet">{t('notice.partly-read')}</p>}
      <ul class="result-list">
        {rows.map(({ row, openConcerns, foremost, keptAs, singleCard, want }, index) => (
          <li key={`${index}${row.url}`} class="result-row">
            <span class="result-words">
              {row.url === null ? (
                <span class="result-title">
                  <PageText text={row.title} />
                </span>
              ) : (
                <button
                  type="button"
                  class="link-button result-title"
                  onClick={() => actions.run('row', () => ports.openRow(row.url!))}
                >
                  <PageText text={row.title} />
                </button>
              )}
              <span class="result-marks">
                {want != null && <strong class="mark">{t(`wants.mark.${want.price}`)}</strong>}
                <ConcernsMark open={openConcerns} foremost={foremost} />
                {!singleCard && <span class="mark mark-plain">{t('results.not-single')}</span>}
                {keptAs !== null && (
                  <button
                    type="button"
                    class="link-button"
                    onClick={() => actions.run('desk', () => ports.openDesk(`dossiers/${keptAs}`))}
                  >
                    {t('results.kept')}
                  </button>
                )}
              </span>
            </span>
            {row.price !== null && <span class="result-price">{money(row.price)}</span>}
          </li>
        ))}
      </ul>
    </section>
  )
}

function ConcernsMark({ open, foremost }: { open: number; foremost: string | null }) {
  const { t } = useWording()
  if (open === 0) return <span class="mark mark-none">{t('results.none')}</span>
  return (
    <span class="mark mark-open">
      {t('results.concerns', { count: open })}
      {foremost !== null && <span class="mark-foremost">{foremost}</span>}
    </span>
  )
}
