/**
 * Does an evidence bag of 200 MB stream? Photos of noise, written to a file and verified from it, with the memory that the process took at
 * most. MEGABYTES sets how large (200).
 */
import { openAsBlob, rmSync, statSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import enTexts from '../../assets/_locales/en/bag.json' with { type: 'json' }
import { createNodeHasher } from '../../src/cli/bag-sources.ts'
import type { Dossier } from '../../src/domain/dossier.ts'
import { createTranslate } from '../../src/domain/translate.ts'
import { bagDossier } from '../../src/storage/bag/dossier-bag.ts'
import { verifyBag } from '../../src/storage/bag/verify-bag.ts'
import { openZipSource } from '../../src/storage/bag/zip-source.ts'
import { digest } from '../../src/storage/digest.ts'
import { sampleDraft } from '../storage/sample-dossier.ts'

const MEGABYTES = Number(process.env.MEGABYTES ?? 200)
const PHOTO_BYTES = 4_000_000
const COUNT = Math.ceil((MEGABYTES * 1e6) / PHOTO_BYTES)

/** Each photo is made when it is asked for, as a database gives it. */
function noise(seed: number): Uint8Array<ArrayBuffer> {
  const words = new Uint32Array(PHOTO_BYTES / 4)
  let state = seed + 1
  for (let at = 0; at < words.length; at++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    words[at] = state
  }
  const bytes = new Uint8Array(words.buffer)
  bytes.set([0xff, 0xd8, 0xff])
  return bytes
}

const seedOf = new Map<string, number>()
for (let seed = 0; seed < COUNT; seed++) seedOf.set(await digest('SHA-256', noise(seed)), seed)
const { photos: _photos, screenshot: _screenshot, ...draft } = sampleDraft()
const at = '2026-11-18T12:00:00.000Z'
const dossier: Dossier = {
  ...draft,
  id: 'bench',
  revision: 1,
  createdAt: at,
  updatedAt: at,
  deletedAt: null,
  screenshot: null,
  log: [{ at, event: 'kept', detail: '' }],
  photos: [...seedOf.keys()].map((sha256, index) => ({
    url: `https://photos.example/${index}.jpg`,
    alt: null,
    sha256,
    mediaType: 'image/jpeg',
    facts: null,
  })),
}

const path = join(tmpdir(), `touchstone-bench-${process.pid}.zip`)
const before = process.resourceUsage().maxRSS / 1024
let peak = 0
const beat = setInterval(() => {
  peak = Math.max(peak, process.memoryUsage.rss())
}, 5)
try {
  const file = await open(path, 'w')
  const began = performance.now()
  const made = await bagDossier(dossier, {
    createdAt: at,
    versions: { program: { name: 'touchstone', version: 'bench' }, rules: [] },
    texts: createTranslate(enTexts),
    language: 'en',
    readBlob: async (sha256) => ({ bytes: noise(seedOf.get(sha256)!), mediaType: 'image/jpeg' }),
    // A small picture for the report, as a real one is after it was made smaller.
    shrink: async ({ bytes }) => ({ bytes: bytes.slice(0, 150_000), mediaType: 'image/jpeg' }),
    sink: async (chunk) => void (await file.write(chunk)),
  })
  await file.close()
  const written = performance.now()
  const verdict = await verifyBag(await openZipSource(await openAsBlob(path)), { createHasher: createNodeHasher })
  const verified = performance.now()
  console.log(
    `${made.files} files, ${(statSync(path).size / 1e6).toFixed(0)} MB: ${verdict.valid ? 'valid' : 'NOT VALID'}`,
  )
  console.log(
    `written in ${((written - began) / 1000).toFixed(1)} s, verified in ${((verified - written) / 1000).toFixed(1)} s`,
  )
  console.log(
    `memory of the process: ${before.toFixed(0)} MiB before, at most ${(peak / 2 ** 20).toFixed(0)} MiB, aim 300`,
  )
} finally {
  clearInterval(beat)
  rmSync(path, { force: true })
}
