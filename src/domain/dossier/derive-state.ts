/**
 * Where a dossier stands, derived from its log and from nothing else: stage, what was asked and answered, deadlines, outcome.
 * Lenient on order, since people skip steps; the latest word on a thing counts. Reads the entries of every earlier version.
 */
import type { ArrivalFinding, Deadline, Decision, LogEntry } from '../dossier.ts'
import { OUTCOMES, type Outcome } from '../facts.ts'
import type { ViewId } from '../views.ts'
import { standingEntries } from './standing-entries.ts'

export const STAGES = [
  'kept',
  'asked',
  'answered-in-part',
  'answered',
  'decided',
  'arrived',
  'checked',
  'closed',
] as const
export type Stage = (typeof STAGES)[number]

export interface Asked {
  readonly entry: string
  readonly at: string
  /** The exact words. */
  readonly words: string
  /** Empty for requests of older versions, which did not keep them. */
  readonly views: readonly ViewId[]
  readonly language: string | null
}

export interface Answered {
  readonly entry: string
  readonly at: string
  readonly words: string
  readonly photos: readonly string[]
  readonly shows: readonly ViewId[]
  readonly refused: readonly ViewId[]
}

export interface DeadlineState extends Deadline {
  readonly status: 'open' | 'met' | 'lifted'
  /** The entry that set it last. */
  readonly entry: string
}

export interface DossierState {
  readonly stage: Stage
  /** ISO 8601 in UTC: since when. */
  readonly since: string | null
  readonly decision: Decision | null
  readonly outcome: Outcome | null
  readonly requests: readonly Asked[]
  readonly answers: readonly Answered[]
  /** Asked for, neither shown nor refused, in the order in which they were first asked for. */
  readonly openViews: readonly ViewId[]
  readonly refusedViews: readonly ViewId[]
  /** When the last request went out that nothing answered yet; `null`: no reply is awaited. */
  readonly waitingSince: string | null
  readonly arrival: readonly ArrivalFinding[]
  /** Soonest first. */
  readonly deadlines: readonly DeadlineState[]
  /** ISO 8601 in UTC: when the page was last looked at. */
  readonly lastSeenAt: string | null
}

/** `shown`: views that the dossier's photos show by now, whoever found so; they count as answered. */
export function deriveState(log: readonly LogEntry[], shown: readonly ViewId[] = []): DossierState {
  const requests: Asked[] = []
  const answers: Answered[] = []
  const deadlines = new Map<string, DeadlineState>()
  const reached = new Map<Stage, string>()
  let decision: Decision | null = null
  let outcome: Outcome | null = null
  let arrival: readonly ArrivalFinding[] = []
  let lastSeenAt: string | null = null

  for (const { name, entry } of standingEntries(log)) {
    const { at } = entry
    switch (entry.event) {
      case 'kept':
        if (!reached.has('kept')) reached.set('kept', at)
        lastSeenAt = at
        break
      case 'seen-again':
        lastSeenAt = at
        break
      case 'asked':
        requests.push({ entry: name, at, words: entry.detail, views: entry.views, language: entry.language })
        break
      case 'request-inserted':
      case 'request-sent':
        requests.push({ entry: name, at, words: entry.detail, views: [], language: null })
        break
      case 'answered': {
        const { detail: words, photos, shows, refused } = entry
        answers.push({ entry: name, at, words, photos, shows, refused })
        break
      }
      case 'decided':
        decision = entry.decision
        reached.set('decided', at)
        // Not bought after all: what was said of its arrival was said of nothing.
        if (decision !== 'bought') for (const stage of ['arrived', 'checked'] as const) reached.delete(stage)
        break
      case 'arrived':
        reached.set('arrived', at)
        break
      case 'checked':
        reached.set('checked', at)
        arrival = entry.findings
        break
      case 'closed':
        reached.set('closed', at)
        outcome = entry.outcome
        break
      case 'outcome':
        // How versions without steps wrote an ending; an empty one opened the dossier again.
        outcome = OUTCOMES.find((known) => known === entry.detail) ?? null
        if (outcome === null) reached.delete('closed')
        else reached.set('closed', at)
        break
      case 'deadline-set':
        deadlines.set(entry.deadline.id, { ...entry.deadline, status: 'open', entry: name })
        break
      case 'deadline-met':
      case 'deadline-lifted': {
        const before = deadlines.get(entry.deadline)
        const status = entry.event === 'deadline-met' ? 'met' : 'lifted'
        if (before !== undefined) deadlines.set(before.id, { ...before, status })
        break
      }
      default:
        break
    }
  }

  const asked = [...new Set(requests.flatMap(({ views }) => views))]
  const shownViews = new Set([...shown, ...answers.flatMap(({ shows }) => shows)])
  // A view that came after it was refused is there all the same.
  const refusedViews = [...new Set(answers.flatMap(({ refused }) => refused))].filter((view) => !shownViews.has(view))
  const openViews = asked.filter((view) => !shownViews.has(view) && !refusedViews.includes(view))
  const lastAsked = requests.at(-1)
  const lastAnswer = answers.at(-1)
  if (requests[0] !== undefined) reached.set('asked', requests[0].at)
  if (lastAnswer !== undefined)
    reached.set(asked.length > 0 && openViews.length > 0 ? 'answered-in-part' : 'answered', lastAnswer.at)

  const stage = STAGES.findLast((known) => reached.has(known)) ?? 'kept'
  return {
    stage,
    since: reached.get(stage) ?? null,
    decision,
    outcome,
    requests,
    answers,
    openViews,
    refusedViews,
    waitingSince:
      lastAsked !== undefined && (lastAnswer === undefined || lastAnswer.at < lastAsked.at) ? lastAsked.at : null,
    arrival,
    deadlines: [...deadlines.values()].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0)),
    lastSeenAt,
  }
}

/** The open deadline that comes first, past ones included; `null`: none is open. */
export function nextDeadline(state: Pick<DossierState, 'deadlines' | 'stage'>): DeadlineState | null {
  return state.stage === 'closed' ? null : (state.deadlines.find(({ status }) => status === 'open') ?? null)
}
