/**
 * Holders around a card: the sealed holders of three invented graders with their labels, a screw-down block, a magnetic
 * one-touch, a toploader. Draws in mm; the origin is the holder's top left.
 */
import bwipjs from 'bwip-js/node'
import type { Face } from './card-sprite.ts'
import { fillShape, type Pen, polygon, strokeShape, writeText } from './pen.ts'
import { createRandom } from './random.ts'
import type { HolderSpec, LabelSpec } from './shot.ts'

export interface HolderLayout {
  /** Outer size in mm. */
  readonly width: number
  readonly height: number
  /** Where the card lies in it. */
  readonly cardX: number
  readonly cardY: number
  readonly cardWidth: number
  readonly cardHeight: number
  readonly label: { readonly x: number; readonly y: number; readonly width: number; readonly height: number } | null
}

const LABEL = { width: 68, height: 21 } as const

export function layOutHolder(holder: HolderSpec, cardWidth: number, cardHeight: number): HolderLayout {
  if (holder.kind === 'sealed') {
    const width = Math.max(82, cardWidth + 15)
    const top = 36
    const height = top + Math.max(cardHeight, 88.9) + 9
    return {
      width,
      height,
      cardX: (width - cardWidth) / 2,
      cardY: top + (height - top - 9 - cardHeight) / 2,
      cardWidth,
      cardHeight,
      label: { x: (width - LABEL.width) / 2, y: 7, ...LABEL },
    }
  }
  const margin = {
    'screw-down': [18, 18],
    'one-touch': [9, 12],
    toploader: [6, 7],
    'semi-rigid': [5, 8],
    sleeve: [2, 2],
  }[holder.kind] as [number, number]
  return {
    width: cardWidth + margin[0] * 2,
    height: cardHeight + margin[1] * 2,
    cardX: margin[0],
    cardY: margin[1],
    cardWidth,
    cardHeight,
    label: null,
  }
}

/** The plastic behind the card. The caller draws the card, then `drawHolderTop`. */
export function drawHolderBase(pen: Pen, holder: HolderSpec, layout: HolderLayout): void {
  const { width, height } = layout
  const radius = holder.kind === 'sealed' ? 3 : holder.kind === 'toploader' ? 1.5 : 2
  const plastic = pen.createLinearGradient(0, 0, width, height)
  plastic.addColorStop(0, 'rgba(248, 251, 252, .34)')
  plastic.addColorStop(0.5, 'rgba(226, 234, 237, .2)')
  plastic.addColorStop(1, 'rgba(240, 245, 247, .3)')
  fillShape(pen, plastic, () => pen.roundRect(0, 0, width, height, radius))
  if (holder.kind === 'sealed') {
    fillShape(pen, 'rgba(250, 252, 252, .4)', () => pen.roundRect(5.4, 5.4, width - 10.8, height - 10.8, 2))
    pen.save()
    pen.shadowColor = 'rgba(30, 34, 38, .4)'
    pen.shadowBlur = 8
    fillShape(pen, 'rgba(236, 240, 240, .5)', () =>
      pen.roundRect(layout.cardX - 1.6, layout.cardY - 1.6, layout.cardWidth + 3.2, layout.cardHeight + 3.2, 1.2),
    )
    pen.restore()
  }
}

/** Label, rims, screws and the light on the plastic, over the card. */
export function drawHolderTop(pen: Pen, holder: HolderSpec, layout: HolderLayout, face: Face, seed: number): void {
  const { width, height } = layout
  if (holder.kind === 'sealed' && holder.label && layout.label) {
    pen.save()
    pen.translate(layout.label.x, layout.label.y)
    if (face === 'front') drawLabel(pen, holder.label)
    else drawLabelBack(pen, holder.label)
    pen.restore()
    for (const [inset, alpha] of [
      [0.25, 0.9],
      [2.2, 0.4],
      [5.4, 0.55],
    ] as const) {
      strokeShape(pen, `rgba(255, 255, 255, ${alpha})`, 0.5, () =>
        pen.roundRect(inset, inset, width - inset * 2, height - inset * 2, 3),
      )
      strokeShape(pen, `rgba(90, 104, 112, ${alpha * 0.45})`, 0.3, () =>
        pen.roundRect(inset + 0.45, inset + 0.5, width - inset * 2 - 0.9, height - inset * 2 - 1, 2.6),
      )
    }
    strokeShape(pen, 'rgba(80, 94, 102, .4)', 0.35, () => {
      pen.moveTo(6, 31)
      pen.lineTo(width - 6, 31)
    })
    strokeShape(pen, 'rgba(255, 255, 255, .8)', 0.4, () => {
      pen.moveTo(6, 31.5)
      pen.lineTo(width - 6, 31.5)
    })
  } else {
    strokeShape(pen, 'rgba(255, 255, 255, .85)', 0.6, () => pen.roundRect(0.3, 0.3, width - 0.6, height - 0.6, 2))
    strokeShape(pen, 'rgba(70, 86, 96, .45)', 0.35, () => pen.roundRect(0.9, 0.9, width - 1.8, height - 1.8, 1.7))
  }
  if (holder.kind === 'screw-down') drawScrews(pen, layout, seed)
  if (holder.kind === 'one-touch') drawMagnet(pen, layout)
  if (holder.kind === 'toploader') {
    strokeShape(pen, 'rgba(120, 160, 205, .5)', 0.9, () => pen.rect(1.4, 0, width - 2.8, height - 1.6))
  }
  drawLightOnPlastic(pen, layout, seed)
}

function drawLightOnPlastic(pen: Pen, layout: HolderLayout, seed: number): void {
  const random = createRandom(seed + 5)
  const { width, height } = layout
  pen.save()
  pen.beginPath()
  pen.roundRect(0, 0, width, height, 3)
  pen.clip()
  const from = width * (0.1 + random() * 0.7)
  const streak = pen.createLinearGradient(from, 0, from + width * 0.5, height * 0.4)
  streak.addColorStop(0, 'rgba(255, 255, 255, 0)')
  streak.addColorStop(0.45, 'rgba(255, 255, 255, .11)')
  streak.addColorStop(0.55, 'rgba(255, 255, 255, .15)')
  streak.addColorStop(1, 'rgba(255, 255, 255, 0)')
  pen.fillStyle = streak
  pen.fillRect(0, 0, width, height)
  for (let scratch = 0; scratch < 5; scratch++) {
    const x = random() * width
    const y = random() * height
    strokeShape(pen, 'rgba(255, 255, 255, .22)', 0.08, () => {
      pen.moveTo(x, y)
      pen.lineTo(x + (random() - 0.5) * 14, y + (random() - 0.5) * 14)
    })
  }
  pen.restore()
}

function drawScrews(pen: Pen, layout: HolderLayout, seed: number): void {
  const random = createRandom(seed)
  const { width, height } = layout
  strokeShape(pen, 'rgba(255, 255, 255, .5)', 0.8, () =>
    pen.rect(
      layout.cardX - 2.4,
      layout.cardY - 2.4,
      width - 2 * (layout.cardX - 2.4),
      height - 2 * (layout.cardY - 2.4),
    ),
  )
  strokeShape(pen, 'rgba(60, 76, 86, .35)', 0.4, () =>
    pen.rect(
      layout.cardX - 1.8,
      layout.cardY - 1.8,
      width - 2 * (layout.cardX - 1.8),
      height - 2 * (layout.cardY - 1.8),
    ),
  )
  for (const [x, y] of [
    [8.5, 8.5],
    [width - 8.5, 8.5],
    [8.5, height - 8.5],
    [width - 8.5, height - 8.5],
  ] as const) {
    pen.save()
    pen.translate(x, y)
    pen.shadowColor = 'rgba(20, 20, 20, .5)'
    pen.shadowBlur = 10
    const brass = pen.createRadialGradient(-1.4, -1.6, 0.4, 0, 0, 4.4)
    brass.addColorStop(0, '#fff1c6')
    brass.addColorStop(0.4, '#cda45a')
    brass.addColorStop(1, '#6e4e1f')
    fillShape(pen, brass, () => pen.ellipse(0, 0, 4.2, 4.2, 0, 0, 7))
    pen.shadowColor = 'transparent'
    strokeShape(pen, '#5a3f17', 0.35, () => pen.ellipse(0, 0, 3.1, 3.1, 0, 0, 7))
    pen.rotate(random() * 3)
    fillShape(pen, '#3a2810', () => pen.rect(-3, -0.5, 6, 1))
    pen.restore()
  }
}

function drawMagnet(pen: Pen, layout: HolderLayout): void {
  const steel = pen.createLinearGradient(0, 3, 0, 9)
  steel.addColorStop(0, '#f4f4f2')
  steel.addColorStop(1, '#8c8f90')
  fillShape(pen, steel, () => pen.ellipse(layout.width / 2, 6, 3.6, 3.6, 0, 0, 7))
  strokeShape(pen, '#5c6062', 0.3, () => pen.ellipse(layout.width / 2, 6, 3.6, 3.6, 0, 0, 7))
}

const LOOKS = {
  KVX: { paper: '#f6f2e6', band: '#14392f', ink: '#14392f', accent: '#b98a2f', words: 'KESTREL VAULT EXAMINERS' },
  OLQ: { paper: '#f3ead4', band: '#1c1a1f', ink: '#231d18', accent: '#c79a3a', words: 'OLD LANTERN QUORUM' },
  ZWY: { paper: '#e9eef3', band: '#3b5b9a', ink: '#1d2f57', accent: '#5aa0c8', words: 'ZEPHYR WYTHE' },
} as const

/** The label in its own box of 68 × 21 mm. */
export function drawLabel(pen: Pen, label: LabelSpec): void {
  const look = LOOKS[label.grader]
  const { width, height } = LABEL
  fillShape(pen, look.paper, () => pen.rect(0, 0, width, height))
  fillShape(pen, look.band, () => pen.rect(0, 0, width, 4.6))
  fillShape(pen, look.accent, () => pen.rect(0, 4.6, width, 0.5))
  drawMark(pen, label.grader, 4.2, 2.4)
  writeText(pen, label.grader, 7.4, 3.55, { font: 'Jost', size: 3.6, colour: look.paper, spacing: 0.4 })
  writeText(pen, look.words, width - 2, 3.2, {
    font: 'Jost',
    size: 1.9,
    colour: look.paper,
    align: 'right',
    spacing: 0.12,
  })
  label.lines.forEach((line, place) => {
    writeText(pen, line, 2.4, 8.3 + place * 3.15, {
      font: 'Condensed Bold',
      size: 2.9,
      colour: look.ink,
      widest: 44,
      spacing: 0.06,
    })
  })
  fillShape(pen, look.band, () => pen.roundRect(width - 16.4, 6.1, 14.4, 13.4, 1))
  writeText(pen, label.gradeWords, width - 9.2, 9.1, {
    font: 'Condensed Bold',
    size: 2.4,
    colour: look.paper,
    align: 'center',
    widest: 12.6,
  })
  writeText(pen, label.grade, width - 9.2, 17.6, {
    font: 'Jost',
    size: label.grade.length > 1 ? 7.2 : 9,
    colour: look.paper,
    align: 'center',
  })
  drawCode(pen, label.certificate, 2.4, 15.9, 24, 3.2, look.ink)
  writeText(pen, label.certificate, 28.6, 18.6, { font: 'Condensed Bold', size: 3.1, colour: look.ink, spacing: 0.18 })
  if (label.covered) drawStrip(pen, 1.4, 15.1, 46, 5.2)
}

/** The back of a label: mark, address of the record page, the number again as a square code. */
export function drawLabelBack(pen: Pen, label: LabelSpec): void {
  const look = LOOKS[label.grader]
  const { width, height } = LABEL
  fillShape(pen, look.band, () => pen.rect(0, 0, width, height))
  const shimmer = pen.createLinearGradient(18, 2, 50, 19)
  ;['#c9b7e8', '#a9e0e0', '#f2e3a8', '#e3b3c9', '#b7d6f2'].forEach((colour, place) => {
    shimmer.addColorStop(place / 4, colour)
  })
  fillShape(pen, shimmer, () => pen.ellipse(width / 2, height / 2, 8, 8, 0, 0, 7))
  pen.save()
  pen.translate(width / 2, height / 2)
  pen.scale(2.2, 2.2)
  drawMark(pen, label.grader, 0, 0)
  pen.restore()
  writeText(pen, look.words, 2.4, 5, { font: 'Jost', size: 2.1, colour: look.paper, widest: 22 })
  writeText(pen, 'SEALED AND NUMBERED', 2.4, 8.4, { font: 'Condensed', size: 2, colour: look.accent })
  writeText(pen, label.certificate, 2.4, 18, { font: 'Condensed Bold', size: 3.1, colour: look.paper, spacing: 0.18 })
  fillShape(pen, look.paper, () => pen.rect(width - 18, 3, 15.4, 15.4))
  drawSquareCode(pen, label.certificate, width - 16.8, 4.2, 13)
  if (label.covered) {
    drawStrip(pen, 1, 14.6, 22, 5)
    drawStrip(pen, width - 18.6, 2.4, 16.6, 16.6)
  }
}

/** A strip of paper over what the seller does not want read. */
function drawStrip(pen: Pen, x: number, y: number, width: number, height: number): void {
  pen.save()
  pen.translate(x, y)
  pen.rotate(-0.02)
  pen.shadowColor = 'rgba(20, 20, 20, .45)'
  pen.shadowBlur = 5
  pen.shadowOffsetY = 2
  fillShape(pen, '#f7f5ee', () =>
    polygon(pen, [
      [0, 0.2],
      [width, -0.1],
      [width + 0.2, height],
      [-0.1, height + 0.15],
    ]),
  )
  pen.restore()
}

function drawMark(pen: Pen, grader: LabelSpec['grader'], x: number, y: number): void {
  const look = LOOKS[grader]
  pen.save()
  pen.translate(x, y)
  if (grader === 'KVX') {
    for (const lift of [0, 1.2]) {
      strokeShape(pen, look.accent, 0.6, () => {
        pen.moveTo(-2, 0.9 - lift)
        pen.quadraticCurveTo(-0.6, -1.2 - lift + 0.6, 0, 0.6 - lift)
        pen.quadraticCurveTo(0.6, -1.2 - lift + 0.6, 2, 0.9 - lift)
      })
    }
  } else if (grader === 'OLQ') {
    strokeShape(pen, look.accent, 0.4, () =>
      polygon(pen, [
        [-1, -1],
        [1, -1],
        [1.5, 1.5],
        [-1.5, 1.5],
      ]),
    )
    fillShape(pen, look.accent, () => pen.ellipse(0, 0.4, 0.5, 0.9, 0, 0, 7))
    strokeShape(pen, look.accent, 0.3, () => pen.arc(0, -1, 0.9, Math.PI, 0))
  } else {
    for (const drop of [-0.8, 0.3, 1.4]) {
      strokeShape(pen, look.accent, 0.5, () => {
        pen.moveTo(-2.2, drop)
        pen.bezierCurveTo(-0.8, drop - 1.3, 0.8, drop + 1.3, 2.2, drop)
      })
    }
  }
  pen.restore()
}

interface BarSizes {
  readonly sbs: readonly number[]
}

/** Code 128, drawn bar by bar so that its edges are as sharp as the photo allows. */
export function drawCode(
  pen: Pen,
  text: string,
  x: number,
  y: number,
  width: number,
  height: number,
  colour: string,
): void {
  const [code] = bwipjs.raw('code128', text) as unknown as [BarSizes]
  const total = code.sbs.reduce((sum, size) => sum + size, 0)
  const module = width / total
  let at = x
  code.sbs.forEach((size, place) => {
    if (place % 2 === 0) fillShape(pen, colour, () => pen.rect(at, y, size * module, height))
    at += size * module
  })
}

interface Squares {
  readonly pixs: readonly number[]
  readonly pixx: number
}

function drawSquareCode(pen: Pen, text: string, x: number, y: number, size: number): void {
  const [code] = bwipjs.raw('qrcode', text) as unknown as [Squares]
  const module = size / code.pixx
  code.pixs.forEach((dark, place) => {
    if (!dark) return
    const column = place % code.pixx
    const row = Math.floor(place / code.pixx)
    fillShape(pen, '#15181c', () => pen.rect(x + column * module, y + row * module, module * 1.02, module * 1.02))
  })
}
