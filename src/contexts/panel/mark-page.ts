/** What the panel says, shown on the page: evidence highlighted, a mark beside the title, a mark on each row. */
import type { Inspection } from '../../domain/inspection.ts'
import type { Translate } from '../../domain/translate.ts'
import type { ResultsRowState } from '../../ui/panel/panel-state.ts'
import type { HighlightRequest, RowMark } from '../protocol.ts'
import type { AttachedPage } from './page-link.ts'

/** A page that went away meanwhile has nothing to mark: faults are of no interest here. */
export async function markListing(
  page: AttachedPage,
  { listing, concerns, stance }: Inspection,
  t: Translate,
): Promise<void> {
  const open = concerns.filter(({ settledBy }) => settledBy === null)
  const items = open.flatMap(({ rule, evidence }) =>
    evidence.flatMap(({ quote, field }, index): HighlightRequest[] => {
      // Only words of the page can be shown on the page.
      if (field === null || quote.trim() === '') return []
      return [{ id: `${rule} ${index}`, quote, where: listing.provenance[field]?.where ?? null }]
    }),
  )
  const count = t('concerns.open', { count: open.length })
  await page.call('highlight', {
    items,
    mark: {
      where: listing.provenance.title?.where ?? null,
      title: listing.title,
      stance,
      label: open.length === 0 ? t('stance.nothing-open.short') : count,
      description: `Touchstone: ${t(`stance.${stance}`)} – ${count}`,
    },
  })
}

/** A row of which nothing is known carries no mark: it would read as a promise. */
export async function markResults(page: AttachedPage, rows: readonly ResultsRowState[], t: Translate): Promise<void> {
  const marks = rows.flatMap((state): RowMark[] => {
    const { where } = state.row
    const content = contentOf(state, t)
    return where === undefined || content === null ? [] : [{ where, ...content }]
  })
  if (marks.length > 0) await page.call('markRows', { marks })
}

function contentOf(state: ResultsRowState, t: Translate): Omit<RowMark, 'where'> | null {
  const { openConcerns, foremost, keptAs, singleCard } = state
  if (keptAs !== null) return { kind: 'kept', label: t('results.kept'), detail: foremost ?? '' }
  if (openConcerns > 0) {
    return { kind: 'concerns', label: t('results.concerns', { count: openConcerns }), detail: foremost ?? '' }
  }
  return singleCard ? null : { kind: 'not-a-single-card', label: t('results.not-single'), detail: '' }
}
