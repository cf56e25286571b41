/** Draws the toolbar's PNG icons from `touchstone.svg`: `npx tsx assets/icons/draw-icons.ts`. The PNGs are kept in the repository. */
import { readFileSync, writeFileSync } from 'node:fs'
import { createCanvas, loadImage } from '@napi-rs/canvas'

const SIZES = [16, 32, 48, 128]

const svg = readFileSync(new URL('./touchstone.svg', import.meta.url), 'utf8')
for (const size of SIZES) {
  // Scaled as a drawing, not as a picture: the edges stay sharp at every size.
  const picture = await loadImage(
    Buffer.from(svg.replace('width="128" height="128"', `width="${size}" height="${size}"`)),
  )
  const canvas = createCanvas(size, size)
  canvas.getContext('2d').drawImage(picture, 0, 0, size, size)
  writeFileSync(new URL(`./${size}.png`, import.meta.url), canvas.toBuffer('image/png'))
}
