import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addStep, NothingToUndo } from '../../../src/domain/dossier/add-step.ts'
import { deriveState, nextDeadline } from '../../../src/domain/dossier/derive-state.ts'
import type { Deadline, Dossier, LifeStep, LogEntry } from '../../../src/domain/dossier.ts'

const KEPT: LogEntry = { at: '2026-11-18T12:00:00.000Z', event: 'kept', detail: 'https://quayside.example/lot/7' }
const START: Pick<Dossier, 'log' | 'outcome'> = { log: [KEPT], outcome: null }

/** One second a step, ids `e1`, `e2`, … */
function live(...steps: LifeStep[]) {
  return steps.reduce(
    (dossier, step) =>
      addStep(dossier, step, {
        at: new Date(Date.UTC(2026, 10, 18, 12, 0, dossier.log.length)).toISOString(),
        id: `e${dossier.log.length}`,
      }),
    START,
  )
}
const stateAfter = (...steps: LifeStep[]) => deriveState(live(...steps).log)

const asked: LifeStep = {
  event: 'asked',
  detail: 'The back and the label, please.',
  views: ['back', 'label'],
  language: 'en',
}
const half: LifeStep = { event: 'answered', detail: '', photos: ['reply:1'], shows: ['back'], refused: [] }
const bought: LifeStep = { event: 'decided', detail: '', decision: 'bought' }
const arrived: LifeStep = { event: 'arrived', detail: '' }
const checked: LifeStep = { event: 'checked', detail: '', findings: [] }
const closed: LifeStep = { event: 'closed', detail: '', outcome: 'not-as-described' }
const undo = (entry: string): LifeStep => ({ event: 'undone', detail: '', entry })
const deadline = (at: string, id = 'd1'): Deadline => ({
  id,
  kind: 'reply',
  at,
  zone: 'Europe/Berlin',
  from: 'entered',
  note: '',
})

describe('the life of a dossier', () => {
  it('goes from kept to closed, each stage since its own step', () => {
    const steps = [asked, half, bought, arrived, checked, closed]
    const stages = steps.map((_, index) => stateAfter(...steps.slice(0, index + 1)).stage)
    expect(stages).toEqual(['asked', 'answered-in-part', 'decided', 'arrived', 'checked', 'closed'])
    expect(stateAfter(...steps)).toMatchObject({
      since: '2026-11-18T12:00:06.000Z',
      decision: 'bought',
      outcome: 'not-as-described',
    })
  })

  it('knows which views are still open, and a refusal is neither open nor shown', () => {
    expect(stateAfter(asked).openViews).toEqual(['back', 'label'])
    expect(stateAfter(asked, half).openViews).toEqual(['label'])
    const refused = stateAfter(asked, half, {
      event: 'answered',
      detail: 'No more.',
      photos: [],
      shows: [],
      refused: ['label'],
    })
    expect(refused).toMatchObject({ stage: 'answered', openViews: [], refusedViews: ['label'] })
    // What the photos show counts, whoever found it there.
    expect(deriveState(live(asked, half).log, ['label'])).toMatchObject({ stage: 'answered', openViews: [] })
  })

  it('waits for a reply from the request until an answer', () => {
    expect(stateAfter(asked).waitingSince).toBe('2026-11-18T12:00:01.000Z')
    expect(stateAfter(asked, half).waitingSince).toBeNull()
    expect(stateAfter(asked, half, asked).waitingSince).toBe('2026-11-18T12:00:03.000Z')
  })

  it('forgets the arrival of what was not bought after all', () => {
    expect(stateAfter(bought, arrived, { event: 'decided', detail: '', decision: 'lost' })).toMatchObject({
      stage: 'decided',
      decision: 'lost',
    })
  })

  it('reads the entries of earlier versions', () => {
    const old: LogEntry[] = [
      KEPT,
      { at: '2026-11-19T08:00:00.000Z', event: 'request-inserted', detail: 'Could you show the back?' },
      { at: '2026-11-20T08:00:00.000Z', event: 'outcome', detail: 'genuine' },
    ]
    expect(deriveState(old)).toMatchObject({
      stage: 'closed',
      outcome: 'genuine',
      requests: [{ words: 'Could you show the back?', views: [] }],
    })
    const reopened: LogEntry[] = [...old, { at: '2026-11-21T08:00:00.000Z', event: 'outcome', detail: '' }]
    expect(deriveState(reopened)).toMatchObject({ stage: 'asked', outcome: null })
  })
})

describe('deadlines', () => {
  const set = (at: string, id?: string): LifeStep => ({ event: 'deadline-set', detail: '', deadline: deadline(at, id) })
  it('are moved, met and lifted, and the soonest open one is next', () => {
    const state = stateAfter(
      set('2026-12-01T11:00:00.000Z'),
      set('2026-11-30T11:00:00.000Z', 'd2'),
      set('2026-12-05T11:00:00.000Z'),
    )
    expect(state.deadlines.map(({ id, at }) => [id, at.slice(0, 10)])).toEqual([
      ['d2', '2026-11-30'],
      ['d1', '2026-12-05'],
    ])
    expect(nextDeadline(state)?.id).toBe('d2')
    const met = stateAfter(set('2026-12-01T11:00:00.000Z'), { event: 'deadline-met', detail: '', deadline: 'd1' })
    expect(met.deadlines[0]?.status).toBe('met')
    expect(nextDeadline(met)).toBeNull()
    expect(nextDeadline(stateAfter(set('2026-12-01T11:00:00.000Z'), closed))).toBeNull()
  })
})

describe('taking back', () => {
  it('is an entry of its own and can itself be taken back', () => {
    expect(stateAfter(asked, half, undo('e2'))).toMatchObject({ stage: 'asked', openViews: ['back', 'label'] })
    expect(stateAfter(asked, half, undo('e2'), undo('e3'))).toMatchObject({ stage: 'answered-in-part' })
    expect(live(asked, undo('e1')).log).toHaveLength(3)
  })

  it('keeps the outcome beside the log as the log has it', () => {
    expect(live(closed).outcome).toBe('not-as-described')
    expect(live(closed, undo('e1')).outcome).toBeNull()
  })

  it('names an entry of an older version by its place', () => {
    const log: LogEntry[] = [KEPT, { at: '2026-11-20T08:00:00.000Z', event: 'outcome', detail: 'genuine' }]
    expect(
      addStep({ log, outcome: 'genuine' }, undo('#1'), { at: '2026-11-21T08:00:00.000Z', id: 'x' }).outcome,
    ).toBeNull()
  })

  it('refuses what is not there, and the first entry', () => {
    expect(() => live(undo('e9'))).toThrow(NothingToUndo)
    expect(() => live(undo('#0'))).toThrow(NothingToUndo)
  })

  it('of everything, newest first, leads back to where it began, whatever the steps', () => {
    const step = fc.constantFrom<LifeStep>(asked, half, bought, arrived, checked, closed)
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        const forth = live(...steps)
        const back = live(...steps, ...steps.map((_, index) => undo(`e${steps.length - index}`)))
        expect(back.log.slice(0, forth.log.length)).toEqual(forth.log)
        expect({ ...deriveState(back.log), requests: [] }).toEqual({ ...deriveState([KEPT]), requests: [] })
      }),
    )
  })
})
