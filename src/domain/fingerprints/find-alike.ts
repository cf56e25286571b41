/**
 * Which kept photos may be the one in hand: through the fingerprints of the whole, turned, cropped and without a border. Candidates
 * only: a near fingerprint knows the design, not the copy.
 */
import type { PhotoFacts, PhotoPrints } from '../photo-facts.ts'
import { createFingerprintIndex, type FingerprintIndex, parseFingerprint } from './fingerprint-index.ts'

/** What a stored fingerprint is of: the whole photo, one of the four windows, or what lies inside an even border. */
export const PRINT_KINDS = ['whole', 'window-0', 'window-1', 'window-2', 'window-3', 'trimmed'] as const
export type PrintKind = (typeof PRINT_KINDS)[number]

export interface PrintMatch {
  /** Differing bits, 0–256. */
  readonly distance: number
  /** 0: not turned; else the place among `PhotoPrints.turns`, plus 1, of the turn that makes the photo in hand like the kept one. */
  readonly turn: number
  readonly here: PrintKind
  readonly there: PrintKind
}

// Bits: up to here the photo itself, saved again, shrunk or marked, was always found (measured: at most 30).
export const NEAR_WITHIN = 31
// Bits: a window may lie 2.5 % beside the crop. Unrelated photos were never nearer than 86 (1,770 pairs).
export const WINDOW_WITHIN = 76
// Photos without structure have fingerprints that say nothing; the algorithm's publishers drop those of this quality and below.
export const WORTHLESS_QUALITY = 49

type Fingerprinted = Pick<PhotoFacts, 'pdq' | 'pdqQuality' | 'prints'>

/** The fingerprints of a photo that are stored, by kind; none for a photo without structure. */
export function storedPrints(facts: Fingerprinted): { kind: PrintKind; words: Uint32Array }[] {
  if (facts.pdq === null || (facts.pdqQuality ?? 0) <= WORTHLESS_QUALITY) return []
  const hashes: [PrintKind, string | undefined][] = [
    ['whole', facts.pdq],
    ...(facts.prints?.windows ?? [])
      .slice(0, 4)
      .map((hash, i): [PrintKind, string] => [`window-${i}` as PrintKind, hash]),
    ['trimmed', facts.prints?.trimmed?.hash],
  ]
  return hashes.flatMap(([kind, hash]) => {
    const words = hash === undefined ? null : parseFingerprint(hash)
    return words === null ? [] : [{ kind, words }]
  })
}

export interface AlikeIndex<Owner> {
  /** Fingerprints held. */
  readonly size: number
  add(owner: Owner, prints: readonly { kind: PrintKind; words: Uint32Array }[]): void
  /** Owners whose photos may be this one, nearest first, each once with its nearest match. */
  find(facts: Fingerprinted): { readonly owner: Owner; readonly match: PrintMatch }[]
}

export function createAlikeIndex<Owner>(index: FingerprintIndex = createFingerprintIndex()): AlikeIndex<Owner> {
  const owners: Owner[] = []
  const ownerOf: number[] = []
  const kindOf: PrintKind[] = []

  return {
    get size() {
      return index.size
    },
    add(owner, prints) {
      owners.push(owner)
      for (const { kind, words } of prints) {
        index.add(words)
        ownerOf.push(owners.length - 1)
        kindOf.push(kind)
      }
    },
    find(facts) {
      const best = new Map<number, PrintMatch>()
      const look = (
        hash: string,
        turn: number,
        here: PrintKind,
        within: number,
        among: (there: PrintKind) => boolean,
      ) => {
        const words = parseFingerprint(hash)
        if (words === null) return
        for (const { entry, distance } of index.search(words, within)) {
          const there = kindOf[entry]!
          const before = best.get(ownerOf[entry]!)
          if (!among(there) || (before !== undefined && before.distance <= distance)) continue
          best.set(ownerOf[entry]!, { distance, turn, here, there })
        }
      }
      for (const { hash, turn, here } of questions(facts)) {
        const window = here.startsWith('window')
        // A window of the one beside a window of the other shows nothing that the wholes do not.
        look(
          hash,
          turn,
          here,
          turn === 0 ? WINDOW_WITHIN : NEAR_WITHIN,
          (there) => !window || !there.startsWith('window'),
        )
      }
      return [...best]
        .map(([at, match]) => ({ owner: owners[at]!, match }))
        .sort((a, b) => a.match.distance - b.match.distance)
    },
  }
}

function questions({ pdq, pdqQuality, prints }: Fingerprinted): { hash: string; turn: number; here: PrintKind }[] {
  if (pdq === null || (pdqQuality ?? 0) <= WORTHLESS_QUALITY) return []
  const { windows = [], turns = [], trimmed = null } = (prints ?? {}) as Partial<PhotoPrints>
  return [
    { hash: pdq, turn: 0, here: 'whole' as const },
    ...(trimmed === null ? [] : [{ hash: trimmed.hash, turn: 0, here: 'trimmed' as const }]),
    ...windows.slice(0, 4).map((hash, i) => ({ hash, turn: 0, here: `window-${i}` as PrintKind })),
    ...turns.map((hash, i) => ({ hash, turn: i + 1, here: 'whole' as const })),
  ]
}
