/**
 * Exact search among photo fingerprints of 256 bits: every one whose Hamming distance is small enough is found, none is missed.
 * Plain typed arrays, so that a million cost 32 MB and a few milliseconds. Knows nothing of photos or dossiers.
 */

/** 32-bit words of a fingerprint. */
export const WORDS = 8

export interface FingerprintHit {
  /** Number of the entry, in the order of adding. */
  readonly entry: number
  /** Differing bits, 0–256. */
  readonly distance: number
}

export interface FingerprintIndex {
  readonly size: number
  /** @param words eight for each fingerprint, one after the other. */
  add(words: Uint32Array): void
  /** Nearest first. @param within differing bits that still count */
  search(words: Uint32Array, within: number): FingerprintHit[]
}

/** 64 hex digits to eight words. `null` for anything else. */
export function parseFingerprint(hex: string): Uint32Array | null {
  if (!/^[0-9a-f]{64}$/i.test(hex)) return null
  return Uint32Array.from({ length: WORDS }, (_, i) => Number.parseInt(hex.slice(i * 8, i * 8 + 8), 16))
}

export function createFingerprintIndex(capacity = 1024): FingerprintIndex {
  let size = 0
  let rows = new Uint32Array(capacity * WORDS)

  return {
    get size() {
      return size
    },
    add(words) {
      const count = words.length / WORDS
      if ((size + count) * WORDS > rows.length) {
        const room = new Uint32Array(Math.max((size + count) * WORDS, rows.length * 2))
        room.set(rows.subarray(0, size * WORDS))
        rows = room
      }
      rows.set(words, size * WORDS)
      size += count
    },
    search(words, within) {
      const [a, b, c, d, e, f, g, h] = words as unknown as [
        number,
        number,
        number,
        number,
        number,
        number,
        number,
        number,
      ]
      const hits: FingerprintHit[] = []
      const end = size * WORDS
      for (let at = 0; at < end; at += WORDS) {
        // Carry-save adders (Warren, figure 5–8) turn seven words into one of ones, one of twos and one of fours, so that three are
        // counted instead of seven. Unrelated photos differ in about 112 of these 224 bits: the eighth word is seldom needed.
        const t = (rows[at] as number) ^ a
        const u = (rows[at + 1] as number) ^ b
        const v = (rows[at + 2] as number) ^ c
        const w = (rows[at + 3] as number) ^ d
        const x = (rows[at + 4] as number) ^ e
        const y = (rows[at + 5] as number) ^ f
        const z = (rows[at + 6] as number) ^ g
        const tu = t ^ u
        const ones1 = tu ^ v
        const twos1 = (t & u) | (tu & v)
        const wx = w ^ x
        const ones2 = ones1 ^ wx
        const twos2 = (w & x) | (wx & ones1)
        const yz = y ^ z
        const ones = ones2 ^ yz
        const twos3 = (y & z) | (yz & ones2)
        const both = twos1 ^ twos2
        const twos = both ^ twos3
        const fours = (twos1 & twos2) | (both & twos3)
        const near = countBits(ones) + 2 * countBits(twos) + 4 * countBits(fours)
        if (near > within) continue
        const distance = near + countBits((rows[at + 7] as number) ^ h)
        if (distance <= within) hits.push({ entry: at / WORDS, distance })
      }
      return hits.sort((p, q) => p.distance - q.distance || p.entry - q.entry)
    },
  }
}

/** H. Warren, Hacker's Delight (2nd edition), figure 5–2. */
function countBits(word: number): number {
  let n = word - ((word >>> 1) & 0x55555555)
  n = (n & 0x33333333) + ((n >>> 2) & 0x33333333)
  return Math.imul((n + (n >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
}
