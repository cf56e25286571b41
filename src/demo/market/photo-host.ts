/** The photo host: every photo of every market, drawn on first request and kept. Addresses are `/SIZE/FILE`. */
import { renderPhoto, scalePhoto } from '../drawing/render-photo.ts'
import type { Shot } from '../drawing/shot.ts'
import { EXEMPLARS } from './exemplars.ts'
import { LISTINGS } from './market-data.ts'
import { FURTHER_ROWS, SOLD_ROWS } from './rows.ts'

const SHOTS: ReadonlyMap<string, Shot> = new Map([
  ...LISTINGS.flatMap((listing) => listing.photos.map((photo) => [photo.file, photo.shot] as const)),
  ...[...FURTHER_ROWS, ...SOLD_ROWS].map((row) => [row.photo.file, row.photo.shot] as const),
  ...EXEMPLARS.map(({ file, shot }) => [file, shot] as const),
])

export const PHOTO_FILES: readonly string[] = [...SHOTS.keys()]

export function findShot(file: string): Shot {
  const shot = SHOTS.get(file)
  if (!shot) throw new Error(`the photo host has no ${file}`)
  return shot
}

/** JPEG bytes, `null` where there is no such photo. */
export async function readPhoto(path: string): Promise<Uint8Array | null> {
  const [, size, file] = /^\/(full|640|160)\/([\w.-]+)$/.exec(path) ?? []
  const shot = file ? SHOTS.get(file) : undefined
  if (!size || !shot) return null
  return size === 'full' ? renderPhoto(shot) : scalePhoto(shot, Number(size))
}
