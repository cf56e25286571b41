/**
 * Copies of one invented card design, each with its own cut, wear, specks and paper, scanned or photographed; and what sellers do
 * to a picture: save again, shrink, mark, crop, frame, mirror. Shares no code, font or constant with `src/imaging`.
 */
import { type Canvas, createCanvas, Image } from '@napi-rs/canvas'
import { createDice, type Dice } from '../label-scenes/draw-label.ts'

/** Pixels per millimetre of the drawing. */
const PX = 12
const [CARD_W, CARD_H] = [63.5, 88.9]

function drawDesign(design: number): Canvas {
  const dice = createDice(design * 101 + 7)
  const canvas = createCanvas(Math.round(CARD_W * PX), Math.round(CARD_H * PX))
  const pen = canvas.getContext('2d')
  pen.fillStyle = `hsl(${30 + dice() * 30} 35% 86%)`
  pen.fillRect(0, 0, canvas.width, canvas.height)
  const [x, y, w, h] = [5 * PX, 5 * PX, 53.5 * PX, 68 * PX]
  const sky = pen.createLinearGradient(0, y, 0, y + h)
  const hue = dice() * 360
  sky.addColorStop(0, `hsl(${hue} 50% 60%)`)
  sky.addColorStop(1, `hsl(${hue + 60} 45% 40%)`)
  pen.fillStyle = sky
  pen.fillRect(x, y, w, h)
  pen.save()
  pen.beginPath()
  pen.rect(x, y, w, h)
  pen.clip()
  for (let i = 0; i < 26; i++) {
    pen.fillStyle = `hsl(${dice() * 360} ${20 + dice() * 50}% ${20 + dice() * 60}%)`
    pen.beginPath()
    pen.ellipse(x + dice() * w, y + dice() * h, dice() * 8 * PX, dice() * 12 * PX, dice() * 3, 0, 7)
    pen.fill()
  }
  pen.restore()
  pen.strokeStyle = '#2a1d12'
  pen.lineWidth = 0.5 * PX
  pen.strokeRect(x, y, w, h)
  pen.fillStyle = '#2a1d12'
  pen.font = `${5 * PX}px "label-bookish"`
  pen.textAlign = 'center'
  pen.fillText(['MARRABLE', 'QUILLFEATHER', 'BRACKWATER', 'STRAKE'][design % 4]!, canvas.width / 2, 83 * PX)
  return canvas
}

const designs = new Map<number, Canvas>()

/** The card alone, cut to its outline: the print lies a little off, corners are worn, the paper has specks. */
function drawCopy(design: number, copy: number): Canvas {
  if (!designs.has(design)) designs.set(design, drawDesign(design))
  const dice = createDice(design * 7717 + copy * 31 + 3)
  const canvas = createCanvas(Math.round(CARD_W * PX), Math.round(CARD_H * PX))
  const pen = canvas.getContext('2d')
  pen.fillStyle = '#e4d8bd'
  pen.fillRect(0, 0, canvas.width, canvas.height)
  pen.save()
  // Cut to print: standard deviation .35 mm and a quarter of a degree. Ours, of the order measured on old cards.
  pen.translate(canvas.width / 2 + gauss(dice) * 0.35 * PX, canvas.height / 2 + gauss(dice) * 0.35 * PX)
  pen.rotate((gauss(dice) * 0.25 * Math.PI) / 180)
  pen.drawImage(
    designs.get(design)!,
    -canvas.width / 2 - 0.02 * canvas.width,
    -canvas.height / 2 - 0.02 * canvas.height,
    canvas.width * 1.04,
    canvas.height * 1.04,
  )
  pen.restore()
  const yellow = dice() * 0.12
  pen.fillStyle = `rgba(170, 130, 40, ${yellow})`
  pen.fillRect(0, 0, canvas.width, canvas.height)
  for (let i = 0; i < 40 + dice() * 60; i++) {
    pen.fillStyle = dice() < 0.5 ? 'rgba(60,40,20,.35)' : 'rgba(255,250,235,.45)'
    const r = dice() * 0.35 * PX
    pen.beginPath()
    pen.ellipse(dice() * canvas.width, dice() * canvas.height, r, r * (0.4 + dice()), dice() * 3, 0, 7)
    pen.fill()
  }
  addGrain(canvas, 4, dice)
  return canvas
}

const gauss = (dice: Dice) => (dice() + dice() + dice() + dice() - 2) * Math.sqrt(3)

function addGrain(canvas: Canvas, sd: number, dice: Dice): void {
  const pen = canvas.getContext('2d')
  const image = pen.getImageData(0, 0, canvas.width, canvas.height)
  for (let i = 0; i < image.data.length; i += 4) {
    const grain = (dice() + dice() - 1) * 2.4 * sd
    for (let c = 0; c < 3; c++) image.data[i + c] = image.data[i + c]! + grain
  }
  pen.putImageData(image, 0, 0)
}

/** `scan`: square-on, alike from copy to copy, the hardest to tell apart; `snapshot`: on some table, a little turned. */
export type Way = 'scan' | 'snapshot'

export function photographCopy(design: number, copy: number, way: Way): Canvas {
  const card = drawCopy(design, copy)
  const dice = createDice(design * 5003 + copy * 17 + (way === 'scan' ? 1 : 2))
  const canvas = createCanvas(900, 1200)
  const pen = canvas.getContext('2d')
  const scan = way === 'scan'
  const ground = scan ? 245 - dice() * 12 : 60 + dice() * 120
  pen.fillStyle = `rgb(${ground}, ${ground}, ${ground * (scan ? 1 : 0.85)})`
  pen.fillRect(0, 0, 900, 1200)
  if (!scan) {
    for (let i = 0; i < 120; i++) {
      pen.fillStyle = `rgba(${dice() * 90}, ${dice() * 70}, ${dice() * 50}, .25)`
      pen.fillRect(dice() * 900 - 100, dice() * 1200, 80 + dice() * 500, 1 + dice() * 5)
    }
  }
  pen.translate(450 + gauss(dice) * (scan ? 4 : 25), 600 + gauss(dice) * (scan ? 4 : 25))
  pen.rotate((gauss(dice) * (scan ? 0.3 : 3) * Math.PI) / 180)
  const scale = (scan ? 1.06 : 0.9 + dice() * 0.18) * (1 + gauss(dice) * 0.004)
  pen.scale(scale, scale)
  pen.imageSmoothingQuality = 'high'
  pen.shadowColor = 'rgba(0,0,0,.4)'
  pen.shadowBlur = scan ? 3 : 16
  pen.drawImage(card, -card.width / 2, -card.height / 2)
  pen.resetTransform()
  pen.fillStyle = `rgba(255, 255, 255, ${dice() * 0.1})`
  pen.fillRect(0, 0, 900, 1200)
  addGrain(canvas, scan ? 1.5 : 3, dice)
  return canvas
}

export const CHANGES = {
  'JPEG 30': (photo: Canvas) => reencode(photo, 30),
  'JPEG 60, half size': (photo: Canvas) => reencode(resize(photo, 0.5), 60),
  'a third of the size': (photo: Canvas) => reencode(resize(photo, 0.34), 80),
  watermark: (photo: Canvas, dice: Dice) => reencode(mark(photo, dice), 75),
  'crop 5 %': (photo: Canvas, dice: Dice) => reencode(crop(photo, 0.05, dice), 75),
  'crop 10 %': (photo: Canvas, dice: Dice) => reencode(crop(photo, 0.1, dice), 75),
  'white border': (photo: Canvas, dice: Dice) => reencode(frame(photo, 0.04 + dice() * 0.08, '#fff'), 75),
  'dark border': (photo: Canvas, dice: Dice) => reencode(frame(photo, 0.04 + dice() * 0.08, '#20262b'), 75),
  mirrored: (photo: Canvas) => reencode(mirror(photo), 75),
  'quarter turn': (photo: Canvas) => reencode(quarter(photo), 75),
  'brighter, half size': (photo: Canvas) => reencode(brighten(resize(photo, 0.5)), 75),
} as const satisfies Record<string, (photo: Canvas, dice: Dice) => Canvas>
export type Change = keyof typeof CHANGES

function reencode(photo: Canvas, quality: number): Canvas {
  const image = new Image()
  image.src = photo.toBuffer('image/jpeg', quality)
  const canvas = createCanvas(photo.width, photo.height)
  canvas.getContext('2d').drawImage(image, 0, 0)
  return canvas
}

function redraw(width: number, height: number, draw: (pen: ReturnType<Canvas['getContext']>) => void): Canvas {
  const canvas = createCanvas(Math.round(width), Math.round(height))
  const pen = canvas.getContext('2d')
  pen.imageSmoothingQuality = 'high'
  draw(pen)
  return canvas
}

const resize = (photo: Canvas, by: number) =>
  redraw(photo.width * by, photo.height * by, (pen) => pen.drawImage(photo, 0, 0, photo.width * by, photo.height * by))

const crop = (photo: Canvas, by: number, dice: Dice) => {
  const [x, y] = [dice() * by * photo.width, dice() * by * photo.height]
  return redraw(photo.width * (1 - by), photo.height * (1 - by), (pen) => pen.drawImage(photo, -x, -y))
}

const frame = (photo: Canvas, by: number, colour: string) =>
  redraw(photo.width * (1 + 2 * by), photo.height * (1 + 2 * by), (pen) => {
    pen.fillStyle = colour
    pen.fillRect(0, 0, 1e4, 1e4)
    pen.drawImage(photo, Math.round(photo.width * by), Math.round(photo.height * by))
  })

const mirror = (photo: Canvas) =>
  redraw(photo.width, photo.height, (pen) => {
    pen.translate(photo.width, 0)
    pen.scale(-1, 1)
    pen.drawImage(photo, 0, 0)
  })

const quarter = (photo: Canvas) =>
  redraw(photo.height, photo.width, (pen) => {
    pen.translate(photo.height, 0)
    pen.rotate(Math.PI / 2)
    pen.drawImage(photo, 0, 0)
  })

const brighten = (photo: Canvas) =>
  redraw(photo.width, photo.height, (pen) => {
    pen.drawImage(photo, 0, 0)
    pen.fillStyle = 'rgba(255, 240, 210, .16)'
    pen.fillRect(0, 0, photo.width, photo.height)
  })

const mark = (photo: Canvas, dice: Dice) =>
  redraw(photo.width, photo.height, (pen) => {
    pen.drawImage(photo, 0, 0)
    pen.translate(photo.width / 2, photo.height * (0.3 + dice() * 0.4))
    pen.rotate(-0.5)
    pen.font = '110px "label-plain"'
    pen.textAlign = 'center'
    pen.fillStyle = 'rgba(255, 255, 255, .45)'
    pen.fillText('QUAYSIDE LOTS', 0, 0)
  })
