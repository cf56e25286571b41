/** The fingerprint against the vectors that the algorithm's publisher ships, at the publisher's own tolerances. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { type Fingerprint, fingerprint, hammingDistance } from '../../src/imaging/pdq.ts'
import { toGrey } from '../../src/imaging/pixels.ts'
import { describeWithReferences, readReference } from '../published-references.ts'

interface Vector {
  readonly file: string
  readonly hash: string
  readonly cpp_hash?: string
  readonly quality?: number
}

async function fingerprintOf(path: string): Promise<Fingerprint> {
  return fingerprint(toGrey(await decodeInNode(readFileSync(path))))
}

describeWithReferences('PDQ against facebook/ThreatExchange baefb4e, pdq/vectors.json', (folder) => {
  const vectors = readReference<Vector[]>(folder, 'pdq/vectors.json')

  it.each(vectors)('$file', async ({ file, hash, cpp_hash, quality }) => {
    const ours = await fingerprintOf(join(folder, 'pdq', file))
    const nearest = Math.min(...[hash, cpp_hash ?? hash].map((published) => hammingDistance(ours.hash, published)))
    expect(nearest).toBeLessThanOrEqual((quality ?? 100) >= 80 ? 10 : 16)
    expect(hammingDistance(ours.hash, hash)).toBeLessThanOrEqual(16)
    // Upstream drops hashes of quality 49 and below; ours has to fall on the same side.
    if (quality !== undefined) expect(ours.quality <= 49).toBe(quality <= 49)
  })

  it('keeps turned and mirrored pictures apart and resized ones together', async () => {
    const bridges = vectors.filter(({ file }) => /bridge-[1-7]/.test(file))
    expect(bridges.length).toBe(7)
    const [original, ...turned] = await Promise.all(bridges.map(({ file }) => fingerprintOf(join(folder, 'pdq', file))))
    for (const other of turned) expect(hammingDistance(original!.hash, other.hash)).toBeGreaterThan(100)
    for (const name of ['square-512x512', 'square-256x256', 'square-128x128', 'shrink-a-lot']) {
      const resized = await fingerprintOf(join(folder, `pdq/images/${name}.jpg`))
      expect(hammingDistance(original!.hash, resized.hash), name).toBeLessThanOrEqual(16)
    }
  })
})

it('counts differing bits', () => {
  expect(hammingDistance('0f', 'f0')).toBe(8)
  expect(hammingDistance('ab', 'ab')).toBe(0)
})
