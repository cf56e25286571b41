/** Why a page was read as it was, for a person: the kind's points, the amounts weighed, the groups of records found. */
import type { Trace } from '../../page/reading.ts'
import { columns, paragraphs, safe } from './lay-out.ts'

/** The best amounts tell the decision; what comes after them never came near. */
const AMOUNTS_SHOWN = 8

export function traceText({ kind, headline, prices, groups, notes }: Trace): string {
  return paragraphs(
    `Kind ${kind.decision}: listing ${kind.listing.toFixed(1)}, results ${kind.results.toFixed(1)}\n${kind.reasons.map((reason) => `  ${reason}`).join('\n')}`,
    headline && `Heading: ${safe(headline.text)} (${headline.score.toFixed(1)})`,
    prices.length > 0 &&
      `Amounts weighed\n${columns([
        ['amount', 'points', 'role', 'features'],
        ...prices
          .slice(0, AMOUNTS_SHOWN)
          .map(({ text, score, role, features }) => [safe(text), score.toFixed(1), role ?? '', features.join(' ')]),
      ])}`,
    groups.length > 0 &&
      `Groups of records\n${columns([
        ['rows', 'priced', 'where'],
        ...groups.map(({ rows, priced, where }) => [String(rows), `${Math.round(priced * 100)} %`, where ?? '']),
      ])}`,
    notes.length > 0 && notes.join('\n'),
  )
}
