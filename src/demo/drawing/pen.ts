/** Fonts of the drawing, and the few strokes that all drawings share. All coordinates are millimetres of the object. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { createCanvas, GlobalFonts, type SKRSContext2D } from '@napi-rs/canvas'

export type Pen = SKRSContext2D

const require = createRequire(import.meta.url)

// Packages under the OFL, Special Elite under Apache-2.0.
const FONTS: readonly (readonly [family: string, file: string])[] = [
  ['Limelight', '@fontsource/limelight/files/limelight-latin-400-normal.woff2'],
  ['Old Standard', '@fontsource/old-standard-tt/files/old-standard-tt-latin-400-normal.woff2'],
  ['Old Standard Bold', '@fontsource/old-standard-tt/files/old-standard-tt-latin-700-normal.woff2'],
  ['Old Standard Italic', '@fontsource/old-standard-tt/files/old-standard-tt-latin-400-italic.woff2'],
  ['Alfa Slab', '@fontsource/alfa-slab-one/files/alfa-slab-one-latin-400-normal.woff2'],
  ['Special Elite', '@fontsource/special-elite/files/special-elite-latin-400-normal.woff2'],
  ['Caveat', '@fontsource/caveat/files/caveat-latin-600-normal.woff2'],
  ['Condensed', '@fontsource/barlow-condensed/files/barlow-condensed-latin-500-normal.woff2'],
  ['Condensed Bold', '@fontsource/barlow-condensed/files/barlow-condensed-latin-700-normal.woff2'],
  ['Jost', '@fontsource/jost/files/jost-latin-600-normal.woff2'],
]

let registered = false

/** A canvas with the drawing's fonts at hand. Sizes in pixels, at least one. */
export function newCanvas(width: number, height: number) {
  if (!registered) {
    for (const [family, file] of FONTS) {
      if (!GlobalFonts.register(readFileSync(require.resolve(file)), family))
        throw new Error(`font not usable: ${file}`)
    }
    registered = true
  }
  return createCanvas(Math.max(1, Math.round(width)), Math.max(1, Math.round(height)))
}

export interface TextStyle {
  readonly font: string
  /** Height of the em in mm. */
  readonly size: number
  readonly colour: string
  readonly align?: 'left' | 'center' | 'right'
  /** Widest in mm; longer text is narrowed. */
  readonly widest?: number
  /** Extra space between letters, in mm. */
  readonly spacing?: number
}

/** Fonts are set at 100 px and scaled, since a font of a few millimetres is hinted to nothing. */
export function writeText(pen: Pen, text: string, x: number, y: number, style: TextStyle): void {
  const scale = style.size / 100
  pen.save()
  pen.translate(x, y)
  pen.scale(scale, scale)
  pen.font = `100px "${style.font}"`
  pen.fillStyle = style.colour
  pen.letterSpacing = `${(style.spacing ?? 0) / scale}px`
  const width = pen.measureText(text).width * scale
  const narrow = style.widest && width > style.widest ? style.widest / width : 1
  pen.scale(narrow, 1)
  pen.textAlign = 'left'
  const shift = { left: 0, center: 0.5, right: 1 }[style.align ?? 'left']
  pen.fillText(text, (-shift * width) / scale, 0)
  pen.restore()
}

/** Lines of at most `width` mm. */
export function wrapText(pen: Pen, text: string, font: string, size: number, width: number): string[] {
  pen.save()
  pen.font = `100px "${font}"`
  pen.letterSpacing = '0px'
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ')) {
    const longer = line ? `${line} ${word}` : word
    if (line && (pen.measureText(longer).width * size) / 100 > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  pen.restore()
  return line ? [...lines, line] : lines
}

export function fillShape(pen: Pen, colour: string | CanvasGradient, path: () => void): void {
  pen.beginPath()
  path()
  pen.fillStyle = colour as string
  pen.fill()
}

export function strokeShape(pen: Pen, colour: string, width: number, path: () => void): void {
  pen.beginPath()
  path()
  pen.strokeStyle = colour
  pen.lineWidth = width
  pen.stroke()
}

export function polygon(pen: Pen, points: readonly (readonly [number, number])[]): void {
  points.forEach(([x, y], place) => {
    if (place === 0) pen.moveTo(x, y)
    else pen.lineTo(x, y)
  })
  pen.closePath()
}
