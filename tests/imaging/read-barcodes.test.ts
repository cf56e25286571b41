/** Barcodes against ZXing's own test pictures (Apache-2.0), and pictures without any, upright and turned. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, expect, it } from 'vitest'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import type { ReadBarcodes } from '../../src/imaging/examine-photo.ts'
import type { Pixels } from '../../src/imaging/pixels.ts'
import { createBarcodeReader } from '../../src/imaging/read-barcodes-node.ts'
import { describeWithReferences, readReference } from '../published-references.ts'

interface Case {
  readonly file: string
  readonly format: string
  readonly text: string
}

/** Turned by a quarter, clockwise. */
function turn({ width, height, data }: Pixels): Pixels {
  const from = new Uint32Array(data.buffer, data.byteOffset, width * height)
  const to = new Uint32Array(width * height)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) to[x * height + height - 1 - y] = from[y * width + x]!
  return { width: height, height: width, data: new Uint8ClampedArray(to.buffer) }
}

const plain = (format: string) => format.replace(/[-_ ]/g, '').toLowerCase()

describeWithReferences('barcodes against zxing/zxing 7f12980 and zxing-cpp 77dceca', (folder) => {
  let read: ReadBarcodes
  beforeAll(async () => {
    read = await createBarcodeReader()
  })

  it.each(readReference<Case[]>(folder, 'barcodes/cases.json'))('$file', async ({ file, format, text }) => {
    const upright = await decodeInNode(readFileSync(join(folder, 'barcodes', file)))
    for (const pixels of [upright, turn(turn(upright))]) {
      const found = await read(pixels)
      expect(found.map((code) => [plain(code.format), code.text])).toContainEqual([plain(format), text])
    }
  })

  const negatives = readdirSync(join(folder, 'barcodes/negatives'))
  it.each(negatives)('finds nothing on %s', async (file) => {
    let pixels = await decodeInNode(readFileSync(join(folder, 'barcodes/negatives', file)))
    for (let quarter = 0; quarter < 4; quarter++) {
      expect(await read(pixels)).toEqual([])
      pixels = turn(pixels)
    }
  })
})

it('is handed a picture without a code and finds none', async () => {
  const read = await createBarcodeReader()
  expect(await read({ width: 40, height: 40, data: new Uint8ClampedArray(6400).fill(200) })).toEqual([])
})
