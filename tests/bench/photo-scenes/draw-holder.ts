/** Holders of several kinds, drawn in millimetres; origin at the holder's middle. Each says where its card and label lie. */
import type { SKRSContext2D } from '@napi-rs/canvas'
import bwipjs from 'bwip-js/node'
import { letter, nameOf } from './draw-card.ts'
import { drawGlare, shadow } from './draw-table.ts'
import type { Chance } from './random.ts'
import type { SceneSettings } from './scene-settings.ts'
import type { SceneHolder } from './scene-truth.ts'

export interface HolderLook {
  readonly kind: SceneHolder
  readonly width: number
  readonly height: number
  /** Middle of the card relative to the holder's. */
  readonly cardY: number
  readonly label: { readonly y: number; readonly width: number; readonly height: number; readonly paper: string } | null
  readonly frost: number
  readonly certificate: string
  readonly grade: string
  readonly grader: string
  readonly code: 'code128' | 'qrcode' | null
  readonly corner: number
}

export function chooseHolder(
  kind: SceneHolder,
  card: readonly [number, number],
  settings: SceneSettings,
  chance: Chance,
): HolderLook {
  const digits = chance.whole(6, 10)
  const base = {
    kind,
    frost: chance.between(...settings.slab.frost),
    certificate: Array.from({ length: digits }, (_, i) => chance.whole(i === 0 ? 1 : 0, 9)).join(''),
    grade: chance.pick(['1', '2', '3.5', '4', '5', '6', '7', '7.5', '8', '9']),
    grader: Array.from({ length: 3 }, () => chance.pick([...'BDFHJKLQRVWXZ'])).join(''),
    code: chance.pick(['code128', 'qrcode', null] as const),
    label: null,
    cardY: 0,
  }
  const [w, h] = card
  if (kind === 'sealed') {
    const [width, height] = [chance.between(...settings.slab.width), chance.between(...settings.slab.height)]
    const inset = chance.between(...settings.slab.labelInset)
    const label = {
      y: -height / 2 + inset + 11,
      width: width - 2 * inset,
      height: chance.between(19, 24),
      paper: chance.pick(settings.slab.label),
    }
    const under = label.y + label.height / 2
    return { ...base, width, height, label, cardY: (under + height / 2) / 2, corner: chance.between(1.5, 6) }
  }
  if (kind === 'screw-down')
    return { ...base, width: w + chance.between(24, 40), height: h + chance.between(24, 40), corner: 1 }
  if (kind === 'one-touch')
    return { ...base, width: w + chance.between(17, 22), height: h + chance.between(20, 26), corner: 3 }
  if (kind === 'toploader')
    return {
      ...base,
      width: w + chance.between(11, 14),
      height: h + chance.between(12, 16),
      cardY: chance.between(1, 4),
      corner: 2,
    }
  return { ...base, width: w + chance.between(2, 4), height: h + chance.between(3, 6), cardY: 1, corner: 0.5 }
}

export function drawUnder(ctx: SKRSContext2D, look: HolderLook): void {
  const [w, h] = [look.width, look.height]
  shadow(
    ctx,
    () => {
      ctx.fillStyle = `rgba(236,240,242,${0.1 + look.frost})`
      ctx.beginPath()
      ctx.roundRect(-w / 2, -h / 2, w, h, look.corner)
      ctx.fill()
    },
    look.kind === 'sleeve' ? 0.4 : 2.2,
  )
}

/** What lies over the card: rims, wells, label, screws. */
export function drawOver(
  ctx: SKRSContext2D,
  look: HolderLook,
  card: readonly [number, number],
  chance: Chance,
  fonts: { display: string; text: string },
  back: boolean,
): void {
  const [w, h] = [look.width, look.height]
  const rim = (inset: number, line: number, colour: string, alpha: number) => {
    ctx.globalAlpha = alpha
    ctx.strokeStyle = colour
    ctx.lineWidth = line
    ctx.beginPath()
    ctx.roundRect(-w / 2 + inset, -h / 2 + inset, w - 2 * inset, h - 2 * inset, Math.max(0.2, look.corner - inset))
    ctx.stroke()
    ctx.globalAlpha = 1
  }
  if (look.kind === 'sleeve') {
    rim(0.3, 0.25, '#ffffff', 0.55)
    for (let i = 0; i < 4; i++)
      drawGlare(ctx, chance.between(-w / 2, w / 2), chance.between(-h / 2, h / 2), chance.between(4, 14), 0.22, chance)
    return
  }
  rim(0.3, 0.5, '#ffffff', 0.75)
  rim(0.8, 0.3, '#30363a', 0.4)
  if (look.kind === 'toploader') {
    rim(2.4, 0.25, '#ffffff', 0.4)
    ctx.globalAlpha = 0.5
    ctx.strokeStyle = '#fff'
    ctx.lineWidth = 0.4
    ctx.beginPath()
    ctx.arc(0, -h / 2 - 4, 11, 0.55, Math.PI - 0.55)
    ctx.stroke()
    ctx.globalAlpha = 1
    return
  }
  rim(2, 0.6, '#ffffff', 0.5)
  const [cw, ch] = [card[0] + 1.5, card[1] + 1.5]
  ctx.globalAlpha = 0.6
  ctx.strokeStyle = '#dfe6ea'
  ctx.lineWidth = 0.45
  ctx.strokeRect(-cw / 2, look.cardY - ch / 2, cw, ch)
  ctx.globalAlpha = 1
  if (look.kind === 'screw-down') {
    for (const [x, y] of [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const)
      screw(ctx, x * (w / 2 - 6.5), y * (h / 2 - 6.5), chance)
  }
  if (look.kind === 'one-touch') {
    ctx.fillStyle = '#8d9296'
    ctx.beginPath()
    ctx.arc(0, -h / 2 + 4.4, 2.6, 0, 7)
    ctx.fill()
    ctx.strokeStyle = '#dfe3e6'
    ctx.lineWidth = 0.4
    ctx.stroke()
  }
  if (look.label) drawLabel(ctx, look, chance, fonts, back)
}

function screw(ctx: SKRSContext2D, x: number, y: number, chance: Chance): void {
  ctx.save()
  ctx.translate(x, y)
  ctx.rotate(chance.between(0, 3))
  const metal = ctx.createLinearGradient(-3, -3, 3, 3)
  metal.addColorStop(0, '#f1f1ee')
  metal.addColorStop(1, '#6b6b66')
  ctx.fillStyle = metal
  ctx.beginPath()
  ctx.arc(0, 0, 3, 0, 7)
  ctx.fill()
  ctx.fillStyle = '#2a2a28'
  ctx.fillRect(-2.4, -0.35, 4.8, 0.7)
  ctx.restore()
}

export function drawLabel(
  ctx: SKRSContext2D,
  look: HolderLook,
  chance: Chance,
  fonts: { display: string; text: string },
  back: boolean,
): void {
  const { label } = look
  if (!label) return
  const [x, y, w, h] = [-label.width / 2, label.y - label.height / 2, label.width, label.height]
  const ink = label.paper === '#2d3a4f' ? '#f3f1e8' : chance.pick(['#1a1a1a', '#20304a', '#3a1a1a'])
  ctx.fillStyle = label.paper
  ctx.fillRect(x, y, w, h)
  ctx.strokeStyle = ink
  ctx.lineWidth = 0.3
  if (chance.happens(0.6)) ctx.strokeRect(x + 0.8, y + 0.8, w - 1.6, h - 1.6)
  if (back) {
    // A maker's sign; nothing to read but, on some, a code.
    ctx.globalAlpha = 0.8
    ctx.beginPath()
    ctx.ellipse(0, label.y, h * 0.32, h * 0.32, 0, 0, 7)
    ctx.lineWidth = 1
    ctx.stroke()
    ctx.globalAlpha = 1
    letter(ctx, look.grader, 0, label.y + 1.6, 5, fonts.display, ink, 'center')
    if (look.code === 'qrcode') drawCode(ctx, 'qrcode', look.certificate, x + w - h + 2, y + 3, h - 6, h - 6)
    return
  }
  const column = look.code === 'qrcode' ? h - 4 : 0
  const lines = [
    `${chance.whole(1909, 1988)} ${chance.pick(['TOLLGATE SWEETS', 'BRINE & SONS', 'HARBOUR GUM'])}`,
    `#${chance.whole(1, 240)} ${nameOf(chance).toUpperCase()}`,
    chance.pick(['COURT STARS', 'TIDE SERIES', 'FIRST PRINTING']),
  ]
  lines.forEach((line, i) => {
    letter(ctx, line, x + 2 + column, y + 5 + i * (h - 8) * 0.26, 2.6, fonts.text, ink, 'left', w * 0.62 - column)
  })
  letter(ctx, look.grade, x + w - 3, y + h * 0.55, h * 0.42, fonts.display, ink, 'right')
  letter(ctx, chance.pick(['NM-MT', 'VG', 'EX', 'GOOD', 'MINT']), x + w - 3, y + 4.4, 2.8, fonts.display, ink, 'right')
  letter(ctx, look.certificate, x + w - 3, y + h - 2, 2.8, fonts.text, ink, 'right', w * 0.5)
  letter(ctx, look.grader, x + 2 + column, y + h - 2, 3.4, fonts.display, ink, 'left')
  if (look.code === 'qrcode') drawCode(ctx, 'qrcode', look.certificate, x + 2, y + 2, h - 4, h - 4)
  if (look.code === 'code128') drawCode(ctx, 'code128', look.certificate, x + 12, y + h - 5.6, w * 0.34, 4)
}

interface Bars {
  readonly sbs: readonly number[]
}
interface Squares {
  readonly pixs: readonly number[]
  readonly pixx: number
}

export function drawCode(
  ctx: SKRSContext2D,
  kind: 'code128' | 'qrcode',
  text: string,
  x: number,
  y: number,
  w: number,
  h: number,
): void {
  ctx.fillStyle = '#fff'
  ctx.fillRect(x - 1, y - 1, w + 2, h + 2)
  ctx.fillStyle = '#000'
  if (kind === 'code128') {
    const { sbs } = bwipjs.raw('code128', text)[0] as unknown as Bars
    const total = sbs.reduce((a, b) => a + b, 0)
    let at = 0
    sbs.forEach((bar, i) => {
      if (i % 2 === 0) ctx.fillRect(x + (at / total) * w, y, (bar / total) * w, h)
      at += bar
    })
    return
  }
  const { pixs, pixx } = bwipjs.raw('qrcode', text)[0] as unknown as Squares
  pixs.forEach((on, i) => {
    if (on)
      ctx.fillRect(x + ((i % pixx) / pixx) * w, y + (Math.floor(i / pixx) / pixx) * h, w / pixx + 0.01, h / pixx + 0.01)
  })
}
