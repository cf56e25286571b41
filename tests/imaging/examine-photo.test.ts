/** One photo in, facts out: good files of every kind, and files that lie, end early or are something else. */

import { createHash } from 'node:crypto'
import { createCanvas } from '@napi-rs/canvas'
import { describe, expect, it } from 'vitest'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { examinePhoto } from '../../src/imaging/examine-photo.ts'
import { withOrientation } from './scenes/jpeg-bytes.ts'

function picture(width = 700, height = 500) {
  const canvas = createCanvas(width, height)
  const context = canvas.getContext('2d')
  context.fillStyle = '#d8d0c0'
  context.fillRect(0, 0, width, height)
  context.fillStyle = '#203040'
  for (let x = 20; x < width; x += 60) context.fillRect(x, 20, 30, height - 40)
  context.fillStyle = '#b02018'
  context.fillRect(0, 0, width / 2, height / 4)
  return canvas
}

const examine = (bytes: Uint8Array, signal?: AbortSignal) =>
  examinePhoto(bytes, { file: 'photo', decode: decodeInNode, ...(signal ? { signal } : {}) })

describe('pictures', () => {
  it.each([
    ['image/png', picture().toBuffer('image/png')],
    ['image/jpeg', picture().toBuffer('image/jpeg', 85)],
    ['image/webp', picture().toBuffer('image/webp', 85)],
    ['image/avif', picture().toBuffer('image/avif', { quality: 80 })],
    ['image/gif', picture().toBuffer('image/gif')],
  ])('%s', async (mediaType, bytes) => {
    const facts = await examine(bytes)
    expect(facts).toMatchObject({
      examined: true,
      mediaType,
      width: 700,
      height: 500,
      bytes: bytes.length,
      problems: [],
    })
    expect(facts.sha256).toBe(createHash('sha256').update(bytes).digest('hex'))
    expect(facts.pdq).toMatch(/^[0-9a-f]{64}$/)
    expect(facts.jpegQuality).toBe(mediaType === 'image/jpeg' ? 85 : null)
    expect(facts.blurPx).toBeLessThan(1)
    expect(facts.view).toBe('cannot-tell')
  })

  it('sees one picture in two encodings', async () => {
    const [png, jpeg] = await Promise.all([
      examine(picture().toBuffer('image/png')),
      examine(picture().toBuffer('image/jpeg', 60)),
    ])
    expect(png.sha256).not.toBe(jpeg.sha256)
    const { hammingDistance } = await import('../../src/imaging/pdq.ts')
    expect(hammingDistance(png.pdq!, jpeg.pdq!)).toBeLessThanOrEqual(10)
  })
})

describe('EXIF orientation', () => {
  /** Where the stored picture's top left corner comes to lie upright (EXIF 2.3, section 4.6.4.A, Orientation). */
  const CORNER = { 1: [0, 0], 2: [1, 0], 3: [1, 1], 4: [0, 1], 5: [0, 0], 6: [1, 0], 7: [1, 1], 8: [0, 1] } as const
  const stored = createCanvas(80, 40)
  const context = stored.getContext('2d')
  context.fillStyle = 'white'
  context.fillRect(0, 0, 80, 40)
  context.fillStyle = 'black'
  context.fillRect(0, 0, 16, 16)

  it.each(Object.entries(CORNER))('%s', async (orientation, [right, bottom]) => {
    for (const order of ['II', 'MM'] as const) {
      const bytes = withOrientation(stored.toBuffer('image/jpeg', 95), Number(orientation), order)
      const { width, height, data } = await decodeInNode(bytes)
      expect([width, height]).toEqual(Number(orientation) >= 5 ? [40, 80] : [80, 40])
      const levelAt = (x: number, y: number) => data[4 * (y * width + x)]!
      expect(levelAt(right ? width - 6 : 5, bottom ? height - 6 : 5)).toBeLessThan(60)
      expect(levelAt(right ? 5 : width - 6, bottom ? 5 : height - 6)).toBeGreaterThan(200)
    }
  })
})

describe('what cannot be looked at says why, and throws nothing', () => {
  const text = (words: string) => new TextEncoder().encode(words)
  const png = picture().toBuffer('image/png')
  const jpeg = picture().toBuffer('image/jpeg', 90)
  const withSize = (bytes: Buffer, width: number, height: number) => {
    const copy = Buffer.from(bytes)
    copy.writeUInt32BE(width, 16)
    copy.writeUInt32BE(height, 20)
    return copy
  }

  it.each([
    ['an empty file', new Uint8Array(0), 'not-an-image'],
    ['a web page', text('<!DOCTYPE html><title>404</title>'), 'not-an-image'],
    [
      'an SVG with a script',
      text('<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"><script>x()</script></svg>'),
      'not-an-image',
    ],
    ['noise', Uint8Array.from({ length: 4096 }, (_, i) => (i * 73 + 11) % 256), 'not-an-image'],
    ['a PNG cut in its header', png.subarray(0, 18), 'damaged'],
    ['a JPEG cut before its size', jpeg.subarray(0, 30), 'damaged'],
    ['a JPEG that is only a start', Uint8Array.of(0xff, 0xd8, 0xff, 0xe0), 'damaged'],
    ['a PNG that says 20,000 × 20,000', withSize(png, 20000, 20000), 'too-large'],
    ['a PNG that says 4 billion px a side', withSize(png, 0xffffffff, 0xffffffff), 'too-large'],
    ['a PNG that lies about its size', withSize(png, 900, 800), 'damaged'],
    ['a tracking pixel', createCanvas(1, 1).toBuffer('image/png'), 'too-small'],
    ['a 50 MB file that is too large', new Uint8Array(65 * 2 ** 20), 'too-large'],
  ])('%s', async (_, bytes, problem) => {
    const facts = await examine(bytes)
    expect(facts.examined).toBe(false)
    expect(facts.problems.map((p) => p.problem)).toEqual([problem])
    expect(facts.problems[0]?.detail).toMatch(/\w{3}/)
  })

  it('survives a file cut at any place', async () => {
    for (const bytes of [
      jpeg,
      png,
      picture(300, 200).toBuffer('image/webp', 80),
      picture(300, 200).toBuffer('image/avif'),
    ]) {
      for (let i = 1; i < 12; i++) {
        const facts = await examine(bytes.subarray(0, Math.floor((bytes.length * i) / 12)))
        expect(facts.examined || facts.problems.length === 1).toBe(true)
      }
    }
  })

  it('survives a file with any byte turned over', async () => {
    // Small, since each is examined whole; its header is as long as any.
    const small = picture(150, 100).toBuffer('image/jpeg', 80)
    for (let at = 0; at < 400; at += 3) {
      const copy = Buffer.from(small)
      copy[at] = copy[at]! ^ 0xff
      const facts = await examine(copy)
      expect(facts.examined || facts.problems.length === 1).toBe(true)
    }
  })

  it('ends at an abort', async () => {
    const controller = new AbortController()
    controller.abort(new Error('the person closed the panel'))
    await expect(examine(png, controller.signal)).rejects.toThrow('closed the panel')
  })
})

describe('problems', () => {
  it('says that a photo is too small for print', async () => {
    const facts = await examine(picture(300, 400).toBuffer('image/png'))
    expect(facts.examined).toBe(true)
    expect(facts.problems.map((p) => p.problem)).toContain('too-small')
  })

  it('says that a photo is dark, burnt out or heavily compressed', async () => {
    const wash = (level: string) => {
      const canvas = picture()
      const context = canvas.getContext('2d')
      context.fillStyle = level
      context.fillRect(40, 40, 620, 420)
      return canvas
    }
    const dark = picture()
    const context = dark.getContext('2d')
    context.globalAlpha = 0.85
    context.fillStyle = 'black'
    context.fillRect(0, 0, 700, 500)
    expect((await examine(dark.toBuffer('image/png'))).problems.map((p) => p.problem)).toEqual(['dark'])
    expect((await examine(wash('white').toBuffer('image/png'))).problems.map((p) => p.problem)).toEqual(['overexposed'])
    expect((await examine(picture().toBuffer('image/jpeg', 20))).problems.map((p) => p.problem)).toEqual([
      'heavily-compressed',
    ])
  })

  it('does not take a white background for a burnt-out photo', async () => {
    const canvas = createCanvas(900, 900)
    const context = canvas.getContext('2d')
    context.fillStyle = 'white'
    context.fillRect(0, 0, 900, 900)
    context.drawImage(picture(400, 500), 250, 200)
    expect((await examine(canvas.toBuffer('image/png'))).problems).toEqual([])
  })
})
