/**
 * The arrival check: what to go through with the parcel in hand, in order, each step ending in a finding. The outcome is the
 * buyer's word; nothing here concludes one.
 */
import type { ArrivalFinding } from '../dossier.ts'

export interface ArrivalStep {
  readonly id: string
  readonly applies: 'always' | 'raw' | 'encapsulated'
  /** Own photos of this are compared with the listing's. */
  readonly photos: boolean
  /** What may be measured, if the buyer has a caliper or a scale. */
  readonly unit: 'mm' | 'g' | null
}

/** The order in which evidence is lost if it is not taken: parcel, then holder, then card. Common practice, no source. */
export const ARRIVAL_STEPS: readonly ArrivalStep[] = [
  { id: 'parcel-unopened', applies: 'always', photos: true, unit: null },
  { id: 'parcel-weight', applies: 'always', photos: true, unit: 'g' },
  { id: 'parcel-seal', applies: 'always', photos: true, unit: null },
  { id: 'unboxing-filmed', applies: 'always', photos: false, unit: null },
  { id: 'holder-sound', applies: 'encapsulated', photos: true, unit: null },
  { id: 'label-as-listed', applies: 'encapsulated', photos: true, unit: null },
  { id: 'certificate-as-listed', applies: 'encapsulated', photos: false, unit: null },
  { id: 'specks-as-listed', applies: 'always', photos: true, unit: null },
  { id: 'corners-as-listed', applies: 'always', photos: true, unit: null },
  { id: 'centering-as-listed', applies: 'always', photos: true, unit: null },
  { id: 'width', applies: 'raw', photos: false, unit: 'mm' },
  { id: 'height', applies: 'raw', photos: false, unit: 'mm' },
  { id: 'thickness', applies: 'raw', photos: false, unit: 'mm' },
  { id: 'card-weight', applies: 'raw', photos: false, unit: 'g' },
]

/** Where the claim leaves it open, both kinds are gone through. */
export function arrivalSteps(encapsulation: 'raw' | 'encapsulated' | 'unclear'): readonly ArrivalStep[] {
  if (encapsulation === 'unclear') return ARRIVAL_STEPS
  return ARRIVAL_STEPS.filter(({ applies }) => applies === 'always' || applies === encapsulation)
}

export interface ArrivalTally {
  readonly done: number
  readonly of: number
  readonly differs: readonly string[]
}

export function tallyArrival(steps: readonly ArrivalStep[], findings: readonly ArrivalFinding[]): ArrivalTally {
  const latest = new Map(findings.map((finding) => [finding.step, finding]))
  const found = steps.flatMap(({ id }) => latest.get(id) ?? [])
  return {
    done: found.filter(({ finding }) => finding !== 'not-done').length,
    of: steps.length,
    differs: found.filter(({ finding }) => finding === 'differs').map(({ step }) => step),
  }
}
