/** Exemplar files: round trip, and files that must be refused with a reason. */
import { strToU8, zipSync } from 'fflate'
import { expect, it } from 'vitest'
import type { Exemplar } from '../../src/domain/exemplar.ts'
import { readExemplarFile, writeExemplarFile } from '../../src/imaging/exemplar-file.ts'

const EXEMPLAR: Exemplar = {
  schemaVersion: 2,
  id: 'ships-7',
  title: 'Harbour Ships of the Cold Coast 1931, 7 Grey Petrel',
  provenance: 'bought from the maker’s heirs',
  author: 'A. Collector',
  licence: 'CC-BY-4.0',
  nominalSize: { widthMm: 36.5, heightMm: 66.7 },
  pieces: [{ id: 'heirs', name: 'The heirs’ card', provenance: 'bought from the maker’s heirs' }],
  copies: [{ id: 'scan', name: 'Re-screened scan', description: 'printed from a scan' }],
  pictures: [
    {
      file: 'front.png',
      piece: 'heirs',
      greyCard: null,
      side: 'front',
      corners: [
        [1, 2],
        [30, 2],
        [30, 60],
        [1, 60],
      ],
    },
  ],
  points: [],
}
const PICTURE = Uint8Array.of(1, 2, 3, 4)
const zip = (files: Record<string, unknown>) =>
  zipSync(
    Object.fromEntries(
      Object.entries(files).map(([name, value]) => [
        name,
        value instanceof Uint8Array ? value : strToU8(typeof value === 'string' ? value : JSON.stringify(value)),
      ]),
    ),
  )

it('comes back as it was written', () => {
  const file = { exemplar: EXEMPLAR, pictures: new Map([['front.png', PICTURE]]) }
  const read = readExemplarFile(writeExemplarFile(file))
  expect(read).toEqual(file)
})

it.each<[string, Uint8Array, RegExp]>([
  ['no zip', strToU8('hello'), /no zip file/],
  ['an empty file', new Uint8Array(0), /no zip file/],
  ['a zip cut short', writeExemplarFile({ exemplar: EXEMPLAR, pictures: new Map() }).slice(0, 60), /no zip file/],
  ['no description', zip({ 'front.png': PICTURE }), /holds no exemplar.json/],
  ['a description that is no JSON', zip({ 'exemplar.json': '{' }), /not JSON/],
  ['a later schema', zip({ 'exemplar.json': { ...EXEMPLAR, schemaVersion: 3 } }), /schemaVersion/],
  ['an unknown key', zip({ 'exemplar.json': { ...EXEMPLAR, colour: 'red' } }), /colour/],
  [
    'a picture in another folder',
    zip({ 'exemplar.json': { ...EXEMPLAR, pictures: [{ ...EXEMPLAR.pictures[0], file: '../x.png' }] } }),
    /pictures\.0\.file/,
  ],
  ['a missing picture', zip({ 'exemplar.json': EXEMPLAR }), /front.png is missing/],
  [
    'too many files',
    zip({ 'exemplar.json': EXEMPLAR, ...Object.fromEntries(Array.from({ length: 300 }, (_, i) => [`f${i}`, 'x'])) }),
    /more than 200 files/,
  ],
  ['a bomb', zip({ 'exemplar.json': EXEMPLAR, 'front.png': new Uint8Array(257 * 2 ** 20) }), /more than 256 MB/],
])('refuses %s', (_, bytes, fault) => {
  const read = readExemplarFile(bytes)
  expect('fault' in read ? read.fault : 'read').toMatch(fault)
})

const VERSION_1 = {
  schemaVersion: 1,
  id: 'ships-7',
  title: 'Harbour Ships 7',
  provenance: 'from the heirs',
  author: 'A. Collector',
  licence: 'CC-BY-4.0',
  nominalSize: { widthMm: 36.5, heightMm: 66.7 },
  pictures: [{ file: 'front.png', side: 'front', corners: null }],
  points: [
    {
      kind: 'border-width',
      id: 'left',
      name: 'Left',
      why: 'trimming',
      side: 'front',
      edge: 'left',
      region: { x: 1, y: 10, width: 2, height: 20 },
      needsPxPerMm: null,
      tolerance: null,
    },
  ],
}

it('reads version 1 as one piece without known copies', () => {
  const read = readExemplarFile(zip({ 'exemplar.json': VERSION_1, 'front.png': PICTURE }))
  expect(read).toMatchObject({
    exemplar: {
      schemaVersion: 2,
      pieces: [{ id: 'piece-1', provenance: 'from the heirs' }],
      copies: [],
      pictures: [{ piece: 'piece-1', greyCard: null }],
      points: [{ kind: 'border-width', opposite: null, copies: {} }],
    },
  })
})

it.each<[string, object, RegExp]>([
  ['a picture of a piece that is not named', { pieces: [{ id: 'b', name: 'b', provenance: '' }] }, /"heirs"/],
  [
    'a point that names an undescribed make of copy',
    {
      points: [
        {
          kind: 'judged',
          id: 'eye',
          name: 'Eye',
          why: '',
          copiesDo: '',
          side: 'front',
          region: { x: 1, y: 1, width: 2, height: 2 },
          needsPxPerMm: null,
          tolerance: null,
          copies: { 'ink-jet': 'fails' },
          question: 'Is the eye painted?',
        },
      ],
    },
    /"ink-jet"/,
  ],
])('refuses %s', (_, change, fault) => {
  const read = readExemplarFile(zip({ 'exemplar.json': { ...EXEMPLAR, ...change }, 'front.png': PICTURE }))
  expect('fault' in read ? read.fault : 'read').toMatch(fault)
})
