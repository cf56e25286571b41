/** What a match of fingerprints says about how one photo lies on the other. */
import type { PrintKind, PrintMatch } from '../../domain/fingerprints/find-alike.ts'
import type { PhotoPrints } from '../../domain/photo-facts.ts'
import { TURNS } from '../pdq.ts'
import { WHOLE, WINDOWS, type Window } from './describe-photo.ts'
import type { Hint } from './same-photo.ts'

type Prints = PhotoPrints | null | undefined

export function hintOfMatch(match: PrintMatch, here: Prints, there: Prints): Hint {
  return {
    turn: TURNS[match.turn] ?? 'upright',
    here: windowOf(match.here, here),
    there: windowOf(match.there, there),
  }
}

function windowOf(kind: PrintKind, prints: Prints): Window {
  if (kind === 'whole') return WHOLE
  if (kind === 'trimmed') return prints?.trimmed ?? WHOLE
  return WINDOWS[Number(kind.slice(-1))] ?? WHOLE
}
