import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dueReminders, nextReminder } from '../../../src/domain/dossier/reminders.ts'

const deadline = { at: '2026-11-30T12:00:00.000Z' }
const at = (text: string) => `2026-11-${text}:00:00.000Z`

describe('reminders', () => {
  it('come a day before and an hour before, once each', () => {
    expect(dueReminders([deadline], at('29T11'), at('29T12'))).toEqual([deadline])
    expect(dueReminders([deadline], at('29T12'), at('30T10'))).toEqual([])
    expect(dueReminders([deadline], at('30T10'), at('30T11'))).toEqual([deadline])
  })

  it('that were missed while the browser was closed come at its start, unless it is too late', () => {
    expect(dueReminders([deadline], at('20T00'), at('30T11'))).toEqual([deadline])
    expect(dueReminders([deadline], at('20T00'), at('30T13'))).toEqual([])
  })

  it('name the next moment to look, and none where nothing is to come', () => {
    expect(nextReminder([deadline], at('20T00'))).toBe('2026-11-29T12:00:00.000Z')
    expect(nextReminder([deadline], at('29T12'))).toBe('2026-11-30T11:00:00.000Z')
    expect(nextReminder([deadline], at('30T12'))).toBeNull()
    expect(nextReminder([], at('20T00'))).toBeNull()
  })

  it('reach every deadline if one looks whenever told to', () => {
    const day = fc.integer({ min: 1, max: 60 * 24 * 60 })
    fc.assert(
      fc.property(fc.uniqueArray(day, { maxLength: 8 }), (minutes) => {
        const start = Date.parse('2026-11-01T00:00:00.000Z')
        const deadlines = minutes.map((m) => ({ at: new Date(start + m * 60_000 + 86_400_000).toISOString() }))
        const told = new Set<string>()
        let now = new Date(start).toISOString()
        for (let next = nextReminder(deadlines, now); next !== null; next = nextReminder(deadlines, now)) {
          for (const due of dueReminders(deadlines, now, next)) told.add(due.at)
          now = next
        }
        expect(told.size).toBe(deadlines.length)
      }),
    )
  })
})
