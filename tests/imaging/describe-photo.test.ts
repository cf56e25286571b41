/** Turned and mirrored fingerprints against the publisher's own turned pictures; borders and windows against what was cut. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { describePhoto, findEvenBorder } from '../../src/imaging/fingerprints/describe-photo.ts'
import { fingerprint, fingerprintTurns, hammingDistance } from '../../src/imaging/pdq.ts'
import { type Grey, toGrey } from '../../src/imaging/pixels.ts'
import { describeWithReferences } from '../published-references.ts'

// As the publisher names them.
const FILES = ['1-original', '2-rotate-90', '3-rotate-180', '4-rotate-270', '5-flipx', '6-flipy', '7-flip-plus-1']

describeWithReferences('turned pictures of facebook/ThreatExchange baefb4e, bridge-1 to bridge-7', (folder) => {
  it('each is found by one turn of the first, and by no other', async () => {
    const read = async (file: string) =>
      toGrey(await decodeInNode(readFileSync(join(folder, `pdq/images/bridge-${file}.jpg`))))
    const [first, ...others] = FILES
    const { turns } = fingerprintTurns(await read(first!))
    const found: string[] = []
    for (const file of others) {
      const { hash } = fingerprint(await read(file))
      const near = Object.entries(turns).filter(([, turned]) => hammingDistance(hash, turned) <= 31)
      expect(near.length, file).toBe(1)
      found.push(near[0]![0])
    }
    expect(new Set(found).size).toBe(6)
  })
})

function pattern(width: number, height: number): Grey {
  const data = Float32Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [(i % width) / width, Math.floor(i / width) / height]
    return 128 + 60 * Math.sin(17 * x + 9 * y * y) + 50 * Math.cos(23 * y + 11 * x * y)
  })
  return { width, height, data }
}

function framed(grey: Grey, by: number, level: number): Grey {
  const [width, height] = [grey.width + 2 * by, grey.height + 2 * by]
  const data = new Float32Array(width * height).fill(level)
  for (let y = 0; y < grey.height; y++)
    data.set(grey.data.subarray(y * grey.width, (y + 1) * grey.width), (y + by) * width + by)
  return { width, height, data }
}

it('sees through an even frame', () => {
  const photo = pattern(300, 400)
  const { trimmed } = describePhoto(framed(photo, 30, 255))
  expect(hammingDistance(trimmed!.hash, fingerprint(photo).hash)).toBeLessThanOrEqual(10)
  expect(findEvenBorder(photo)).toBeNull()
})
