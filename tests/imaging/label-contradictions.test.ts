/** From the pixels of a label to the concerns: what the label and the code say against what the listing's words say. */
import { beforeAll, describe, expect, it } from 'vitest'
import { inspect } from '../../src/domain/inspect.ts'
import type { PhotoFacts } from '../../src/domain/photo-facts.ts'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { examinePhoto } from '../../src/imaging/examine-photo.ts'
import { createLabelReaderInNode } from '../../src/imaging/label/label-reader-node.ts'
import { createBarcodeReader } from '../../src/imaging/read-barcodes-node.ts'
import { drawLabel, type LabelTruth } from '../bench/label-scenes/draw-label.ts'
import { photographLabel } from '../bench/label-scenes/photograph-label.ts'
import { loadPacks } from '../unit/rules/load-packs.ts'
import { BOOK, ENCAPSULATED, FACTS } from '../unit/rules/sample-facts.ts'

const SHOT = { widthPx: 700, blurPx: 0.6, jpeg: 85, turnDegrees: 1, tilt: 0, frame: 'holder' } as const
const packs = loadPacks()

/** The first label of that layout by that company. */
function findLabel(layout: string, company: string | null) {
  for (let seed = 1; ; seed++) {
    const label = drawLabel(seed, 'validation')
    if (label.style === `${layout}, plain` && (company === null || label.truth.grader === company)) return label
  }
}

async function examine(label: ReturnType<typeof drawLabel>): Promise<PhotoFacts> {
  const { bytes } = await photographLabel(label.canvas, { ...SHOT, seed: 3 })
  const options = {
    decode: decodeInNode,
    readBarcodes: await createBarcodeReader(),
    readLabel: createLabelReaderInNode(),
  }
  return examinePhoto(bytes, { file: ENCAPSULATED.photos[0]!.url, ...options })
}

function concernsOf(facts: PhotoFacts, truth: LabelTruth, said: Partial<LabelTruth>): string[] {
  const { year, grader, grade, certificate } = { ...truth, grader: 'KVX', ...said }
  const title = `${year} Skerryball Stars Odo Marrable ${grader} ${grade} cert ${certificate}`
  const listing = { ...ENCAPSULATED, title, specifics: {}, description: null }
  return inspect({ ...FACTS, listing, photos: [facts] }, BOOK, packs)
    .concerns.map(({ rule }) => rule)
    .filter((rule) => /^label-.*contradiction|^barcode/.test(rule))
}

describe('a label that was read', () => {
  const label = findLabel('number-below', 'KVX')
  let facts: PhotoFacts
  beforeAll(async () => {
    facts = await examine(label)
  }, 120_000)

  it('contradicts nothing that is so', () => expect(concernsOf(facts, label.truth, {})).toEqual([]))

  it.each([
    ['grade', { grade: '1.5' }, 'label-grade-contradiction'],
    ['certificate', { certificate: '99999999' }, 'label-certificate-contradiction'],
    ['grader', { grader: 'OLQ' }, 'label-grader-contradiction'],
    ['year', { year: '1985' }, 'label-year-contradiction'],
  ] as const)('contradicts another %s', (_, said, rule) => {
    expect(concernsOf(facts, label.truth, said)).toEqual([rule])
  })
})

describe('a code beside the label', () => {
  const label = findLabel('code-right', null)
  let facts: PhotoFacts
  beforeAll(async () => {
    facts = await examine(label)
  }, 120_000)

  it('carries the certificate number of the label', () => {
    expect(facts.barcodes.map(({ text }) => text)).toEqual([label.truth.certificate])
    expect(facts.label?.certificate).toBe(label.truth.certificate)
  })

  it('is held against the number in the words where it is a number', () => {
    expect(concernsOf(facts, label.truth, {})).toEqual([])
    // Beside what the label says the code says nothing more; alone it does.
    const code = { ...facts.barcodes[0]!, text: '40028817' }
    const codeAlone = { ...facts, label: null, barcodes: [code] }
    expect(concernsOf(codeAlone, label.truth, { certificate: '40028817' })).toEqual([])
    expect(concernsOf(codeAlone, label.truth, { certificate: '99999999' })).toEqual(['barcode-contradiction'])
  })
})
