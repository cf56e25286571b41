/** Photos of a folder beside a listing: matched by file name, the rest additional, what is no photo left alone. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createCanvas } from '@napi-rs/canvas'
import { afterAll, expect, it } from 'vitest'
import { fileNameOf, loadPhotos } from '../../../src/cli/load-photos.ts'
import type { Listing } from '../../../src/domain/listing.ts'

const folder = mkdtempSync(join(tmpdir(), 'touchstone-photos-'))
afterAll(() => rmSync(folder, { recursive: true }))
const png = createCanvas(500, 700).toBuffer('image/png')
for (const name of ['Back.JPG', 'front 1.png', 'corner10.png', 'corner9.png']) writeFileSync(join(folder, name), png)
writeFileSync(join(folder, 'broken.jpg'), 'not a picture')
writeFileSync(join(folder, 'notes.txt'), 'not a photo')

const photos = [
  { url: 'https://images.quayside.example/7/front%201.png?w=1600#x', alt: null },
  { url: 'https://images.quayside.example/7/missing.jpg', alt: null },
  { url: 'https://images.quayside.example/7/back.jpg', alt: 'Back' },
]

it('names matched photos by the listing’s URLs in its order, then the others by file name in natural order', async () => {
  const facts = await loadPhotos(folder, { photos } as unknown as Listing)
  expect(facts.map(({ file, examined }) => [file, examined])).toEqual([
    [photos[0]!.url, true],
    [photos[2]!.url, true],
    ['broken.jpg', false],
    ['corner9.png', true],
    ['corner10.png', true],
  ])
  expect(facts[2]!.problems[0]!.problem).toBe('not-an-image')
})

it('looks at nothing where no folder was given', async () => {
  expect(await loadPhotos(null, { photos } as unknown as Listing)).toEqual([])
})

it.each([
  ['https://x.example/a/b.jpg', 'b.jpg'],
  ['page_files/b%20c.png', 'b c.png'],
  ['https://x.example/a/%E0%A4%A', '%E0%A4%A'],
  ['https://x.example/', ''],
])('%s is saved as %s', (url, name) => {
  expect(fileNameOf(url)).toBe(name)
})
