/** A printed card as a picture with a transparent surround: ink on paper, then age: toning, rubbed corners, creases. */
import { backOf, frontOf } from './card-faces.ts'
import { STOCK } from './card-stock.ts'
import { newCanvas, type Pen } from './pen.ts'
import { printSheet } from './print.ts'
import { between, createRandom, type Random } from './random.ts'
import type { CardSpec } from './shot.ts'

export type Face = 'front' | 'back'

export interface Region {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** Of the whole card, or of `region` of it (mm, may reach past the cut edge). Resolution in pixels a mm. */
export function drawCard(card: CardSpec, face: Face, pxPerMm: number, region?: Region) {
  const stock = STOCK[card.design]
  const [width, height] = stock.size
  const part = region ?? { x: 0, y: 0, width, height }
  const art = face === 'front' ? frontOf(card) : backOf(card)
  const modern = card.design === 'tidal-prime'
  const sheet = printSheet({
    region: part,
    pxPerMm,
    paper: face === 'front' || card.printing === 're-screened' ? stock.paper : stock.board,
    cellsPerMm: stock.cellsPerMm,
    inkStrength: stock.inkStrength,
    printing: card.printing,
    seed: card.seed,
    drawTone: art.tone,
    drawLines: art.lines,
  })
  const pen = sheet.getContext('2d')
  pen.save()
  pen.scale(pxPerMm, pxPerMm)
  pen.translate(-part.x, -part.y)
  if (!modern) age(pen, card, face, width, height)
  pen.restore()
  return cutOut(sheet, card, face, pxPerMm, part, width, height)
}

function age(pen: Pen, card: CardSpec, face: Face, width: number, height: number): void {
  const random = createRandom(card.seed * 2 + (face === 'front' ? 0 : 1))
  const wear = card.wear
  if (card.printing === 'original' || card.printing === 'trimmed') {
    pen.globalCompositeOperation = 'multiply'
    const toning = pen.createRadialGradient(width / 2, height / 2, width * 0.3, width / 2, height / 2, height * 0.72)
    toning.addColorStop(0, 'rgba(214, 186, 130, 0)')
    toning.addColorStop(1, `rgba(196, 156, 96, ${0.18 + wear * 0.3})`)
    pen.fillStyle = toning
    pen.fillRect(0, 0, width, height)
    for (let stain = 0; stain < Math.round(wear * 5); stain++) {
      const x = random() * width
      const y = random() * height
      const size = between(random, 2, 9)
      const spot = pen.createRadialGradient(x, y, 0, x, y, size)
      spot.addColorStop(0, 'rgba(150, 104, 52, .16)')
      spot.addColorStop(0.8, 'rgba(150, 104, 52, .09)')
      spot.addColorStop(1, 'rgba(150, 104, 52, 0)')
      pen.fillStyle = spot
      pen.fillRect(x - size, y - size, size * 2, size * 2)
    }
    pen.globalCompositeOperation = 'source-over'
  }
  specks(pen, random, wear, width, height)
  rubbedEdges(pen, random, wear, width, height)
  if (wear > 0.45) crease(pen, random, width, height, wear)
}

function specks(pen: Pen, random: Random, wear: number, width: number, height: number): void {
  for (let speck = 0; speck < 10 + wear * 50; speck++) {
    pen.fillStyle = speck % 3 === 0 ? 'rgba(60, 40, 24, .5)' : 'rgba(250, 244, 228, .6)'
    pen.beginPath()
    pen.ellipse(random() * width, random() * height, between(random, 0.04, 0.16), between(random, 0.04, 0.12), 0, 0, 7)
    pen.fill()
  }
}

/** Ink worn off along the edges, so that the paper's core shows white. */
function rubbedEdges(pen: Pen, random: Random, wear: number, width: number, height: number): void {
  pen.fillStyle = 'rgba(246, 239, 222, .62)'
  for (let chip = 0; chip < wear * 260; chip++) {
    const along = random()
    const deep = random() ** 3 * wear * 1.1
    const side = Math.floor(random() * 4)
    const x = side < 2 ? along * width : side === 2 ? deep : width - deep
    const y = side >= 2 ? along * height : side === 0 ? deep : height - deep
    pen.beginPath()
    pen.ellipse(x, y, between(random, 0.06, 0.35), between(random, 0.05, 0.24), random() * 3, 0, 7)
    pen.fill()
  }
  for (const [cx, cy] of [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const) {
    const reach = between(random, 0.6, 2.4) * wear * 1.5
    for (let chip = 0; chip < 26; chip++) {
      const far = random() ** 1.6 * reach
      const turn = random() * 7
      pen.beginPath()
      pen.ellipse(
        cx + Math.cos(turn) * far,
        cy + Math.sin(turn) * far,
        between(random, 0.06, 0.34),
        between(random, 0.06, 0.3),
        turn,
        0,
        7,
      )
      pen.fill()
    }
  }
}

function crease(pen: Pen, random: Random, width: number, height: number, wear: number): void {
  for (let fold = 0; fold < (wear > 0.6 ? 2 : 1); fold++) {
    const corner = Math.floor(random() * 4)
    const fromX = corner % 2 ? width : 0
    const fromY = corner > 1 ? height : 0
    const a = between(random, 5, 15)
    const b = between(random, 5, 15)
    const ends = [fromX, Math.abs(fromY - a), Math.abs(fromX - b), fromY] as const
    for (const [shift, colour] of [
      [0.14, 'rgba(70, 48, 28, .34)'],
      [0, 'rgba(255, 249, 234, .8)'],
    ] as const) {
      const wobble = createRandom(seedOf(fromX, fromY, fold))
      pen.strokeStyle = colour
      pen.lineWidth = 0.16
      pen.beginPath()
      for (let step = 0; step <= 12; step++) {
        const part = step / 12
        const x = ends[0] + (ends[2] - ends[0]) * part + (wobble() - 0.5) * 0.5 + shift
        const y = ends[1] + (ends[3] - ends[1]) * part + (wobble() - 0.5) * 0.5 + shift
        if (step === 0) pen.moveTo(x, y)
        else pen.lineTo(x, y)
      }
      pen.stroke()
    }
  }
}

function seedOf(x: number, y: number, fold: number): number {
  return Math.round(x * 7 + y * 13 + fold * 29) + 1
}

/** The outline of the cut card: straight edges, corners rounded by wear, each a little differently. */
export function traceOutline(pen: Pen, card: CardSpec, face: Face, width: number, height: number): void {
  const random = createRandom(card.seed * 3 + 1)
  const radii = Array.from({ length: 4 }, () => 0.12 + card.wear * between(random, 0.5, 2.1))
  // Turned over, left and right change places.
  const [tl, tr, br, bl] = (face === 'front' ? radii : [radii[1]!, radii[0]!, radii[3]!, radii[2]!]) as [
    number,
    number,
    number,
    number,
  ]
  pen.beginPath()
  pen.moveTo(tl, 0)
  pen.lineTo(width - tr, 0)
  pen.quadraticCurveTo(width - tr * 0.25, tr * 0.25, width, tr)
  pen.lineTo(width, height - br)
  pen.quadraticCurveTo(width - br * 0.25, height - br * 0.25, width - br, height)
  pen.lineTo(bl, height)
  pen.quadraticCurveTo(bl * 0.25, height - bl * 0.25, 0, height - bl)
  pen.lineTo(0, tl)
  pen.quadraticCurveTo(tl * 0.25, tl * 0.25, tl, 0)
  pen.closePath()
}

/** What is cut off a trimmed card at the left and at the bottom of its front. */
export const TRIMMED_MM = 1.3

function cutOut(
  sheet: ReturnType<typeof newCanvas>,
  card: CardSpec,
  face: Face,
  pxPerMm: number,
  part: Region,
  width: number,
  height: number,
) {
  const canvas = newCanvas(sheet.width, sheet.height)
  const pen = canvas.getContext('2d')
  pen.save()
  pen.scale(pxPerMm, pxPerMm)
  pen.translate(-part.x, -part.y)
  if (card.printing === 'trimmed') {
    // Cut down at the left and at the bottom of the front.
    if (face === 'front') pen.translate(TRIMMED_MM, 0)
    traceOutline(pen, card, face, width - TRIMMED_MM, height - TRIMMED_MM)
  } else traceOutline(pen, card, face, width, height)
  pen.restore()
  pen.fill()
  pen.globalCompositeOperation = 'source-in'
  pen.drawImage(sheet, 0, 0)
  return canvas
}
