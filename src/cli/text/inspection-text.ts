/** An inspection for a person, top to bottom as the panel shows it. Every state carries a word beside its mark. */
import type { Concern, Inspection } from '../../domain/inspection.ts'
import { claimText } from './claim-text.ts'
import { columns, moneyText, paragraphs, safe, wrap } from './lay-out.ts'
import { valuationLine } from './valuation-text.ts'

const STRENGTH_MARK = { strong: '▲ strong', medium: '◆ medium', weak: '● weak' } as const
const VIEW_MARK = {
  shown: '● shown',
  missing: '○ missing',
  'not-readable': '◐ not readable',
  'cannot-tell': '? cannot tell',
} as const

function concernText(concern: Concern): string {
  const { strength, title, evidence, why, request, settles, settledBy } = concern
  return [
    wrap(`${STRENGTH_MARK[strength]}  ${title}`, '    ', '  '),
    ...evidence.map(({ quote, field }) =>
      wrap(field === null ? safe(quote) : `“${safe(quote)}” (${field})`, '      ', '    '),
    ),
    wrap(why, '      ', '    '),
    request.length > 0 && wrap(`Ask for: ${request.join(', ')}`, '      ', '    '),
    wrap(settledBy === null ? `Settled by: ${settles}` : `Settled: ${settledBy}`, '      ', '    '),
  ]
    .filter((line): line is string => typeof line === 'string')
    .join('\n')
}

export function inspectionText(inspection: Inspection): string {
  const { listing, claim, stance, stanceReason, concerns, views, request, valuation } = inspection
  const price = listing.price
    ? moneyText(listing.price) + (listing.priceKind ? ` (${listing.priceKind})` : '')
    : 'no price on the page'
  return paragraphs(
    wrap(safe(listing.title ?? '(no title)')) +
      `\n${price}${listing.seller ? `, from ${safe(listing.seller.name)}` : ''}`,
    wrap(`${stance.toUpperCase().replace('-', ' ')}: ${stanceReason}`),
    `What the words say\n${claimText(claim)}`,
    valuation && wrap(`Price: ${valuationLine(valuation)}.`),
    concerns.length === 0
      ? 'No concern was raised. That is no proof that nothing is wrong.'
      : `Concerns\n${concerns.map(concernText).join('\n\n')}`,
    views.length > 0 &&
      `Views\n${columns(views.map(({ view, status, reason }) => [VIEW_MARK[status], view, safe(reason)]))}`,
    request.text !== '' &&
      `Message\n${request.text
        .split('\n')
        .map((line) => wrap(line, '  ').trimEnd())
        .join('\n')}`,
    'Photos cannot authenticate a card; an expert with the card in hand decides.',
  )
}
