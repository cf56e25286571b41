/**
 * Is a photo found again after what sellers do to pictures, and are photos of two copies of one design kept apart? Then the speed
 * of the search and of loading it. `PHOTOS=n` photos of each way, `COPIES=n` copies for the pairs.
 */
import { createAlikeIndex, storedPrints } from '../../src/domain/fingerprints/find-alike.ts'
import { createFingerprintIndex } from '../../src/domain/fingerprints/fingerprint-index.ts'
import type { PhotoFacts } from '../../src/domain/photo-facts.ts'
import { describePhoto } from '../../src/imaging/fingerprints/describe-photo.ts'
import { hintOfMatch } from '../../src/imaging/fingerprints/hint-of-match.ts'
import { compareForSamePhoto, type Likeness, preparePhoto } from '../../src/imaging/fingerprints/same-photo.ts'
import { type Grey, type Pixels, toGrey } from '../../src/imaging/pixels.ts'
import { CHANGES, type Change, photographCopy, type Way } from './copies/draw-copy.ts'
import { createDice } from './label-scenes/draw-label.ts'

const PHOTOS = Number(process.env.PHOTOS ?? 12)
const COPIES = Number(process.env.COPIES ?? 145)

type Canvas = ReturnType<typeof photographCopy>
const greyOf = (canvas: Canvas): Grey =>
  toGrey(canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height) as unknown as Pixels)

interface Known {
  readonly grey: Grey
  readonly facts: Pick<PhotoFacts, 'pdq' | 'pdqQuality' | 'prints'>
}

function know(canvas: Canvas): Known {
  const grey = greyOf(canvas)
  const { hash, quality, ...prints } = describePhoto(grey)
  return { grey, facts: { pdq: hash, pdqQuality: quality, prints } }
}

const percent = (part: number, whole: number) => `${((part / whole) * 100).toFixed(1)} %`.padStart(8)

/** The index holds every photo, of every design and both ways; each change of each is looked up in it. */
async function measureRecall(): Promise<void> {
  const originals: { canvas: Canvas; known: Known }[] = []
  for (const way of ['scan', 'snapshot'] as Way[]) {
    for (let n = 0; n < PHOTOS; n++) {
      const canvas = photographCopy(n % 4, 500 + n, way)
      originals.push({ canvas, known: know(canvas) })
    }
  }
  const index = createAlikeIndex<number>()
  originals.forEach(({ known }, i) => {
    index.add(i, storedPrints(known.facts))
  })
  console.log(
    `${originals.length} photos of 4 designs, scans and snapshots; "same" is the claim, "look" leaves it to the person`,
  )
  console.log('change                  said same   look yourself   not found   least texture')
  const perPhoto: number[] = []
  for (const [name, change] of Object.entries(CHANGES) as [Change, (canvas: Canvas, dice: () => number) => Canvas][]) {
    let [same, look] = [0, 0]
    let least = 1
    originals.forEach(({ canvas }, i) => {
      const changed = know(change(canvas, createDice(i + 17)))
      const started = performance.now()
      const found = index.find(changed.facts).find(({ owner }) => owner === i)
      if (found === undefined) return
      const hint = hintOfMatch(found.match, changed.facts.prints, originals[i]!.known.facts.prints)
      const likeness = compareForSamePhoto(
        preparePhoto(changed.grey, hint.turn),
        preparePhoto(originals[i]!.known.grey),
        hint,
      )
      perPhoto.push(performance.now() - started)
      if (likeness.same) same++
      else look++
      least = Math.min(least, likeness.texture ?? 0)
    })
    const all = originals.length
    console.log(
      `${name.padEnd(22)} ${percent(same, all)} ${percent(look, all).padStart(15)} ${percent(all - same - look, all).padStart(11)} ${least.toFixed(2).padStart(14)}`,
    )
  }
  perPhoto.sort((a, b) => a - b)
  console.log(`looking one up and comparing it: ${perPhoto[perPhoto.length >> 1]!.toFixed(0)} ms`)
}

/** Every pair of two copies of one design, taken the same way. */
function measureFalseMatches(way: Way, design: number): void {
  const copies = Array.from({ length: COPIES }, (_, i) => {
    const { grey, facts } = know(photographCopy(design, i, way))
    return { facts, prepared: preparePhoto(grey) }
  })
  let [pairs, near, wrong] = [0, 0, 0]
  let worst: Likeness | null = null
  for (let i = 0; i < copies.length; i++) {
    const index = createAlikeIndex<number>()
    index.add(i, storedPrints(copies[i]!.facts))
    for (let j = i + 1; j < copies.length; j++) {
      pairs++
      const [found] = index.find(copies[j]!.facts)
      if (found === undefined || found.match.turn !== 0) continue
      near++
      const hint = hintOfMatch(found.match, copies[j]!.facts.prints, copies[i]!.facts.prints)
      const likeness = compareForSamePhoto(copies[j]!.prepared, copies[i]!.prepared, hint)
      if (likeness.same) wrong++
      if ((likeness.texture ?? 0) > (worst?.texture ?? 0)) worst = likeness
    }
  }
  console.log(
    `${way.padEnd(9)} ${String(pairs).padStart(6)} pairs of different copies: ${near} with near fingerprints, ${wrong} called the same photo; highest texture ${worst?.texture?.toFixed(2) ?? '–'}`,
  )
}

function measureSearch(): void {
  const count = 1_000_000
  const dice = createDice(1)
  const words = Uint32Array.from({ length: count * 8 }, () => dice() * 2 ** 32)
  const index = createFingerprintIndex(count)
  index.add(words)
  for (const within of [31, 76]) {
    const times: number[] = []
    for (let i = 0; i < 25; i++) {
      const question = words.slice(i * 8000, i * 8000 + 8)
      question[0]! ^= 0x1f
      const started = performance.now()
      const hits = index.search(question, within)
      times.push(performance.now() - started)
      if (hits[0]?.entry !== i * 1000 || hits[0].distance !== 5) throw new Error('the search missed a fingerprint')
    }
    times.sort((a, b) => a - b)
    console.log(
      `search among ${count.toLocaleString('en')} within ${within} bits: ${times[12]!.toFixed(1)} ms (best ${times[0]!.toFixed(1)})`,
    )
  }
}

measureSearch()
await measureRecall()
measureFalseMatches('scan', 1)
measureFalseMatches('snapshot', 2)
