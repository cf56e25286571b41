import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Concern } from '../../../src/domain/inspection.ts'
import { expectChange } from '../../../src/domain/request/expect-change.ts'
import { MESSAGE_TONES } from '../../../src/domain/request/message-style.ts'
import { neededViews, nextQuestion, orderViews } from '../../../src/domain/request/order-views.ts'
import { writeRequest } from '../../../src/domain/request/write-request.ts'
import { VIEW_IDS, type ViewFinding, type ViewId, type ViewStatus } from '../../../src/domain/views.ts'
import { loadPacks } from '../rules/load-packs.ts'

const packs = loadPacks()
const english = packs.messages.get('en')!
const german = packs.messages.get('de')!

const finding = (view: ViewId, status: ViewStatus): ViewFinding => ({ view, status, photo: null, reason: '' })
const base = { pack: english, maxLength: null, issueAsk: null }

function concern(request: ViewId[], strength: Concern['strength'], group = 'g', likelihoodRatio = 4): Concern {
  return {
    rule: `${group}-${strength}`,
    title: '',
    strength,
    evidence: [],
    why: '',
    request,
    settles: '',
    group,
    weight: { likelihoodRatio, basis: 'assumed', count: 0 },
    settledBy: null,
  }
}

it('counts the buyer’s own question among the best few', () => {
  const open = [finding('back', 'missing'), finding('front', 'missing'), finding('edges', 'missing')]
  const { text, views, leftOut } = writeRequest({ ...base, open, mostViews: 3, issueAsk: 'the watermark' })
  expect(text.match(/^\d\. /gm)).toEqual(['1. ', '2. ', '3. '])
  expect(text).toContain('the watermark')
  expect([views, leftOut]).toEqual([['back', 'front'], ['edges']])
  expect(writeRequest({ ...base, open, mostViews: 3 }).views).toHaveLength(3)
})

describe('how it is said', () => {
  const open = [finding('back', 'missing'), finding('label', 'not-readable')]
  const style = { tone: 'plain', again: false, terms: [], returnDays: 14 } as const

  it.each([...packs.messages.values()])('in $language every tone asks for the same, first and again', (pack) => {
    for (const tone of MESSAGE_TONES) {
      for (const again of [false, true]) {
        const { text, views } = writeRequest({ ...base, pack, open, style: { ...style, tone, again } })
        expect(views).toEqual(['back', 'label'])
        expect(text).toMatch(/^1\. /m)
        expect(text).toContain(again ? pack.tones[tone].again : pack.tones[tone].opening)
        expect(text).not.toMatch(/[{}]/)
      }
    }
  })

  it('is shorter when brief', () => {
    const length = (tone: (typeof MESSAGE_TONES)[number]) =>
      writeRequest({ ...base, open, style: { ...style, tone } }).text.length
    expect(length('brief')).toBeLessThan(length('plain'))
    expect(length('plain')).toBeLessThan(length('warm'))
  })

  it('proposes the terms that the buyer picked, with their days, also where nothing else is asked', () => {
    const proposing = { ...style, terms: ['escrow', 'return-right'] as const, returnDays: 21 }
    const { text } = writeRequest({ ...base, open, style: proposing })
    expect(text).toContain('a written right to return it within 21 days of arrival')
    expect(text.indexOf('escrow')).toBeGreaterThan(text.indexOf('2. '))
    expect(writeRequest({ ...base, open: [], style: proposing })).toMatchObject({
      views: [],
      text: expect.stringContaining('escrow'),
    })
  })

  it('leaves lines out for a small box, never a term', () => {
    const proposing = { ...style, terms: ['escrow'] as const }
    const { text, leftOut } = writeRequest({ ...base, open, maxLength: 260, style: proposing })
    expect(text).toContain('escrow')
    expect(leftOut).not.toEqual([])
  })
})

describe('the message', () => {
  it('is empty where nothing is to ask', () => {
    expect(writeRequest({ ...base, open: [] }).text).toBe('')
    expect(writeRequest({ ...base, open: [finding('back', 'shown')] })).toMatchObject({
      text: '',
      views: [],
      leftOut: [],
    })
  })

  it('reads as a polite, numbered request', () => {
    const { text } = writeRequest({ ...base, open: [finding('back', 'missing'), finding('corners', 'not-readable')] })
    expect(text).toBe(
      [
        'Hello,',
        '',
        'I like your card. Before I decide, could you please send me:',
        '',
        '1. A square-on photo of the back with the whole outline in frame – to see the print and any marks there.',
        '2. Close-ups of all four corners, front and back, larger or sharper than the one in the listing – fine wear shows there first.',
        '',
        'Original, uncropped files would help most. Thank you!',
      ].join('\n'),
    )
  })

  it('says of what it cannot tell that it may be there', () => {
    const { text } = writeRequest({ ...base, pack: german, open: [finding('back', 'cannot-tell')] })
    expect(text).toContain('falls ich es unter Ihren Fotos nicht übersehen habe')
  })

  it('adds the words of the buyer for the issue, last', () => {
    const { text } = writeRequest({
      ...base,
      open: [finding('back', 'missing')],
      issueAsk: 'a macro of the name {ask} $&',
    })
    expect(text).toContain('2. For this issue in particular: a macro of the name {ask} $&')
  })

  // Words that accuse or guess at a motive; ours, kept in both languages.
  it.each([english, german])('accuses nobody ($language)', (pack) => {
    const { text } = writeRequest({ ...base, pack, open: VIEW_IDS.map((view) => finding(view, 'missing')) })
    expect(text).not.toMatch(
      /fake|genuine|counterfeit|reprint|fraud|scam|suspicio|\btrim|\balter|doubt|fälsch|echt\b|nachdruck|betrug|verdacht|zweifel|\bbeschnitten/i,
    )
  })

  it('fits any length by leaving whole lines out, the least informative first', () => {
    const statuses = fc.constantFrom<ViewStatus>('missing', 'not-readable', 'cannot-tell')
    const open = fc
      .uniqueArray(fc.constantFrom(...VIEW_IDS), { minLength: 1 })
      .chain((views) =>
        fc.tuple(...views.map(() => statuses)).map((states) => views.map((view, at) => finding(view, states[at]!))),
      )
    fc.assert(
      fc.property(open, fc.integer({ min: 0, max: 2500 }), fc.option(fc.string()), (asked, maxLength, issueAsk) => {
        const full = writeRequest({ ...base, open: asked, issueAsk })
        const cut = writeRequest({ ...base, open: asked, maxLength, issueAsk })
        expect(cut.text.length).toBeLessThanOrEqual(maxLength)
        expect([...cut.views, ...(cut.leftOut ?? [])]).toEqual(full.views)
        if (cut.text !== '') expect(cut.text.endsWith(english.tones.plain.closing)).toBe(true)
        for (const line of cut.text.split('\n'))
          expect(line === '' || full.text.split('\n').includes(line) || issueAsk !== null).toBe(true)
      }),
    )
  })

  it('can be cut to the best three', () => {
    const open = VIEW_IDS.map((view) => finding(view, 'missing'))
    const message = writeRequest({ ...base, open, mostViews: 3 })
    expect(message.views).toEqual(VIEW_IDS.slice(0, 3))
    expect(message.leftOut).toEqual(VIEW_IDS.slice(3))
  })
})

describe('the order of asking', () => {
  const { raw } = packs.views
  const all = (['front', 'back', 'corners', 'macro-print', 'black-light'] as const).map((view) =>
    finding(view, 'missing'),
  )

  it('goes by the strength of the concern, then by the bother', () => {
    const concerns = [concern(['black-light'], 'strong', 'a'), concern(['macro-print', 'back'], 'medium', 'b')]
    expect(orderViews(all, concerns, raw).map(({ view }) => view)).toEqual([
      'black-light',
      'back',
      'macro-print',
      'front',
      'corners',
    ])
  })

  it('passes over concerns that are settled', () => {
    const settled = { ...concern(['black-light'], 'strong'), settledBy: 'seen in hand' }
    expect(orderViews(all, [settled], raw)[0]?.view).toBe('front')
    expect(neededViews(raw, [settled])).toEqual(['front', 'back', 'corners'])
  })

  it('names the next best question, or none', () => {
    const concerns = [concern(['macro-print'], 'strong', 'a', 100)]
    expect(nextQuestion(orderViews(all, concerns, raw), concerns)).toEqual({ view: 'macro-print', expectedChange: 1 })
    expect(nextQuestion([], [])).toBeNull()
  })

  it('counts a group once, by what would remain', () => {
    // Half of log₁₀ 100 less log₁₀ 10, since the weaker concern of the group stays open.
    const concerns = [concern(['back'], 'strong', 'g', 100), concern(['front'], 'medium', 'g', 10)]
    expect(expectChange('back', concerns)).toBeCloseTo(0.5)
    expect(expectChange('front', concerns)).toBe(0)
  })
})
