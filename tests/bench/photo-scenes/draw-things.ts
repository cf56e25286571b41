/** Rulers, notes, codes, sides of holders, printed screens, and what is no view of a card at all. */
import type { SKRSContext2D } from '@napi-rs/canvas'
import type { Film } from './camera.ts'
import { type CardLook, letter, nameOf, paragraph, sentence } from './draw-card.ts'
import { drawLabel, type HolderLook } from './draw-holder.ts'
import { shadow } from './draw-table.ts'
import type { Chance } from './random.ts'
import type { SceneSettings } from './scene-settings.ts'
import type { Xy } from './scene-truth.ts'

interface Frame {
  readonly width: number
  readonly height: number
}

export function drawRuler(
  ctx: SKRSContext2D,
  x: number,
  y: number,
  upright: boolean,
  chance: Chance,
  look: CardLook,
): void {
  const inches = chance.happens(0.35)
  const [length, breadth] = [160, 26]
  ctx.save()
  ctx.translate(x, y)
  if (upright) ctx.rotate(-Math.PI / 2)
  const body = chance.pick(['#e8e4d8', '#d9b877', '#c9ced2', '#f6f6f4'])
  shadow(ctx, () => {
    ctx.fillStyle = body
    ctx.fillRect(-length / 2, -breadth / 2, length, breadth)
  })
  ctx.fillStyle = '#1a1a1a'
  const step = inches ? 25.4 / 16 : 1
  const side = chance.pick([-1, 1])
  for (let i = 0; i * step <= length - 6; i++) {
    const long = inches
      ? i % 16 === 0
        ? 9
        : i % 8 === 0
          ? 7
          : i % 4 === 0
            ? 5
            : 3
      : i % 10 === 0
        ? 8
        : i % 5 === 0
          ? 6
          : 4
    const at = -length / 2 + 3 + i * step
    ctx.fillRect(at - 0.1, side < 0 ? -breadth / 2 : breadth / 2 - long, 0.2, long)
    if (inches ? i % 16 === 0 : i % 10 === 0)
      letter(
        ctx,
        `${inches ? i / 16 : i / 10}`,
        at,
        side < 0 ? -breadth / 2 + 12 : breadth / 2 - 9,
        3.6,
        look.text,
        '#1a1a1a',
        'center',
      )
  }
  ctx.restore()
}

export function drawNote(
  ctx: SKRSContext2D,
  x: number,
  y: number,
  w: number,
  h: number,
  hand: string,
  chance: Chance,
): void {
  ctx.save()
  ctx.translate(x, y)
  ctx.rotate(chance.between(-0.12, 0.12))
  const paper = chance.pick(['#fdfcf6', '#f6f2b8', '#ffffff', '#e9eef2'])
  shadow(ctx, () => {
    ctx.fillStyle = paper
    ctx.fillRect(-w / 2, -h / 2, w, h)
  })
  if (chance.happens(0.4)) {
    ctx.strokeStyle = '#9fb6d0'
    ctx.lineWidth = 0.2
    for (let line = -h / 2 + 8; line < h / 2; line += 8) {
      ctx.beginPath()
      ctx.moveTo(-w / 2, line)
      ctx.lineTo(w / 2, line)
      ctx.stroke()
    }
  }
  const ink = chance.pick(['#1b2a6b', '#111111', '#7a1620'])
  const words = [
    `${chance.whole(1, 28)} ${chance.pick(['March', 'July', 'October'])} 20${chance.whole(25, 27)}`,
    `${chance.pick(['K', 'T', 'R', 'M'])}${chance.whole(10, 99)}-${chance.pick(['heron', 'tide', 'gull'])}`,
  ]
  words.forEach((line, i) => {
    ctx.save()
    ctx.rotate(chance.between(-0.05, 0.05))
    letter(ctx, line, 0, -h * 0.08 + i * 14, 13, hand, ink, 'center', w * 0.86)
    ctx.restore()
  })
  ctx.restore()
}

export function drawCodeCloseUp(look: HolderLook, frame: Frame, chance: Chance, card: CardLook) {
  const label = look.label!
  const [x, y] = [-label.width / 2, label.y - label.height / 2]
  const middle: Xy =
    look.code === 'qrcode'
      ? [x + 2 + (label.height - 4) / 2, label.y]
      : [x + 12 + label.width * 0.17, y + label.height - 3.6]
  const span =
    look.code === 'qrcode' ? label.height * chance.between(1.1, 1.7) : label.width * 0.34 * chance.between(1.25, 1.8)
  return {
    centre: [middle[0] + chance.between(-1, 1), middle[1] + chance.between(-1, 1)] as Xy,
    pxPerMm: Math.min(frame.width, look.code === 'qrcode' ? frame.height : Number.POSITIVE_INFINITY) / span,
    card: null,
    design: look.code ?? '',
    draw(ctx: SKRSContext2D) {
      ctx.fillStyle = 'rgba(235,240,242,0.4)'
      ctx.fillRect(-look.width / 2, -look.height / 2, look.width, look.height)
      drawLabel(ctx, look, chance, card, false)
    },
  }
}

/** A sealed holder seen from its side: two shells, a seam, a core. */
export function drawSealedSide(frame: Frame, chance: Chance, look: CardLook) {
  const thick = chance.between(5, 7.5)
  const length = chance.pick([82, 134])
  const whole = chance.happens(0.5)
  const pxPerMm = whole
    ? (Math.max(frame.width, frame.height) * 0.9) / length
    : Math.max(frame.width, frame.height) / chance.between(34, 60)
  return {
    pxPerMm,
    quarterTurn: frame.height > frame.width,
    centre: [whole ? 0 : length * chance.between(-0.15, 0.15), 0] as Xy,
    design: 'side',
    draw(ctx: SKRSContext2D) {
      shadow(
        ctx,
        () => {
          ctx.fillStyle = 'rgba(214,224,228,0.85)'
          ctx.beginPath()
          ctx.roundRect(-length / 2, -thick / 2, length, thick, 1.2)
          ctx.fill()
        },
        2,
      )
      const line = (y: number, wide: number, colour: string, alpha: number) => {
        ctx.globalAlpha = alpha
        ctx.fillStyle = colour
        ctx.fillRect(-length / 2 + 0.6, y - wide / 2, length - 1.2, wide)
        ctx.globalAlpha = 1
      }
      line(-thick / 2 + 0.4, 0.35, '#ffffff', 0.9)
      line(thick / 2 - 0.4, 0.35, '#ffffff', 0.7)
      line(0, 0.3, '#2c3438', 0.75)
      line(0.35, 0.25, '#ffffff', 0.6)
      line(-thick / 4, 0.2, '#7d8a90', 0.6)
      line(thick / 4, 0.2, '#7d8a90', 0.6)
      ctx.globalAlpha = 0.5
      ctx.fillStyle = look.stock
      ctx.fillRect(-length / 2 + 8, -0.3, length - 16, 0.6)
      ctx.globalAlpha = 1
    },
  }
}

/** Ink as dots: four screens at their angles, evaluated for each pixel of the photo itself. */
export function printScreen(film: Film, pxPerMm: number, lpi: number, chance: Chance): void {
  const cell = 25.4 / lpi
  const screens = [
    { angle: 15, ink: [0.15, 0.62, 0.86] },
    { angle: 75, ink: [0.82, 0.16, 0.46] },
    { angle: 0, ink: [0.97, 0.88, 0.16] },
    { angle: 45, ink: [0.14, 0.13, 0.13] },
  ].map((screen) => ({
    ...screen,
    level: chance.between(0.12, 0.5),
    drift: chance.between(-0.25, 0.25),
    turn: (screen.angle * Math.PI) / 180 + chance.between(-0.05, 0.05),
  }))
  const used = chance.happens(0.25) ? screens.slice(3) : screens
  const { width, height, data } = film
  // A rule or letter stroke of solid ink crosses most macros.
  const solid = chance.happens(0.7)
    ? { at: chance.between(0.2, 0.8), wide: chance.between(0.1, 0.5), across: chance.happens(0.5) }
    : null
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const to = 3 * (y * width + x)
      const [mx, my] = [x / pxPerMm, y / pxPerMm]
      for (const { turn, ink, level, drift } of used) {
        const u = ((mx * Math.cos(turn) + my * Math.sin(turn)) / cell) * 2 * Math.PI
        const v = ((-mx * Math.sin(turn) + my * Math.cos(turn)) / cell) * 2 * Math.PI
        const tone = Math.min(0.95, Math.max(0.03, level + drift * (x / width - 0.5) * 2))
        const spot = (Math.cos(u) + Math.cos(v)) / 4 + 0.5
        const edge = Math.min(1, Math.max(0, (spot - (1 - tone)) * ((pxPerMm * cell) / 2) + 0.5))
        for (let k = 0; k < 3; k++) data[to + k] = data[to + k]! * (1 - edge + edge * ink[k]!)
      }
      if (solid) {
        const along = solid.across ? my / (height / pxPerMm) : mx / (width / pxPerMm)
        if (Math.abs(along - solid.at) * (solid.across ? height : width) < (solid.wide * pxPerMm) / 2)
          for (let k = 0; k < 3; k++) data[to + k] = 28
      }
    }
  }
}

/** Photos that belong to listings and show no view: packaging, a box of cards, an invoice, an empty table, a shelf. */
export function drawOther(frame: Frame, chance: Chance, look: CardLook, settings: SceneSettings) {
  const kind = chance.pick(['parcel', 'box', 'invoice', 'table', 'shelf', 'many'] as const)
  const text = chance.pick(settings.fonts.text)[0]
  return {
    pxPerMm: Math.min(frame.width, frame.height) / 240,
    design: kind,
    draw(ctx: SKRSContext2D) {
      if (kind === 'parcel') {
        shadow(
          ctx,
          () => {
            ctx.fillStyle = chance.pick(['#b58a58', '#d8c9a8', '#e8e2c8'])
            ctx.fillRect(-90, -65, 180, 130)
          },
          4,
        )
        ctx.fillStyle = 'rgba(240,230,200,0.55)'
        ctx.fillRect(-90, -10, 180, 22)
        ctx.fillStyle = '#fff'
        ctx.fillRect(-60, -50, 100, 36)
        for (let i = 0; i < 3; i++)
          letter(ctx, `${nameOf(chance)} ${chance.whole(1, 90)}`, -55, -40 + i * 10, 6, text, '#222')
      } else if (kind === 'box') {
        ctx.fillStyle = '#efece4'
        ctx.fillRect(-100, -60, 200, 120)
        for (let x = -92; x < 92; x += chance.between(0.6, 1.4)) {
          ctx.fillStyle = chance.pick(['#c9bb98', '#e9e2cc', '#8a7a58', '#fff', look.inks[0]!])
          ctx.fillRect(x, -44, 0.6, 88)
        }
      } else if (kind === 'invoice') {
        shadow(ctx, () => {
          ctx.fillStyle = '#fdfdfb'
          ctx.fillRect(-85, -110, 170, 220)
        })
        paragraph(ctx, chance, [-75, -100, 150, 190], 5, text, '#333')
      } else if (kind === 'shelf') {
        for (let x = -160; x < 160; ) {
          const thick = chance.between(14, 34)
          ctx.fillStyle = chance.pick(look.inks)
          ctx.fillRect(x, -110, thick - 1, 220)
          ctx.save()
          ctx.translate(x + thick / 2 + 3, 90)
          ctx.rotate(-Math.PI / 2)
          letter(ctx, sentence(chance, 4), 0, 0, 9, look.display, '#f0e6cc')
          ctx.restore()
          x += thick
        }
      } else if (kind === 'many') {
        for (let row = 0; row < 3; row++) {
          for (let column = 0; column < 4; column++) {
            shadow(ctx, () => {
              ctx.fillStyle = look.stock
              ctx.fillRect(-150 + column * 76, -140 + row * 95, look.width, look.height)
            })
            ctx.fillStyle = chance.pick(look.inks)
            ctx.fillRect(-146 + column * 76, -136 + row * 95, look.width - 8, look.height - 14)
          }
        }
      }
    },
  }
}
