/** When to remind of a deadline. Pure: which moments fell since the last look, and when to look again. */
import type { Deadline } from '../dossier.ts'

/** A day before there is time to act, an hour before it is time to act. In milliseconds. Ours, no source. */
const BEFORE_MS = [86_400_000, 3_600_000] as const

type Dated = Pick<Deadline, 'at'>

/** Those of which a moment to remind lies after `since` and not after `until`; what is over by `until` is not reminded of. */
export function dueReminders<D extends Dated>(deadlines: readonly D[], since: string, until: string): D[] {
  const [from, to] = [Date.parse(since), Date.parse(until)]
  return deadlines.filter(({ at }) => {
    const end = Date.parse(at)
    return end > to && BEFORE_MS.some((before) => end - before > from && end - before <= to)
  })
}

/** ISO 8601 in UTC: the next moment to remind of any of them; `null`: there is none to come. */
export function nextReminder(deadlines: readonly Dated[], after: string): string | null {
  const now = Date.parse(after)
  const moments = deadlines.flatMap(({ at }) => BEFORE_MS.map((before) => Date.parse(at) - before))
  const next = Math.min(...moments.filter((moment) => moment > now))
  return Number.isFinite(next) ? new Date(next).toISOString() : null
}
