/**
 * A shot as JPEG bytes: drawn on first use, kept in memory and in the build cache. Same shot and same drawing code, same
 * bytes. The cache's key covers the drawing's own source, so that a changed pen never shows an old picture.
 */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { loadImage } from '@napi-rs/canvas'
import { drawScene } from './draw-scene.ts'
import { newCanvas } from './pen.ts'
import { layOutScene } from './scene.ts'
import type { Shot } from './shot.ts'
import { takePhoto } from './take-photo.ts'

const HERE = dirname(fileURLToPath(import.meta.url))
const CACHES = join(HERE, '../../../node_modules/.cache/touchstone-demo')

/** Pixels of the flat drawing for one of the photo. More would be sharper and slower; a lens is no sharper than this. */
const FINER = 1

/** A little blur comes from the camera's own sampling; only more than this is added. In pixels. */
const BLUR_OF_SAMPLING = 0.55

const inMemory = new Map<string, Uint8Array>()

const sourceKey = createHash('sha256')
for (const name of readdirSync(HERE).sort()) sourceKey.update(readFileSync(join(HERE, name)))
const SOURCE = sourceKey.digest('hex').slice(0, 16)
const CACHE = join(CACHES, SOURCE)

/** Pictures by earlier versions of the drawing are of no use to anyone. */
function startCache(): void {
  if (existsSync(CACHE)) return
  rmSync(CACHES, { recursive: true, force: true })
  mkdirSync(CACHE, { recursive: true })
}

function kept(key: string, make: () => Promise<Uint8Array>): Promise<Uint8Array> {
  const known = inMemory.get(key)
  if (known) return Promise.resolve(known)
  const file = join(CACHE, `${key}.jpg`)
  try {
    const bytes = new Uint8Array(readFileSync(file))
    inMemory.set(key, bytes)
    return Promise.resolve(bytes)
  } catch {
    return make().then((bytes) => {
      inMemory.set(key, bytes)
      startCache()
      // Two processes may draw the same photo: each writes its own file, the last name wins, both are whole.
      writeFileSync(`${file}.${process.pid}`, bytes)
      renameSync(`${file}.${process.pid}`, file)
      return bytes
    })
  }
}

function keyOf(shot: Shot, size: string): string {
  return createHash('sha256').update(size).update(JSON.stringify(shot)).digest('hex').slice(0, 32)
}

/** JPEG of the shot at its own size. */
export function renderPhoto(shot: Shot): Promise<Uint8Array> {
  return kept(keyOf(shot, 'full'), async () => {
    const scene = layOutScene(shot)
    const flatPxPerMm = scene.pxPerMm * FINER
    let flat = drawScene(shot, scene, flatPxPerMm)
    if (shot.blurPx > BLUR_OF_SAMPLING) {
      const sigma = Math.sqrt(shot.blurPx ** 2 - BLUR_OF_SAMPLING ** 2) * FINER
      const blurred = newCanvas(flat.width, flat.height)
      const pen = blurred.getContext('2d')
      pen.filter = `blur(${sigma}px)`
      pen.drawImage(flat, 0, 0)
      flat = blurred
    }
    return takePhoto(shot, scene, flat, flatPxPerMm).encode('jpeg', shot.jpegQuality)
  })
}

/** The photo host's smaller variants: `longSide` in pixels, never larger than the photo itself. */
export function scalePhoto(shot: Shot, longSide: number): Promise<Uint8Array> {
  return kept(keyOf(shot, String(longSide)), async () => {
    const image = await loadImage(Buffer.from(await renderPhoto(shot)))
    const scale = Math.min(1, longSide / Math.max(image.width, image.height))
    const canvas = newCanvas(image.width * scale, image.height * scale)
    const pen = canvas.getContext('2d')
    pen.imageSmoothingQuality = 'high'
    pen.drawImage(image, 0, 0, canvas.width, canvas.height)
    return canvas.encode('jpeg', 82)
  })
}
