import { describe, expect, it } from 'vitest'
import { dueToday } from '../../../src/domain/dossier/due-today.ts'
import type { DossierSummary, SummaryLife } from '../../../src/domain/dossier-summary.ts'

const NOW = '2026-11-25T12:00:00.000Z'
const LIFE: SummaryLife = { stage: 'kept', since: NOW, decision: null, waitingSince: null, deadlines: [] }

function summary(id: string, life: Partial<SummaryLife>): DossierSummary {
  return { id, title: id, deletedAt: null, life: { ...LIFE, ...life } } as DossierSummary
}
const ending = (at: string) => [{ id: 'd', kind: 'return' as const, at, zone: 'UTC' }]

describe('what needs the person today', () => {
  it('names each dossier once, by its most urgent reason, most urgent first', () => {
    const due = dueToday(
      [
        summary('waits', { stage: 'asked', waitingSince: '2026-11-20T12:00:00.000Z' }),
        summary('near', { deadlines: ending('2026-11-27T12:00:00.000Z') }),
        summary('over', { stage: 'arrived', deadlines: ending('2026-11-24T12:00:00.000Z') }),
        summary('check', { stage: 'arrived', decision: 'bought' }),
        summary('turn', { stage: 'answered-in-part' }),
      ],
      NOW,
    )
    expect(due.map(({ summary: { id }, reason }) => `${id}: ${reason}`)).toEqual([
      'over: over',
      'near: near',
      'check: to-check',
      'waits: no-answer',
      'turn: answered',
    ])
  })

  it('leaves alone what is closed, declined, deleted, far off, just asked, or of an older version', () => {
    const quiet = [
      summary('closed', { stage: 'closed', deadlines: ending('2026-11-24T12:00:00.000Z') }),
      summary('declined', { stage: 'decided', decision: 'declined' }),
      { ...summary('deleted', { deadlines: ending('2026-11-24T12:00:00.000Z') }), deletedAt: NOW },
      summary('far', { deadlines: ending('2026-12-24T12:00:00.000Z') }),
      summary('asked', { stage: 'asked', waitingSince: '2026-11-25T09:00:00.000Z' }),
      { ...summary('old', {}), life: undefined },
    ]
    expect(dueToday(quiet as DossierSummary[], NOW)).toEqual([])
  })
})
