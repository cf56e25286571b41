/**
 * Invented cards, drawn flat in millimetres: their origin is the card's own top left.
 * Long because it is a list: one design after the other.
 */

import { join } from 'node:path'
import { GlobalFonts, type SKRSContext2D } from '@napi-rs/canvas'
import type { Chance } from './random.ts'
import type { BackDesign, FrontDesign, SceneSettings } from './scene-settings.ts'

export interface CardLook {
  readonly width: number
  readonly height: number
  readonly front: FrontDesign
  readonly back: BackDesign
  readonly stock: string
  readonly inks: readonly string[]
  readonly display: string
  readonly text: string
  readonly seed: number
  readonly border: readonly [left: number, top: number, right: number, bottom: number]
}

const registered = new Set<string>()
export function registerFonts(settings: SceneSettings): void {
  for (const [family, file] of Object.values(settings.fonts).flat()) {
    if (registered.has(family)) continue
    registered.add(family)
    GlobalFonts.registerFromPath(join(import.meta.dirname, '../../../node_modules', file), family)
  }
}

const GIVEN = ['Edda', 'Osric', 'Linnet', 'Tobias', 'Marta', 'Ferris', 'Ansel', 'Ravenna', 'Colm', 'Sefton']
const FAMILY = ['Tarrow', 'Quell', 'Hexley', 'Dunmarch', 'Pardoe', 'Sandquist', 'Merrow', 'Aldine', 'Crake', 'Vossberg']
const WORDS =
  'the of tide court keeper who first struck wide against harbour wind in season and held a long rally that nobody had seen before when sea wall club took cup by two points his sister later kept books for this league until old pier was lost once more'.split(
    ' ',
  )

export const nameOf = (chance: Chance) => `${chance.pick(GIVEN)} ${chance.pick(FAMILY)}`
export const sentence = (chance: Chance, words: number) =>
  Array.from({ length: words }, () => chance.pick(WORDS)).join(' ')

/** A lettered line; `size` is the height of its capitals' box in mm. */
export function letter(
  ctx: SKRSContext2D,
  words: string,
  x: number,
  y: number,
  size: number,
  font: string,
  colour: string,
  align: 'left' | 'center' | 'right' = 'left',
  most = Number.POSITIVE_INFINITY,
): void {
  ctx.save()
  ctx.translate(x, y)
  // Hinting and rounding are set for whole pixels: letters are laid out large and scaled down.
  ctx.scale(size / 40, size / 40)
  ctx.font = `40px "${font}"`
  ctx.textAlign = align
  ctx.textBaseline = 'alphabetic'
  ctx.fillStyle = colour
  const width = ctx.measureText(words).width
  const room = (most * 40) / size
  if (width > room) ctx.scale(room / width, 1)
  ctx.fillText(words, 0, 0)
  ctx.restore()
}

export function paragraph(
  ctx: SKRSContext2D,
  chance: Chance,
  box: readonly [number, number, number, number],
  size: number,
  font: string,
  colour: string,
): void {
  const [x, y, width, height] = box
  ctx.save()
  ctx.font = `40px "${font}"`
  for (let line = size; line < height; line += size * 1.28) {
    let words = ''
    for (;;) {
      const longer = `${words}${words === '' ? '' : ' '}${chance.pick(WORDS)}`
      if ((ctx.measureText(longer).width * size) / 40 > width) break
      words = longer
    }
    letter(ctx, words, x, y + line, size, font, colour)
  }
  ctx.restore()
}

/** Something pictorial: light falling from one side, far shapes, a figure, grain. */
export function picture(
  ctx: SKRSContext2D,
  chance: Chance,
  x: number,
  y: number,
  w: number,
  h: number,
  inks: readonly string[],
): void {
  ctx.save()
  ctx.beginPath()
  ctx.rect(x, y, w, h)
  ctx.clip()
  const sky = ctx.createLinearGradient(x, y, x + w * chance.between(-0.4, 0.4), y + h)
  sky.addColorStop(0, chance.pick(['#9fc3d8', '#e3d3a0', '#c7dbe0', '#d9b38c', '#7f9fb8']))
  sky.addColorStop(0.65, chance.pick(['#e9e2cc', '#cfd8c4', '#b7a98a', '#8aa0a0']))
  sky.addColorStop(1, chance.pick(['#6d7d52', '#8a7350', '#4f6672', '#a08a5a']))
  ctx.fillStyle = sky
  ctx.fillRect(x, y, w, h)
  for (let i = 0; i < 26; i++) {
    ctx.globalAlpha = chance.between(0.08, 0.4)
    ctx.fillStyle = chance.pick([...inks, '#ffffff', '#000000'])
    ctx.beginPath()
    ctx.ellipse(
      x + chance.between(0, w),
      y + chance.between(0.25, 1) * h,
      chance.between(0.04, 0.22) * w,
      chance.between(0.02, 0.1) * h,
      chance.between(0, 3),
      0,
      7,
    )
    ctx.fill()
  }
  ctx.globalAlpha = 1
  figure(ctx, chance, x + w / 2 + chance.between(-0.1, 0.1) * w, y + h, Math.min(w, h * 0.75), h * 0.86, inks)
  for (let i = 0; i < 500; i++) {
    ctx.globalAlpha = chance.between(0.03, 0.16)
    ctx.fillStyle = chance.happens(0.5) ? '#000' : '#fff'
    ctx.fillRect(x + chance.next() * w, y + chance.next() * h, chance.between(0.1, 0.7), chance.between(0.1, 0.7))
  }
  ctx.restore()
}

function figure(
  ctx: SKRSContext2D,
  chance: Chance,
  cx: number,
  foot: number,
  width: number,
  height: number,
  inks: readonly string[],
): void {
  const skin = chance.pick(['#d9a882', '#b98058', '#8a5a3c', '#e6c0a0'])
  const shirt = chance.pick(inks)
  const head = height * 0.1
  const top = foot - height
  const shade = ctx.createLinearGradient(cx - width * 0.25, 0, cx + width * 0.25, 0)
  shade.addColorStop(0, shirt)
  shade.addColorStop(1, '#00000088')
  const limb = (x0: number, y0: number, x1: number, y1: number, thick: number, colour: string) => {
    ctx.strokeStyle = colour
    ctx.lineWidth = thick
    ctx.lineCap = 'round'
    ctx.beginPath()
    ctx.moveTo(x0, y0)
    ctx.lineTo(x1, y1)
    ctx.stroke()
  }
  const [shoulder, hip] = [top + head * 2.3, top + height * 0.55]
  limb(cx - width * 0.06, hip, cx - width * chance.between(0.05, 0.2), foot, width * 0.11, chance.pick(inks))
  limb(cx + width * 0.06, hip, cx + width * chance.between(0.05, 0.2), foot, width * 0.11, chance.pick(inks))
  ctx.fillStyle = shirt
  ctx.beginPath()
  ctx.roundRect(cx - width * 0.16, shoulder, width * 0.32, hip - shoulder + width * 0.05, width * 0.06)
  ctx.fill()
  ctx.fillStyle = shade
  ctx.globalAlpha = 0.5
  ctx.fill()
  ctx.globalAlpha = 1
  limb(
    cx - width * 0.15,
    shoulder + 2,
    cx - width * chance.between(0.25, 0.42),
    shoulder + height * chance.between(-0.1, 0.25),
    width * 0.08,
    skin,
  )
  limb(
    cx + width * 0.15,
    shoulder + 2,
    cx + width * chance.between(0.25, 0.42),
    shoulder + height * chance.between(-0.1, 0.25),
    width * 0.08,
    skin,
  )
  ctx.fillStyle = skin
  ctx.beginPath()
  ctx.ellipse(cx, top + head, head * 0.78, head, 0, 0, 7)
  ctx.fill()
  ctx.fillStyle = chance.pick(['#2a1c12', '#5a3a1a', '#111111', '#8a8378'])
  ctx.beginPath()
  ctx.ellipse(cx, top + head * 0.55, head * 0.85, head * 0.6, 0, Math.PI, 2 * Math.PI)
  ctx.fill()
}

export function drawFront(ctx: SKRSContext2D, look: CardLook, chance: Chance): void {
  const { width: w, height: h, inks, stock, display } = look
  const [l, t, r, b] = look.border
  const name = nameOf(chance).toUpperCase()
  ctx.fillStyle = stock
  ctx.fillRect(0, 0, w, h)
  switch (look.front) {
    case 'bordered':
      picture(ctx, chance, l, t, w - l - r, h - t - b - 7, inks)
      letter(ctx, name, w / 2, h - b - 1.6, 4, display, inks[0]!, 'center', w - l - r)
      break
    case 'full-bleed':
      picture(ctx, chance, 0, 0, w, h, inks)
      ctx.fillStyle = inks[1]!
      ctx.fillRect(0, h * 0.84, w, h * 0.09)
      letter(ctx, name, w / 2, h * 0.9, 4.2, display, '#ffffff', 'center', w - 6)
      break
    case 'inner-frame':
      ctx.strokeStyle = inks[0]!
      ctx.lineWidth = 0.7
      ctx.strokeRect(l, t, w - l - r, h - t - b)
      picture(ctx, chance, l + 1.6, t + 1.6, w - l - r - 3.2, h - t - b - 13, inks)
      ctx.fillStyle = inks[2]!
      ctx.fillRect(l + 1.6, h - b - 10, w - l - r - 3.2, 8.4)
      letter(ctx, name, w / 2, h - b - 4.2, 4, display, inks[0]!, 'center', w - l - r - 6)
      break
    case 'bust': {
      ctx.fillStyle = chance.pick(inks)
      ctx.fillRect(l, t, w - l - r, h - t - b)
      ctx.save()
      ctx.beginPath()
      ctx.rect(l, t, w - l - r, h - t - b)
      ctx.clip()
      figure(ctx, chance, w / 2, h * 1.5, w * 1.5, h * 1.32, inks)
      ctx.restore()
      letter(ctx, name, w / 2, h - b - 3, 4.6, display, '#fff6e0', 'center', w - l - r - 4)
      break
    }
    case 'landscape':
      picture(ctx, chance, l, t + 8, w - l - r, (h - t - b) * 0.55, inks)
      letter(ctx, name, w / 2, t + 5.4, 4, display, inks[1]!, 'center', w - l - r)
      picture(ctx, chance, l, t + 10 + (h - t - b) * 0.55, w - l - r, (h - t - b) * 0.45 - 10, inks)
      break
    case 'oval': {
      ctx.fillStyle = inks[2]!
      ctx.fillRect(l, t, w - l - r, h - t - b)
      ctx.save()
      ctx.beginPath()
      ctx.ellipse(w / 2, h * 0.45, w * 0.38, h * 0.35, 0, 0, 7)
      ctx.clip()
      picture(ctx, chance, 0, 0, w, h * 0.82, inks)
      ctx.restore()
      ctx.strokeStyle = inks[0]!
      ctx.lineWidth = 0.9
      ctx.stroke()
      letter(ctx, name, w / 2, h - b - 5, 4.4, display, inks[0]!, 'center', w - l - r - 4)
      break
    }
    case 'two-panels':
      picture(ctx, chance, l, t, (w - l - r) * 0.62, h - t - b, inks)
      ctx.fillStyle = inks[1]!
      ctx.fillRect(l + (w - l - r) * 0.62, t, (w - l - r) * 0.38, h - t - b)
      ctx.save()
      ctx.translate(w - r - 6, h - b - 4)
      ctx.rotate(-Math.PI / 2)
      letter(ctx, name, 0, 0, 6, display, '#f4ead0', 'left', h - t - b - 8)
      ctx.restore()
      break
    case 'stripes':
      ctx.fillStyle = '#14161c'
      ctx.fillRect(0, 0, w, h)
      for (let i = -8; i < 24; i++) {
        ctx.save()
        ctx.translate(i * 6, 0)
        ctx.rotate(0.5)
        ctx.globalAlpha = 0.55
        ctx.fillStyle = inks[i & 3] ?? inks[0]!
        ctx.fillRect(0, -40, chance.between(1, 3), 220)
        ctx.restore()
      }
      ctx.globalAlpha = 1
      figure(ctx, chance, w / 2, h * 0.98, w * 0.95, h * 0.86, inks)
      letter(ctx, name, w / 2, h * 0.95, 5, display, '#ffffff', 'center', w - 8)
      break
    case 'engraving': {
      ctx.save()
      ctx.beginPath()
      ctx.rect(l, t, w - l - r, h - t - b - 9)
      ctx.clip()
      ctx.strokeStyle = inks[0]!
      for (let y = t; y < h; y += 0.8) {
        ctx.lineWidth = 0.16 + 0.3 * (0.5 + 0.5 * Math.sin(y * 0.21 + look.seed))
        ctx.beginPath()
        for (let x = l; x <= w - r; x += 1.5) ctx.lineTo(x, y + Math.sin(x * 0.25 + y * 0.1) * 0.5)
        ctx.stroke()
      }
      figure(ctx, chance, w / 2, h - b - 9, w * 0.9, h * 0.74, [inks[0]!, inks[1]!])
      ctx.restore()
      ctx.lineWidth = 0.5
      ctx.strokeRect(l, t, w - l - r, h - t - b - 9)
      letter(ctx, name, w / 2, h - b - 2, 4.2, display, inks[0]!, 'center', w - l - r)
      break
    }
    case 'banner':
      ctx.fillStyle = inks[1]!
      ctx.fillRect(l, t, w - l - r, 9)
      letter(ctx, name, w / 2, t + 6.6, 5, display, stock, 'center', w - l - r - 4)
      picture(ctx, chance, l, t + 10, w - l - r, h - t - b - 10, inks)
      break
  }
}

export function drawBack(ctx: SKRSContext2D, look: CardLook, chance: Chance): void {
  const { width: w, height: h, inks, stock, display, text } = look
  const [l, t, r, b] = look.border
  const ink = chance.pick([inks[0]!, inks[3] ?? inks[0]!, '#26241f'])
  ctx.fillStyle = stock
  ctx.fillRect(0, 0, w, h)
  const size = chance.between(1.7, 2.3)
  const inner = w - l - r - 4
  switch (look.back) {
    case 'biography':
      ctx.strokeStyle = ink
      ctx.lineWidth = 0.5
      ctx.strokeRect(l, t, w - l - r, h - t - b)
      letter(ctx, nameOf(chance).toUpperCase(), w / 2, t + 7, 4.4, display, ink, 'center', inner)
      paragraph(ctx, chance, [l + 2, t + 10, inner, h - t - b - 22], size, text, ink)
      letter(
        ctx,
        `No. ${chance.whole(1, 240)} of a series of 240`,
        w / 2,
        h - b - 3,
        2.4,
        display,
        ink,
        'center',
        inner,
      )
      break
    case 'statistics': {
      ctx.fillStyle = `${inks[1]!}`
      ctx.fillRect(l, t, w - l - r, 10)
      letter(ctx, nameOf(chance), l + 3, t + 7, 4.6, display, stock, 'left', inner)
      letter(
        ctx,
        `Height ${chance.whole(60, 76)}  Born ${chance.whole(1901, 1935)}  Club Brinehaven`,
        l + 2,
        t + 15,
        2.1,
        text,
        ink,
        'left',
        inner,
      )
      let y = t + 20
      for (; y < h * 0.62; y += size * 1.4) {
        for (let column = 0; column < 6; column++)
          letter(
            ctx,
            `${chance.whole(0, column === 0 ? 1958 : 240)}`,
            l + 2 + ((column + 0.8) * inner) / 6,
            y,
            size,
            text,
            ink,
            'right',
          )
      }
      paragraph(ctx, chance, [l + 2, y + 1, inner, h - b - y - 5], size, text, ink)
      break
    }
    case 'advert':
      letter(ctx, 'COLLECT', w / 2, h * 0.2, 8, display, ink, 'center', inner)
      letter(ctx, 'THE WHOLE SERIES', w / 2, h * 0.3, 5, display, ink, 'center', inner)
      paragraph(ctx, chance, [l + 5, h * 0.36, w - l - r - 10, h * 0.38], size * 1.1, text, ink)
      letter(ctx, 'Tollgate Sweets Limited', w / 2, h * 0.88, 4, display, ink, 'center', inner)
      break
    case 'blank':
      break
    case 'cartoon':
      ctx.strokeStyle = ink
      ctx.lineWidth = 0.5
      ctx.strokeRect(l + 1, t + 1, 24, 24)
      figure(ctx, chance, l + 13, t + 24, 20, 20, [ink])
      paragraph(ctx, chance, [l + 28, t + 1, w - l - r - 29, 24], size, text, ink)
      letter(ctx, nameOf(chance), l + 1, t + 32, 4.2, display, ink, 'left', inner)
      paragraph(ctx, chance, [l + 1, t + 34, w - l - r - 2, h - t - b - 42], size, text, ink)
      break
    case 'columns':
      letter(ctx, nameOf(chance).toUpperCase(), w / 2, t + 6, 4.6, display, ink, 'center', inner)
      ctx.fillStyle = ink
      ctx.fillRect(w / 2 - 0.15, t + 10, 0.3, h - t - b - 14)
      paragraph(ctx, chance, [l + 1, t + 9, (w - l - r) / 2 - 3, h - t - b - 14], size, text, ink)
      paragraph(ctx, chance, [w / 2 + 2, t + 9, (w - l - r) / 2 - 3, h - t - b - 14], size, text, ink)
      break
    case 'checklist': {
      letter(ctx, 'CHECK LIST', w / 2, t + 6, 5, display, ink, 'center', inner)
      let number = chance.whole(1, 80)
      for (let column = 0; column < 2; column++) {
        for (let y = t + 11; y < h - b - 2; y += size * 1.5)
          letter(
            ctx,
            `${number++}  ${nameOf(chance)}`,
            l + 2 + (column * (w - l - r)) / 2,
            y,
            size,
            text,
            ink,
            'left',
            (w - l - r) / 2 - 4,
          )
      }
      break
    }
    case 'pattern':
      ctx.fillStyle = ink
      ctx.fillRect(l, t, w - l - r, h - t - b)
      ctx.strokeStyle = stock
      ctx.lineWidth = 0.35
      ctx.save()
      ctx.beginPath()
      ctx.rect(l, t, w - l - r, h - t - b)
      ctx.clip()
      for (let x = -h; x < w + h; x += 4) {
        ctx.beginPath()
        ctx.moveTo(x, 0)
        ctx.lineTo(x + h, h)
        ctx.moveTo(x, h)
        ctx.lineTo(x + h, 0)
        ctx.stroke()
      }
      ctx.restore()
      ctx.fillStyle = ink
      ctx.strokeStyle = stock
      ctx.beginPath()
      ctx.ellipse(w / 2, h / 2, w * 0.2, w * 0.2, 0, 0, 7)
      ctx.fill()
      ctx.stroke()
      letter(ctx, 'T S', w / 2, h / 2 + 2.5, 8, display, stock, 'center')
      break
  }
}
