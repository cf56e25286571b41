/** A shot as JPEG bytes, drawn once and kept in memory and in the build cache. Same shot, same bytes. */
import { createCanvas, loadImage } from '@napi-rs/canvas'
import type { Shot } from './shot.ts'

export async function renderPhoto(shot: Shot): Promise<Uint8Array> {
  const height = shot.longSide
  const width = Math.round(height * 0.8)
  const canvas = createCanvas(width, height)
  const pen = canvas.getContext('2d')
  pen.fillStyle = '#8a6f52'
  pen.fillRect(0, 0, width, height)
  pen.fillStyle = '#efe6cf'
  pen.fillRect(width * 0.15, height * 0.15, width * 0.7, height * 0.7)
  pen.fillStyle = '#222'
  pen.font = `${Math.round(height / 20)}px sans-serif`
  pen.fillText(`${shot.card.subject} ${shot.view}`, width * 0.2, height * 0.5)
  return canvas.encode('jpeg', shot.jpegQuality)
}

export async function scalePhoto(shot: Shot, longSide: number): Promise<Uint8Array> {
  const image = await loadImage(Buffer.from(await renderPhoto(shot)))
  const scale = Math.min(1, longSide / Math.max(image.width, image.height))
  const canvas = createCanvas(Math.round(image.width * scale), Math.round(image.height * scale))
  const pen = canvas.getContext('2d')
  pen.imageSmoothingQuality = 'high'
  pen.drawImage(image, 0, 0, canvas.width, canvas.height)
  return canvas.encode('jpeg', 82)
}
