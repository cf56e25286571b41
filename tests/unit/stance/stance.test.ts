import fc from 'fast-check'
import { expect, it } from 'vitest'
import { STANCES, takeStance } from '../../../src/domain/stance/take-stance.ts'
import { loadPacks } from '../rules/load-packs.ts'

const { translate } = loadPacks()

const concern = fc.record({
  strength: fc.constantFrom('strong' as const, 'medium' as const, 'weak' as const),
  settledBy: fc.constantFrom(null, 'seen in hand'),
})
const view = fc.record({
  status: fc.constantFrom('shown' as const, 'missing' as const, 'not-readable' as const, 'cannot-tell' as const),
})
const caution = (concerns: Parameters<typeof takeStance>[0], views: Parameters<typeof takeStance>[1]) =>
  STANCES.indexOf(takeStance(concerns, views, translate).stance)

it('never relaxes when a concern or a view is added', () => {
  fc.assert(
    fc.property(fc.array(concern), fc.array(view), concern, view, (concerns, views, added, unseen) => {
      const before = caution(concerns, views)
      expect(caution([...concerns, added], views)).toBeGreaterThanOrEqual(before)
      expect(caution(concerns, [...views, unseen])).toBeGreaterThanOrEqual(before)
    }),
  )
})

it('never tightens when one is settled or shown', () => {
  fc.assert(
    fc.property(fc.array(concern, { minLength: 1 }), fc.array(view), fc.nat(), (concerns, views, at) => {
      const before = caution(concerns, views)
      const settled = concerns.map((item, index) =>
        index === at % concerns.length ? { ...item, settledBy: 'seen' } : item,
      )
      expect(caution(settled, views)).toBeLessThanOrEqual(before)
      expect(
        caution(
          concerns,
          views.map(() => ({ status: 'shown' as const })),
        ),
      ).toBeLessThanOrEqual(before)
    }),
  )
})

it('follows its table', () => {
  const open = (strength: 'strong' | 'medium' | 'weak') => ({ strength, settledBy: null })
  expect(takeStance([open('strong'), open('weak')], [], translate)).toEqual({
    stance: 'wait',
    reason: 'One strong concern is open: no payment yet.',
  })
  expect(takeStance([open('weak'), open('weak')], [], translate)).toEqual({
    stance: 'ask',
    reason: '2 questions are open: ask before paying.',
  })
  expect(takeStance([], [{ status: 'missing' }], translate).stance).toBe('ask')
  expect(takeStance([{ strength: 'strong', settledBy: 'seen' }], [], translate).stance).toBe('nothing-open')
})
