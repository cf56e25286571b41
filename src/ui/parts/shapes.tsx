/**
 * The shapes that stand beside every state's word. Streaks for the stance (whole, broken, outline), rubbed strokes for a
 * strength (three, two, one), little cards for a view's status. All are decoration for eyes: the word carries the meaning.
 */
import type { PointVerdict } from '../../domain/exemplar.ts'
import type { Stance, Strength } from '../../domain/inspection.ts'
import type { ViewStatus } from '../../domain/views.ts'

const WHOLE = 'M1 9.2 5 5.4 18 3.8 41 2.9 70 3.5 97 2.4 113 4.8 119 7.6 112 11 94 12.7 66 12 38 13.3 15 12.2Z'
const BROKEN = [
  'M1 9.2 5 5.4 17 3.8 31 3.2 29 8 33 13.2 15 12.2Z',
  'M47 3.1 70 3.5 80 3 77 7.4 82 12.4 66 12 44 13 48 8.2Z',
  'M97 2.6 113 4.8 119 7.6 112 11 95 12.6 99 7.4Z',
]

/** What is rubbed off in a streak, in the ground's colour. */
const SCRATCHES = 'M12 7.2 40 6.2M52 9.6 88 8.8M96 6.4 110 7M30 10.6 46 10.2M70 5.6 84 5.2'

export function StanceShape({ stance }: { stance: Stance }) {
  return (
    <svg class="shape stance-shape" viewBox="0 0 120 16" aria-hidden="true" focusable="false">
      {stance === 'wait' && <path class="filled" d={WHOLE} />}
      {stance === 'ask' && BROKEN.map((d) => <path key={d} class="filled" d={d} />)}
      {stance === 'nothing-open' ? <path class="outlined" d={WHOLE} /> : <path class="scratches" d={SCRATCHES} />}
    </svg>
  )
}

const STROKES: Readonly<Record<Strength, number>> = { strong: 3, medium: 2, weak: 1 }

export function StrengthShape({ strength }: { strength: Strength }) {
  return (
    <svg class="shape strength-shape" viewBox="0 0 20 16" aria-hidden="true" focusable="false">
      {[0, 1, 2].map((place) => (
        <path
          key={place}
          class={place < STROKES[strength] ? 'filled' : 'outlined'}
          d={`M${1 + place * 6} 14.4 ${3.6 + place * 6} 1.6H${6.8 + place * 6}L${4.2 + place * 6} 14.4Z`}
        />
      ))}
    </svg>
  )
}

export function StatusShape({ status }: { status: ViewStatus }) {
  return (
    <svg class={`shape status-shape status-${status}`} viewBox="0 0 14 18" aria-hidden="true" focusable="false">
      <rect class={status === 'shown' ? 'filled' : 'outlined'} x="1.2" y="1.2" width="11.6" height="15.6" rx="1.2" />
      {status === 'shown' && <path class="tick" d="M4 9.2 6.2 11.6 10.2 6.2" />}
      {status === 'not-readable' && <path class="lines" d="M2 11 9.6 2M3 16 12.4 5M8 16.4 12.6 11" />}
      {status === 'cannot-tell' && <path class="lines" d="M4.4 9H9.6" />}
    </svg>
  )
}

const ICONS = {
  desk: 'M2.5 4.5h11v7h-11zM5 14h6M8 11.5V14',
  again: 'M13 8a5 5 0 1 1-1.5-3.6M13 2v3h-3',
  copy: 'M5.5 5.5v-3h8v8h-3M2.5 5.5h8v8h-8z',
  into: 'M8 2v7M5 6.5 8 9.5l3-3M2.5 11v2.5h11V11',
  keep: 'M4 2.5h8v11l-4-3-4 3z',
  kept: 'M4 2.5h8v11l-4-3-4 3zM6 6.5h4',
  close: 'M4 4l8 8M12 4l-8 8',
  out: 'M6 3.5H3v9.5h9.5v-3M9 2.5h4.5V7M13 3 7.5 8.5',
  point: 'M8 1.5v3M8 11.5v3M1.5 8h3M11.5 8h3M8 7.4v1.2M7.4 8h1.2',
  photo: 'M2 4h3l1-1.5h4L11 4h3v9H2zM8 6a2.4 2.4 0 1 0 0 4.8A2.4 2.4 0 0 0 8 6z',
  dossiers: 'M2 3.5h4.5L8 5h6v8.5H2zM2 7h12',
  compare: 'M2 3h5v10H2zM9 3h5v10H9zM9 8h5',
  sales: 'M2 13.5h12M4 11V8M7 11V5M10 11V6.5M13 11V3',
  graders: 'M3.5 2h9v12h-9zM5.5 4.5h5M5.5 7h5M6 11h4',
  risky: 'M5 2.5h8.5V11M2.5 5H11v8.5H2.5z',
  rules: 'M3 4h1M6.5 4H13M3 8h1M6.5 8H13M3 12h1M6.5 12H13',
  outcomes: 'M2.5 13.5h11M4.5 11V8M8 11V3M11.5 11V6',
  settings: 'M2 5h6M12 5h2M2 11h2M8 11h6M10 3.4v3.2M6 9.4v3.2',
  remove: 'M3 4.5h10M6 4.5V2.5h4v2M4.5 4.5l.5 9h6l.5-9',
  add: 'M8 3v10M3 8h10',
  enlarge: 'M9.5 2.5h4v4M6.5 13.5h-4v-4M13.5 2.5 9 7M2.5 13.5 7 9',
  previous: 'M10 3 5 8l5 5',
  next: 'M6 3l5 5-5 5',
  up: 'M3 10l5-5 5 5',
  down: 'M3 6l5 5 5-5',
  exemplars: 'M3 2h10v12H3zM5.5 5h3v3h-3zM5.5 11h5',
  lock: 'M4 7.5h8V14H4zM5.5 7.5V5a2.5 2.5 0 0 1 5 0v2.5',
  save: 'M8 2.5v7M5 7l3 3 3-3M3 13.5h10',
} as const

export type IconName = keyof typeof ICONS

export function Icon({ name }: { name: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      <path d={ICONS[name]} />
    </svg>
  )
}

/** A seal: whole, in part, or its outline. */
export function AcceptanceShape({ acceptance }: { acceptance: 'accepted' | 'conditions' | 'not-accepted' }) {
  return (
    <svg class="shape acceptance-shape" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      <path class="outlined" d="M8 1.5 14 5v6l-6 3.5L2 11V5z" />
      {acceptance === 'accepted' && <path class="filled" d="M8 1.5 14 5v6l-6 3.5L2 11V5z" />}
      {acceptance === 'conditions' && <path class="filled" d="M8 1.5V14.5L2 11V5z" />}
      {acceptance === 'not-accepted' && <path class="outlined" d="M4.5 8h7" />}
    </svg>
  )
}

/** Two bars beside each other: alike, unlike, unlike with a line that joins them, one of them not seen, or none to be seen. */
export function VerdictShape({ verdict }: { verdict: PointVerdict }) {
  return (
    <svg class="shape verdict-shape" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      {verdict !== 'not-applicable' && <rect class="filled" x="1.5" y="2" width="5.5" height="12" />}
      {verdict === 'agrees' && <rect class="filled" x="9" y="2" width="5.5" height="12" />}
      {verdict === 'differs' && <rect class="filled" x="9" y="7.5" width="5.5" height="6.5" />}
      {verdict === 'differs-explained' && (
        <>
          <rect class="outlined" x="9.6" y="8" width="4.5" height="5.6" />
          <path class="outlined" d="M7 4.5h4.8V8" />
        </>
      )}
      {verdict === 'not-applicable' && <path class="outlined" d="M3 8h10" />}
      {verdict === 'cannot-tell' && <rect class="outlined dashed" x="9.4" y="2.4" width="4.7" height="11.2" />}
    </svg>
  )
}
