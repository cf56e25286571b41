/**
 * What examining one 12-megapixel photo costs, part by part; how far our fingerprints lie from the published ones; and how often views
 * and outlines are right on scenes whose truth is known. `BENCH_SCENES=600` for the whole, `BENCH_FAMILY=tuning` for the other
 * family, `BENCH_LINES=DIR` keeps a line for each scene.
 */
import { execFileSync } from 'node:child_process'
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { createCanvas, ImageData } from '@napi-rs/canvas'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { examinePhoto } from '../../src/imaging/examine-photo.ts'
import { findCard } from '../../src/imaging/find-card.ts'
import { measureBlur } from '../../src/imaging/measure-blur.ts'
import { measureExposure } from '../../src/imaging/measure-exposure.ts'
import { fingerprint, hammingDistance } from '../../src/imaging/pdq.ts'
import { toGrey } from '../../src/imaging/pixels.ts'
import { createBarcodeReader } from '../../src/imaging/read-barcodes-node.ts'
import { look } from '../../src/imaging/view/look.ts'
import { photograph, STANDARD, squareOn } from '../imaging/scenes/draw-card.ts'
import { answerScene } from './photo-scenes/answer-scene.ts'
import { type SceneLine, writeTables } from './photo-scenes/count-answers.ts'
import { TUNING } from './photo-scenes/settings-tuning.ts'
import { VALIDATION } from './photo-scenes/settings-validation.ts'

const ROUNDS = 5
const [width, height] = [3000, 4000]
const scene = photograph(STANDARD, {
  width,
  height,
  corners: squareOn(STANDARD, width, height, 38, 2),
  blur: 0,
  noise: 2,
  light: [1, 0.97, 0.9],
  falloff: 0.9,
  background: [0.1, 0.12, 0.1],
  seed: 3,
})
const canvas = createCanvas(width, height)
canvas.getContext('2d').putImageData(new ImageData(scene.data as Uint8ClampedArray<ArrayBuffer>, width, height), 0, 0)
const bytes = canvas.toBuffer('image/jpeg', 88)
const readBarcodes = await createBarcodeReader()
const pixels = await decodeInNode(bytes)
const grey = toGrey(pixels)

async function measure(name: string, work: () => unknown): Promise<void> {
  const times: number[] = []
  for (let i = 0; i < ROUNDS; i++) {
    const started = performance.now()
    await work()
    times.push(performance.now() - started)
  }
  const [median] = times.sort((a, b) => a - b).slice(Math.floor(ROUNDS / 2))
  console.log(`${name.padEnd(42)}${median!.toFixed(0).padStart(6)} ms`)
}

console.log(`${width} × ${height} px, ${(bytes.length / 2 ** 20).toFixed(1)} MB JPEG, median of ${ROUNDS}`)
await measure('decode', () => decodeInNode(bytes))
await measure('grey', () => toGrey(pixels))
await measure('fingerprint', () => fingerprint(grey))
await measure('blur', () => measureBlur(grey))
await measure('exposure', () => measureExposure(grey))
await measure('find card', () => findCard(pixels, grey))
await measure('outlines, lettering, light, screen', () => look(pixels, grey))
await measure('barcodes', () => readBarcodes(pixels))
await measure('whole, without barcodes', () => examinePhoto(bytes, { file: 'photo', decode: decodeInNode }))
await measure('whole', () => examinePhoto(bytes, { file: 'photo', decode: decodeInNode, readBarcodes }))
console.log(
  `memory after it: ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MB resident, in Node with the decoder`,
)

const folder = resolve(import.meta.dirname, '../../../shared/refs/pdq')
if (existsSync(folder)) {
  const vectors: { file: string; hash: string; cpp_hash?: string; quality?: number }[] = JSON.parse(
    readFileSync(join(folder, 'vectors.json'), 'utf8'),
  )
  const distances: number[] = []
  for (const { file, hash, cpp_hash } of vectors) {
    const ours = fingerprint(toGrey(await decodeInNode(readFileSync(join(folder, file)))))
    distances.push(Math.min(hammingDistance(ours.hash, hash), hammingDistance(ours.hash, cpp_hash ?? hash)))
  }
  console.log(
    `fingerprints of ${vectors.length} published pictures, bits from the nearer published hash: ${distances.join(' ')}`,
  )
} else {
  console.log('left out: published fingerprints (no reference data beside the repository)')
}

const settings = process.env.BENCH_FAMILY === 'tuning' ? TUNING : VALIDATION
const count = Number(process.env.BENCH_SCENES ?? 60)
const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim()
const keptIn = process.env.BENCH_LINES ?? null
if (keptIn !== null) mkdirSync(keptIn, { recursive: true })
const lines: SceneLine[] = []
for (let i = 0; i < count; i++) {
  const line = await answerScene(settings.firstSeed + i, settings, readBarcodes)
  lines.push(line)
  if (keptIn !== null)
    appendFileSync(join(keptIn, `${settings.name}.jsonl`), `${JSON.stringify({ commit, ...line })}\n`)
}
console.log(
  `\nviews and outlines on ${count} scenes of the ${settings.name} family, without reading labels\n${writeTables(lines)}`,
)

// Abstaining is no way to pass: square-on, sharp, at one and a half times the scale that the view needs.
const NEEDED = [
  { view: 'front', pxPerMm: 8 },
  { view: 'back', pxPerMm: 8 },
  { view: 'holder-front', pxPerMm: 6 },
  { view: 'holder-back', pxPerMm: 6 },
] as const
const generous: SceneLine[] = []
for (let i = 0; i < Math.ceil(count / 5); i++) {
  const { view, pxPerMm } = NEEDED[i % NEEDED.length]!
  generous.push(
    await answerScene(settings.firstSeed + 50_000 + i, settings, readBarcodes, {
      view,
      difficulty: 'normal',
      generous: { factor: 1.5, pxPerMm },
    }),
  )
}
const told = generous.filter((line) => line.answer !== 'cannot-tell')
const wrong = told.filter((line) => line.answer !== line.truth).length
console.log(
  `\nsquare-on, sharp, 1.5 × the needed scale: ${generous.length} scenes, cannot tell ${generous.length - told.length}, wrong ${wrong}`,
)
