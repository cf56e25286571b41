/**
 * Why nothing can be told: a code and figures for whoever says it in another language, and the English sentence made of them.
 * Every such answer of the measuring is made here, so that no sentence lacks its code.
 */
import type { CannotTellCause } from '../domain/exemplar.ts'

const SENTENCES = {
  'too-coarse': 'the photo has {scale} px/mm here; {needed} are needed',
  'exemplar-too-coarse': 'the exemplar has {scale} px/mm here; {needed} are needed',
  blurred: 'the photo is blurred over {blur} mm; {most} mm can be borne',
  'exemplar-blurred': 'the exemplar is blurred over {blur} mm; {most} mm can be borne',
  'border-outside': 'the border lies outside the photo',
  'cut-edge-unclear': 'the cut edge does not stand out from the background',
  'inner-edge-unclear': 'the border’s inner edge is not clear',
  'edges-broken': 'the border’s edges are broken or covered',
  'light-too-far': 'the light is too far from the exemplar’s to be balanced out',
  'blur-wider-than-region': 'the blur is wider than the region',
  'region-too-small': 'the region covers only {across} × {down} px',
  'region-outside': 'the region lies outside the photo',
  'burnt-out': 'glare or overexposure burns the region out',
  'too-dark': 'the region is too dark',
  'no-card': 'no card could be found; give its four corners',
  'corners-no-card': 'the four corners make no card',
  'other-design': 'the photo does not show this side of the exemplar’s issue',
  mirrored: 'the photo is mirrored',
  'outline-not-cut-edge': 'the outline found is not the card’s cut edge; give its four corners',
  'edge-unclear': 'no single clear edge stands there',
  'stroke-unclear': 'no single clear stroke stands there',
  'corner-unclear': 'no clear corner between two straight edges stands there',
  'seam-not-separable': 'the two inks are too alike in colour for a seam to be told',
  'no-counter': 'the exemplar shows no closed counter there',
  'counters-run-together': 'at this sharpness the exemplar’s own counters would run together',
  'ink-too-faint': 'ink and ground differ too little',
  'mark-too-faint': 'the exemplar’s mark is too faint to be looked for',
  'sharpness-unknown': 'no clear edge in the photo tells how sharp it is',
  'colour-not-balanced': 'no neutral surface in the frame balances the colour of the light',
  'for-the-person': 'a person has to judge this',
  'side-not-shown': 'no photo shows this side',
  'exemplar-unusable': 'the exemplar has no usable picture',
} as const

export type CannotTellCode = keyof typeof SENTENCES
export const CANNOT_TELL_CODES = Object.keys(SENTENCES) as readonly CannotTellCode[]

export interface CannotTell {
  readonly reason: string
  readonly cause: CannotTellCause
}

/** @param figures as they are to be read, already rounded. */
export function cannotTell(code: CannotTellCode, figures: Readonly<Record<string, string>> = {}): CannotTell {
  const reason = SENTENCES[code].replace(/\{(\w+)\}/g, (_, name: string) => figures[name] ?? '?')
  return { reason, cause: { code, figures, on: null } }
}

const PLACES = {
  exemplar: 'on the exemplar ',
  neutral: 'the neutral place: ',
  reference: 'the reference edge: ',
  other: 'the second place: ',
} as const

/** The same, where it is not the questioned place of the photo that it was said of. */
export function cannotTellOn(on: keyof typeof PLACES, { reason, cause }: CannotTell): CannotTell {
  return { reason: PLACES[on] + reason, cause: { ...cause, on } }
}
