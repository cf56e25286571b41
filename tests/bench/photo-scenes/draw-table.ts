/** What lies under and around a card: tables, cloths, other things. Drawn in millimetres around the origin. */
import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas'
import { type CardLook, drawFront, letter, paragraph } from './draw-card.ts'
import type { Chance } from './random.ts'
import type { TableKind } from './scene-settings.ts'

export interface Room {
  /** Half sizes of the drawn part of the table, mm. */
  readonly halfWidth: number
  readonly halfHeight: number
}

const PLAIN = ['#7d8a94', '#b8b2a6', '#51606b', '#c9bfae', '#6a5f55', '#8f9d88', '#3c4650', '#d8d4cc']

export function drawTable(
  ctx: SKRSContext2D,
  kind: TableKind,
  { halfWidth: w, halfHeight: h }: Room,
  chance: Chance,
  look: CardLook,
): void {
  const fill = (colour: string) => {
    ctx.fillStyle = colour
    ctx.fillRect(-w, -h, 2 * w, 2 * h)
  }
  switch (kind) {
    case 'plain':
      fill(chance.pick(PLAIN))
      break
    case 'white':
      fill(chance.pick(['#f4f4f2', '#ffffff', '#e9e8e4']))
      break
    case 'black':
      fill(chance.pick(['#101012', '#1c1b20', '#262422']))
      break
    case 'wood':
    case 'desk': {
      fill(kind === 'wood' ? chance.pick(['#8a5f3a', '#5a3c25', '#b08657']) : chance.pick(['#c9a46e', '#6b4a33']))
      const plank = chance.between(40, 110)
      for (let y = -h; y < h; y += chance.between(0.4, 2.4)) {
        ctx.globalAlpha = chance.between(0.04, 0.2)
        ctx.strokeStyle = chance.happens(0.5) ? '#2a1606' : '#f0d8b0'
        ctx.lineWidth = chance.between(0.15, 0.9)
        ctx.beginPath()
        const phase = chance.between(0, 6)
        for (let x = -w; x <= w; x += 12) ctx.lineTo(x, y + Math.sin(x * 0.02 + phase) * 1.6)
        ctx.stroke()
      }
      ctx.globalAlpha = 0.5
      ctx.strokeStyle = '#1a0e06'
      ctx.lineWidth = 0.6
      if (kind === 'wood')
        for (let y = -h + chance.between(0, plank); y < h; y += plank) ctx.strokeRect(-w - 1, y, 2 * w + 2, plank)
      ctx.globalAlpha = 1
      break
    }
    case 'felt':
      fill(chance.pick(['#1f5a3a', '#23406b', '#6b2330', '#4a4a4a']))
      speckle(ctx, w, h, chance, 0.35, 9000)
      break
    case 'weave': {
      fill(chance.pick(['#b7a98f', '#7b8794', '#94705a', '#3f4a45']))
      ctx.globalAlpha = 0.22
      const step = chance.between(0.9, 1.8)
      for (let x = -w; x < w; x += step) {
        ctx.fillStyle = chance.happens(0.5) ? '#000' : '#fff'
        ctx.fillRect(x, -h, step * 0.45, 2 * h)
      }
      for (let y = -h; y < h; y += step) {
        ctx.fillStyle = chance.happens(0.5) ? '#000' : '#fff'
        ctx.fillRect(-w, y, 2 * w, step * 0.45)
      }
      ctx.globalAlpha = 1
      break
    }
    case 'marble':
      fill(chance.pick(['#dcdad6', '#3a3f42', '#b9b3aa']))
      for (let i = 0; i < 14; i++) {
        ctx.globalAlpha = chance.between(0.1, 0.4)
        ctx.strokeStyle = chance.pick(['#ffffff', '#6f6f6f', '#222'])
        ctx.lineWidth = chance.between(0.3, 2.4)
        ctx.beginPath()
        let [x, y] = [chance.between(-w, w), -h]
        while (y < h) {
          ctx.lineTo(x, y)
          x += chance.between(-14, 14)
          y += chance.between(6, 20)
        }
        ctx.stroke()
      }
      ctx.globalAlpha = 1
      break
    case 'tiles': {
      fill(chance.pick(['#a9a49c', '#cfc8ba', '#5f6468']))
      const size = chance.between(70, 150)
      ctx.strokeStyle = '#6b665f'
      ctx.lineWidth = 2
      const [ox, oy] = [chance.between(0, size), chance.between(0, size)]
      for (let x = -w - ox; x < w; x += size) ctx.strokeRect(x, -h - 5, size, 2 * h + 10)
      for (let y = -h - oy; y < h; y += size) ctx.strokeRect(-w - 5, y, 2 * w + 10, size)
      break
    }
    case 'checked': {
      const [a, b] = chance.pick([
        ['#ffffff', '#b23a3a'],
        ['#f2efe4', '#3a5f8a'],
        ['#e8e2d0', '#4a6b4a'],
      ] as const)
      fill(a)
      const size = chance.between(9, 18)
      ctx.globalAlpha = 0.55
      ctx.fillStyle = b
      for (let x = -w; x < w; x += 2 * size) ctx.fillRect(x, -h, size, 2 * h)
      for (let y = -h; y < h; y += 2 * size) ctx.fillRect(-w, y, 2 * w, size)
      ctx.globalAlpha = 1
      break
    }
    case 'newsprint':
      fill('#d9d4c4')
      for (let x = -w; x < w; x += 46) {
        letter(
          ctx,
          'TIDE TABLES AND COURT NEWS',
          x,
          -h + chance.between(10, 40),
          6,
          look.display,
          '#2a2824',
          'left',
          42,
        )
        paragraph(ctx, chance, [x, -h + 44, 42, 2 * h], 2.3, look.text, '#3a3732')
      }
      break
    case 'cards':
      fill(chance.pick(PLAIN))
      for (let i = 0; i < 9; i++) {
        ctx.save()
        ctx.translate(chance.between(-w, w), chance.between(-h, h))
        ctx.rotate(chance.between(-0.6, 0.6))
        shadow(ctx, () => drawFront(ctx, { ...look, seed: i }, chance))
        ctx.restore()
      }
      break
  }
  speckle(ctx, w, h, chance, 0.05, 2500)
}

export function speckle(
  ctx: SKRSContext2D,
  w: number,
  h: number,
  chance: Chance,
  strength: number,
  count: number,
): void {
  for (let i = 0; i < count; i++) {
    ctx.globalAlpha = strength * chance.next()
    ctx.fillStyle = chance.happens(0.5) ? '#000' : '#fff'
    const size = chance.between(0.2, 1.1)
    ctx.fillRect(chance.between(-w, w), chance.between(-h, h), size, size)
  }
  ctx.globalAlpha = 1
}

/** Whatever `draw` paints throws a soft shadow on what lies below. */
export function shadow(ctx: SKRSContext2D, draw: () => void, depth = 1): void {
  const scale = ctx.getTransform().a === 0 ? 1 : Math.hypot(ctx.getTransform().a, ctx.getTransform().b)
  ctx.save()
  ctx.shadowColor = 'rgba(0,0,0,0.5)'
  ctx.shadowBlur = 1.4 * depth * scale
  ctx.shadowOffsetX = 0.5 * depth * scale
  ctx.shadowOffsetY = 0.7 * depth * scale
  draw()
  ctx.restore()
}

/** A finger from outside onto the card's side. */
export function drawFinger(
  ctx: SKRSContext2D,
  x: number,
  y: number,
  angle: number,
  length: number,
  chance: Chance,
): void {
  const skin = chance.pick(['#d8a581', '#b57d57', '#84553a', '#e4bd9c'])
  ctx.save()
  ctx.translate(x, y)
  ctx.rotate(angle)
  const thick = chance.between(13, 18)
  const tone = ctx.createLinearGradient(0, -thick / 2, 0, thick / 2)
  tone.addColorStop(0, skin)
  tone.addColorStop(0.5, '#f0cfb4')
  tone.addColorStop(1, '#6a4230')
  shadow(ctx, () => {
    ctx.fillStyle = skin
    ctx.beginPath()
    ctx.roundRect(0, -thick / 2, length, thick, thick / 2)
    ctx.fill()
  })
  ctx.globalAlpha = 0.45
  ctx.fillStyle = tone
  ctx.beginPath()
  ctx.roundRect(0, -thick / 2, length, thick, thick / 2)
  ctx.fill()
  ctx.globalAlpha = 0.7
  ctx.fillStyle = '#f3d9cb'
  ctx.beginPath()
  ctx.roundRect(1.5, -thick * 0.28, 9, thick * 0.56, 3.5)
  ctx.fill()
  ctx.restore()
}

/** A mirror-like patch or streak of light, as on film and plastic. `ctx` in mm, over everything. */
export function drawGlare(
  ctx: SKRSContext2D,
  x: number,
  y: number,
  radius: number,
  strength: number,
  chance: Chance,
): void {
  ctx.save()
  ctx.translate(x, y)
  ctx.rotate(chance.between(-1, 1))
  ctx.scale(1, chance.between(0.25, 0.8))
  const light = ctx.createRadialGradient(0, 0, 0, 0, 0, radius)
  light.addColorStop(0, `rgba(255,255,255,${strength})`)
  light.addColorStop(0.45, `rgba(255,255,255,${strength * 0.85})`)
  light.addColorStop(1, 'rgba(255,255,255,0)')
  ctx.fillStyle = light
  ctx.fillRect(-radius, -radius, 2 * radius, 2 * radius)
  ctx.restore()
}

export function blankCanvas(width: number, height: number) {
  const canvas = createCanvas(width, height)
  return { canvas, ctx: canvas.getContext('2d') }
}
