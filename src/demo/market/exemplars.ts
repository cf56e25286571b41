/**
 * The buyer's own pictures of known-genuine cards, as exemplars to hold a listing's photos against. Not on any page; the
 * photo host serves them, and their truth is known like that of every drawn photo.
 */
import type { Shot } from '../drawing/shot.ts'
import { card, photoSet } from './photo-set.ts'

const GENUINE = card('skerryball-stars', '17', 'Odo Marrable', { seed: 4120, wear: 0.18 })

/** Scanned square-on, so that borders and tints can be measured. */
export const EXEMPLARS: readonly { readonly file: string; readonly shot: Shot }[] = photoSet({
  id: 'exemplar-skerryball-stars-17',
  card: GENUINE,
  views: ['front', 'back', 'macro-print'],
  background: 'scanner',
  seed: 90,
  shot: { tilt: 0.1, jpegQuality: 94 },
}).map(({ file, shot }) => ({ file, shot }))
