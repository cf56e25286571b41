/** Draws a laid-out scene flat, as if seen from straight above, before the camera tilts and lights it. */

import { fillBackground } from './backgrounds.ts'
import { drawCard, type Face, TRIMMED_MM } from './card-sprite.ts'
import { STOCK } from './card-stock.ts'
import { drawHolderBase, drawHolderTop, layOutHolder } from './holders.ts'
import { fillShape, newCanvas, type Pen, strokeShape, writeText } from './pen.ts'
import { createRandom } from './random.ts'
import type { PlacedObject, Scene } from './scene.ts'
import type { Shot } from './shot.ts'

/** A canvas of the scene's field at `pxPerMm`. */
export function drawScene(shot: Shot, scene: Scene, pxPerMm: number) {
  const canvas = newCanvas(scene.field.width * pxPerMm, scene.field.height * pxPerMm)
  const pen = canvas.getContext('2d')
  pen.scale(pxPerMm, pxPerMm)
  if (scene.object) {
    fillBackground(pen, shot.background, scene.field.width, scene.field.height, shot.seed)
    if (shot.view === 'with-ruler') drawRuler(pen, scene.object, pxPerMm)
    if (shot.view === 'dated-note') drawNote(pen, shot, scene.object, pxPerMm)
    drawObject(pen, shot, scene, scene.object, pxPerMm)
  } else drawCollage(pen, shot, scene, pxPerMm)
  return canvas
}

function drawObject(pen: Pen, shot: Shot, scene: Scene, object: PlacedObject, pxPerMm: number): void {
  pen.save()
  pen.translate(object.middle[0], object.middle[1])
  pen.rotate(object.angle)
  pen.translate(-object.width / 2, -object.height / 2)
  const high = object.holder ? (shot.holder?.kind === 'screw-down' ? 3.2 : 2.2) : 0.5
  const lifted = shot.background === 'scanner' ? high * 0.5 : high
  // A card cut down casts a smaller shadow.
  const cut = shot.card.printing === 'trimmed' && object.holder === null && object.face === 'front' ? TRIMMED_MM : 0
  shadow(pen, object.width - cut, object.height - cut, lifted, pxPerMm, cut, 0, object.holder !== null)
  const needed = neededPart(scene, object)
  drawHeldCard(pen, shot, object.face, pxPerMm, needed)
  pen.restore()
}

/** The part of the object that the field shows, in mm of the object; drawing more would only cost time. */
function neededPart(scene: Scene, object: PlacedObject) {
  const left = object.middle[0] - object.width / 2
  const top = object.middle[1] - object.height / 2
  const slack = Math.abs(object.angle) * Math.max(object.width, object.height) + 1
  return {
    x: -left - slack,
    y: -top - slack,
    width: scene.field.width + slack * 2,
    height: scene.field.height + slack * 2,
  }
}

interface Part {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

function overlap(a: Part, b: Part): Part | null {
  const x = Math.max(a.x, b.x)
  const y = Math.max(a.y, b.y)
  const width = Math.min(a.x + a.width, b.x + b.width) - x
  const height = Math.min(a.y + a.height, b.y + b.height) - y
  return width > 0.1 && height > 0.1 ? { x, y, width, height } : null
}

/** Card, with its holder if it has one, from the pen's origin. `needed`: part of the object in mm. */
function drawHeldCard(pen: Pen, shot: Shot, face: Face, pxPerMm: number, needed: Part): void {
  const [cardWidth, cardHeight] = STOCK[shot.card.design].size
  const layout = shot.holder ? layOutHolder(shot.holder, cardWidth, cardHeight) : null
  const cardX = layout ? (face === 'front' ? layout.cardX : layout.width - layout.cardX - cardWidth) : 0
  const cardY = layout?.cardY ?? 0
  if (shot.holder && layout) drawHolderBase(pen, shot.holder, layout)
  const part = overlap(
    { x: needed.x - cardX, y: needed.y - cardY, width: needed.width, height: needed.height },
    {
      x: 0,
      y: 0,
      width: cardWidth,
      height: cardHeight,
    },
  )
  if (part) {
    const sprite = drawCard(shot.card, face, pxPerMm, part)
    if (layout) shadow(pen, cardWidth, cardHeight, 0.3, pxPerMm, cardX, cardY)
    pen.imageSmoothingQuality = 'high'
    pen.drawImage(sprite, cardX + part.x, cardY + part.y, part.width, part.height)
  }
  if (shot.holder && layout) drawHolderTop(pen, shot.holder, layout, face, shot.seed)
}

function shadow(
  pen: Pen,
  width: number,
  height: number,
  high: number,
  pxPerMm: number,
  x = 0,
  y = 0,
  clear = false,
): void {
  pen.save()
  if (clear) {
    // Light falls through clear plastic: only a breath of shade under it.
    fillShape(pen, 'rgba(18, 14, 10, .1)', () => pen.rect(x, y, width, height))
    pen.beginPath()
    pen.rect(x - 60, y - 60, width + 120, height + 120)
    pen.roundRect(x, y, width, height, 2)
    pen.clip('evenodd')
  }
  for (const [blur, alpha, far] of [
    [high * 0.5, 0.5, 0.25],
    [high * 1.8, 0.34, 0.8],
  ] as const) {
    pen.shadowColor = `rgba(18, 14, 10, ${alpha})`
    pen.shadowBlur = blur * pxPerMm * 2
    pen.shadowOffsetX = high * far * 0.8 * pxPerMm
    pen.shadowOffsetY = high * far * pxPerMm
    pen.fillStyle = 'rgba(18, 14, 10, .55)'
    pen.beginPath()
    pen.roundRect(x + 0.3, y + 0.3, width - 0.6, height - 0.6, 1.2)
    pen.fill()
  }
  pen.restore()
}

function drawRuler(pen: Pen, object: PlacedObject, pxPerMm: number): void {
  const width = 17
  const height = object.height + 26
  pen.save()
  pen.translate(object.middle[0] + object.width / 2 + 6, object.middle[1] - object.height / 2 - 6)
  pen.rotate(object.angle * 0.5)
  shadow(pen, width, height, 0.8, pxPerMm)
  const steel = pen.createLinearGradient(0, 0, width, 0)
  steel.addColorStop(0, '#c9ccce')
  steel.addColorStop(0.4, '#eef0f0')
  steel.addColorStop(1, '#a9adb0')
  fillShape(pen, steel, () => pen.roundRect(0, 0, width, height, 1))
  for (let mm = 0; mm <= height - 8; mm++) {
    const long = mm % 10 === 0 ? 7 : mm % 5 === 0 ? 5 : 3
    strokeShape(pen, '#1b1d1f', 0.16, () => {
      pen.moveTo(0, 6 + mm)
      pen.lineTo(long, 6 + mm)
    })
    if (mm % 10 === 0)
      writeText(pen, String(mm / 10), 9.2, 7.2 + mm, { font: 'Condensed Bold', size: 3.4, colour: '#1b1d1f' })
  }
  writeText(pen, 'mm', 12.4, 5, { font: 'Condensed', size: 2.6, colour: '#1b1d1f' })
  pen.restore()
}

function drawNote(pen: Pen, shot: Shot, object: PlacedObject, pxPerMm: number): void {
  const random = createRandom(shot.seed + 9)
  const width = object.width * 0.72
  const height = object.width * 0.5
  pen.save()
  pen.translate(object.middle[0] + object.width / 2 + 7, object.middle[1] - height * (0.3 + random() * 0.4))
  pen.rotate((random() - 0.5) * 0.16)
  shadow(pen, width, height, 0.6, pxPerMm)
  fillShape(pen, '#fbf8ee', () => pen.rect(0, 0, width, height))
  for (let line = 1; line < 5; line++) {
    strokeShape(pen, 'rgba(120, 150, 190, .5)', 0.14, () => {
      pen.moveTo(0, (line * height) / 5)
      pen.lineTo(width, (line * height) / 5)
    })
  }
  shot.note.forEach((words, place) => {
    writeText(pen, words, width / 2, height * (0.42 + place * 0.32), {
      font: 'Caveat',
      size: height * 0.27,
      colour: '#24365f',
      align: 'center',
      widest: width * 0.88,
    })
  })
  pen.restore()
}

function drawCollage(pen: Pen, shot: Shot, scene: Scene, pxPerMm: number): void {
  pen.fillStyle = '#ffffff'
  pen.fillRect(0, 0, scene.field.width, scene.field.height)
  if (shot.view === 'corners') drawCorners(pen, shot, pxPerMm, 16, 4.5)
  else if (shot.view === 'holder-corners') drawCorners(pen, shot, pxPerMm, 30, 6)
  else if (shot.view === 'edges') drawEdges(pen, shot, pxPerMm)
  else drawHolderSides(pen, shot, pxPerMm)
}

/** One close-up: a window of the table with the object lying so that `from` (mm of the object) is its top left. */
function closeUp(
  pen: Pen,
  shot: Shot,
  pxPerMm: number,
  at: Part,
  from: { x: number; y: number },
  turned: boolean,
): void {
  const [cardWidth, cardHeight] = STOCK[shot.card.design].size
  const layout = shot.holder ? layOutHolder(shot.holder, cardWidth, cardHeight) : null
  const wide = turned ? at.height : at.width
  const high = turned ? at.width : at.height
  pen.save()
  pen.beginPath()
  pen.rect(at.x, at.y, at.width, at.height)
  pen.clip()
  if (turned) {
    pen.translate(at.x, at.y + at.height)
    pen.rotate(-Math.PI / 2)
  } else pen.translate(at.x, at.y)
  fillBackground(pen, shot.background, wide, high, shot.seed + Math.round(from.x * 3 + from.y * 5))
  pen.translate(-from.x, -from.y)
  const width = layout?.width ?? cardWidth
  const height = layout?.height ?? cardHeight
  shadow(pen, width, height, layout ? 1.6 : 0.45, pxPerMm, 0, 0, layout !== null)
  drawHeldCard(pen, shot, 'front', pxPerMm, { x: from.x, y: from.y, width: wide, height: high })
  pen.restore()
}

function drawCorners(pen: Pen, shot: Shot, pxPerMm: number, side: number, margin: number): void {
  const [cardWidth, cardHeight] = STOCK[shot.card.design].size
  const layout = shot.holder ? layOutHolder(shot.holder, cardWidth, cardHeight) : null
  const whole = shot.view === 'holder-corners'
  const box =
    layout && !whole
      ? { x: layout.cardX, y: layout.cardY, width: cardWidth, height: cardHeight }
      : { x: 0, y: 0, width: layout?.width ?? cardWidth, height: layout?.height ?? cardHeight }
  const gap = 1
  for (const [column, row] of [
    [0, 0],
    [1, 0],
    [0, 1],
    [1, 1],
  ] as const) {
    closeUp(
      pen,
      shot,
      pxPerMm,
      { x: column * (side + gap), y: row * (side + gap), width: side, height: side },
      {
        x: column === 0 ? box.x - margin : box.x + box.width - side + margin,
        y: row === 0 ? box.y - margin : box.y + box.height - side + margin,
      },
      false,
    )
  }
}

function drawEdges(pen: Pen, shot: Shot, pxPerMm: number): void {
  const [width, height] = STOCK[shot.card.design].size
  const band = 14.75
  for (const [row, edge] of (['top', 'bottom', 'left', 'right'] as const).entries()) {
    const upright = edge === 'left' || edge === 'right'
    const along = upright ? height : width
    const from = {
      top: { x: (along - 104) / 2, y: -5 },
      bottom: { x: (along - 104) / 2, y: height + 5 - band },
      left: { x: -5, y: (along - 104) / 2 },
      right: { x: width + 5 - band, y: (along - 104) / 2 },
    }[edge]
    closeUp(pen, shot, pxPerMm, { x: 0, y: row * (band + 1), width: 104, height: band }, from, upright)
  }
}

/** The holder seen from its four sides: two shells, the seam between them, light caught in the weld. */
function drawHolderSides(pen: Pen, shot: Shot, pxPerMm: number): void {
  const [cardWidth, cardHeight] = STOCK[shot.card.design].size
  const layout = layOutHolder(shot.holder!, cardWidth, cardHeight)
  const random = createRandom(shot.seed + 31)
  const band = 20.25
  for (let row = 0; row < 4; row++) {
    const long = row < 2 ? layout.height : layout.width
    pen.save()
    pen.beginPath()
    pen.rect(0, row * (band + 1), 164, band)
    pen.clip()
    pen.translate(0, row * (band + 1))
    fillBackground(pen, shot.background, 164, band, shot.seed + row)
    pen.translate((164 - long) / 2, 6.2)
    shadow(pen, long, 7.6, 1.2, pxPerMm)
    const shell = pen.createLinearGradient(0, 0, 0, 7.6)
    shell.addColorStop(0, 'rgba(252, 254, 255, .95)')
    shell.addColorStop(0.3, 'rgba(196, 208, 214, .75)')
    shell.addColorStop(0.48, 'rgba(236, 242, 244, .85)')
    shell.addColorStop(0.52, 'rgba(150, 166, 174, .8)')
    shell.addColorStop(0.75, 'rgba(222, 230, 233, .8)')
    shell.addColorStop(1, 'rgba(160, 174, 181, .9)')
    fillShape(pen, shell, () => pen.roundRect(0, 0, long, 7.6, 1.3))
    fillShape(pen, 'rgba(236, 226, 200, .55)', () => pen.rect(7, 3.5, long - 14, 0.6))
    strokeShape(pen, 'rgba(70, 84, 92, .75)', 0.18, () => {
      pen.moveTo(0.6, 3.8)
      pen.lineTo(long - 0.6, 3.8)
    })
    for (let glint = 0; glint < 26; glint++) {
      const x = random() * long
      fillShape(pen, `rgba(255, 255, 255, ${0.15 + random() * 0.5})`, () =>
        pen.ellipse(x, 3.4 + random() * 0.8, 0.3 + random() * 2.2, 0.16, 0, 0, 7),
      )
    }
    strokeShape(pen, 'rgba(255, 255, 255, .9)', 0.3, () => {
      pen.moveTo(1, 0.5)
      pen.lineTo(long - 1, 0.5)
    })
    pen.restore()
  }
}
