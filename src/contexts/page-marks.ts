/** What an inspection or a row says, put into marks for a page. */
import type { Inspection } from '../domain/inspection.ts'
import type { Translate } from '../domain/translate.ts'
import type { ResultsRowState } from '../ui/panel/panel-state.ts'
import type { HighlightRequest, ListingMarks, RowMark } from './protocol.ts'

/** Open evidence highlighted, and the stance beside the title. */
export function marksOfListing({ listing, concerns, stance }: Inspection, t: Translate): ListingMarks {
  const open = concerns.filter(({ settledBy }) => settledBy === null)
  const items = open.flatMap(({ rule, evidence }) =>
    evidence.flatMap(({ quote, field }, index): HighlightRequest[] => {
      // Only words of the page can be shown on the page.
      if (field === null || quote.trim() === '') return []
      return [{ id: `${rule} ${index}`, quote, where: listing.provenance[field]?.where ?? null }]
    }),
  )
  const count = t('concerns.open', { count: open.length })
  return {
    items,
    mark: {
      where: listing.provenance.title?.where ?? null,
      title: listing.title,
      stance,
      label: open.length === 0 ? t('stance.nothing-open.short') : count,
      description: `Touchstone: ${t(`stance.${stance}`)} – ${count}`,
    },
  }
}

/** A row of which nothing is known carries no mark: it would read as a promise. */
export function marksOfRows(rows: readonly ResultsRowState[], t: Translate): RowMark[] {
  return rows.flatMap((state): RowMark[] => {
    const { where } = state.row
    const content = contentOf(state, t)
    return where === undefined || content === null ? [] : [{ where, ...content }]
  })
}

function contentOf(state: ResultsRowState, t: Translate): Omit<RowMark, 'where'> | null {
  const { openConcerns, foremost, keptAs, singleCard, want } = state
  const concerns = openConcerns === 0 ? null : t('results.concerns', { count: openConcerns })
  const detail = foremost ?? ''
  if (want != null) {
    const kept = keptAs === null ? null : t('results.kept')
    return {
      kind: 'wanted',
      label: [t(`wants.mark.${want.price}`), kept, concerns].filter(Boolean).join(' · '),
      detail,
    }
  }
  if (keptAs !== null) {
    return { kind: 'kept', label: [t('results.kept'), concerns].filter(Boolean).join(' · '), detail }
  }
  if (concerns !== null) return { kind: 'concerns', label: concerns, detail }
  return singleCard ? null : { kind: 'not-a-single-card', label: t('results.not-single'), detail: '' }
}
