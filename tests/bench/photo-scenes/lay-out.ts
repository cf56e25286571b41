/**
 * Where things lie for each view, in millimetres, and how they are lit.
 * Long because it is a list: one arrangement a view.
 */
import type { SKRSContext2D } from '@napi-rs/canvas'
import type { Film, Light, View } from './camera.ts'
import { type CardLook, drawBack, drawFront } from './draw-card.ts'
import { chooseHolder, drawOver, drawUnder, type HolderLook } from './draw-holder.ts'
import { shadow } from './draw-table.ts'
import { drawCodeCloseUp, drawNote, drawOther, drawRuler, drawSealedSide, printScreen } from './draw-things.ts'
import type { Chance } from './random.ts'
import type { SceneSettings, TableKind } from './scene-settings.ts'
import type { Four, SceneHolder, SceneView, Xy } from './scene-truth.ts'

export interface LaidOut {
  readonly centre: Xy
  readonly pxPerMm: number
  readonly quarterTurn: boolean
  readonly table: TableKind | null
  readonly plainTable: string | null
  readonly card: Four | null
  readonly holder: Four | null
  readonly label: Four | null
  readonly holderKind: SceneHolder | null
  readonly certificate: string | null
  readonly design: string
  /** Outline of what a hand would hold. */
  readonly subject: Four
  readonly light: Light | null
  draw(ctx: SKRSContext2D): void
  overPhoto?(film: Film, view: View): void
}

export interface Frame {
  readonly width: number
  readonly height: number
  readonly cropped: boolean
  readonly matching: boolean
}

export const box = (cx: number, cy: number, w: number, h: number): Four => [
  [cx - w / 2, cy - h / 2],
  [cx + w / 2, cy - h / 2],
  [cx + w / 2, cy + h / 2],
  [cx - w / 2, cy + h / 2],
]

export function drawCardAt(
  ctx: SKRSContext2D,
  look: CardLook,
  face: 'front' | 'back',
  x: number,
  y: number,
  chance: Chance,
  lifted = 0.5,
): void {
  ctx.save()
  ctx.translate(x - look.width / 2, y - look.height / 2)
  shadow(
    ctx,
    () => {
      ctx.fillStyle = look.stock
      ctx.fillRect(0, 0, look.width, look.height)
    },
    lifted,
  )
  ctx.beginPath()
  ctx.rect(0, 0, look.width, look.height)
  ctx.clip()
  if (face === 'front') drawFront(ctx, look, chance)
  else drawBack(ctx, look, chance)
  // Wear: paper shows at the corners, soft marks over the surface.
  for (const [cx, cy] of [
    [0, 0],
    [look.width, 0],
    [look.width, look.height],
    [0, look.height],
  ] as const) {
    ctx.globalAlpha = 0.7
    ctx.fillStyle = '#efe8da'
    ctx.beginPath()
    ctx.arc(cx, cy, chance.between(0.1, 1), 0, 7)
    ctx.fill()
  }
  ctx.restore()
}

export function layOut(
  view: SceneView,
  look: CardLook,
  settings: SceneSettings,
  chance: Chance,
  frame: Frame,
): LaidOut {
  const { width: w, height: h } = look
  const short = Math.min(frame.width, frame.height)
  const fitting = (ow: number, oh: number, share: number) => share * Math.min(frame.width / ow, frame.height / oh)
  const nothing = {
    centre: [0, 0] as Xy,
    quarterTurn: false,
    table: null,
    plainTable: frame.matching ? look.stock : null,
    card: null,
    holder: null,
    label: null,
    holderKind: null,
    certificate: null,
    subject: box(0, 0, w, h),
    light: null,
    design: look.front as string,
  }
  const cropShift = (ow: number, oh: number): Xy =>
    frame.cropped
      ? [chance.pick([-1, 1]) * ow * chance.between(0.1, 0.3), chance.pick([-1, 0, 1]) * oh * 0.2]
      : [chance.between(-0.06, 0.06) * ow, chance.between(-0.06, 0.06) * oh]

  const single = (face: 'front' | 'back'): LaidOut => {
    const kind = chance.happens(0.35) ? chance.pick(['toploader', 'sleeve', 'screw-down', 'one-touch'] as const) : null
    const holder = kind ? chooseHolder(kind, [w, h], settings, chance) : null
    const [ow, oh] = holder ? [holder.width, holder.height] : [w, h]
    const share = frame.cropped ? chance.between(0.95, 1.1) : chance.between(0.5, 0.92)
    return {
      ...nothing,
      design: face === 'front' ? look.front : look.back,
      pxPerMm: fitting(ow, oh, share),
      centre: cropShift(ow, oh),
      quarterTurn: chance.happens(0.05),
      card: box(0, holder?.cardY ?? 0, w, h),
      holder: holder ? box(0, 0, ow, oh) : null,
      holderKind: kind,
      subject: box(0, 0, ow, oh),
      draw(ctx) {
        if (holder) drawUnder(ctx, holder)
        drawCardAt(ctx, look, face, 0, holder?.cardY ?? 0, chance, holder ? 0.1 : 0.5)
        if (holder) drawOver(ctx, holder, [w, h], chance, look, face === 'back')
      },
    }
  }

  const slab = (face: 'front' | 'back'): LaidOut & { readonly look: HolderLook } => {
    const holder = chooseHolder('sealed', [w, h], settings, chance)
    const share = frame.cropped ? chance.between(0.95, 1.08) : chance.between(0.6, 0.95)
    return {
      ...nothing,
      look: holder,
      plainTable: null,
      design: face === 'front' ? look.front : look.back,
      pxPerMm: fitting(holder.width, holder.height, share),
      centre: cropShift(holder.width, holder.height),
      card: box(0, holder.cardY, w, h),
      holder: box(0, 0, holder.width, holder.height),
      label: box(0, holder.label!.y, holder.label!.width, holder.label!.height),
      holderKind: 'sealed',
      certificate: face === 'front' ? holder.certificate : null,
      subject: box(0, 0, holder.width, holder.height),
      draw(ctx) {
        drawUnder(ctx, holder)
        drawCardAt(ctx, look, face, 0, holder.cardY, chance, 0.1)
        drawOver(ctx, holder, [w, h], chance, look, face === 'back')
      },
    }
  }

  switch (view) {
    case 'front':
    case 'back':
      return single(view)
    case 'holder-front':
      return slab('front')
    case 'holder-back':
      return slab('back')
    case 'corners': {
      const face = chance.pick(['front', 'back'] as const)
      const [sx, sy] = [chance.pick([-1, 1]), chance.pick([-1, 1])]
      const seen = chance.between(10, 24)
      return {
        ...nothing,
        pxPerMm: short / seen,
        centre: [sx * (w / 2 - chance.between(0.05, 0.3) * seen), sy * (h / 2 - chance.between(0.05, 0.3) * seen)],
        design: face === 'front' ? look.front : look.back,
        draw: (ctx) => drawCardAt(ctx, look, face, 0, 0, chance),
      }
    }
    case 'edges': {
      const seen = chance.between(12, 26)
      const face = chance.pick(['front', 'back'] as const)
      if (chance.happens(0.4)) {
        const thick = chance.between(0.35, 0.9)
        return {
          ...nothing,
          plainTable: null,
          pxPerMm: short / chance.between(6, 14),
          design: 'edge-on',
          draw(ctx) {
            shadow(ctx, () => {
              ctx.fillStyle = look.stock
              ctx.fillRect(-200, -thick / 2, 400, thick)
            })
            for (let i = 0; i < 400; i++) {
              ctx.globalAlpha = chance.between(0.05, 0.3)
              ctx.fillStyle = chance.pick(['#8a7a5a', '#fff', '#4a3a2a'])
              ctx.fillRect(
                chance.between(-60, 60),
                chance.between(-thick / 2, thick / 2 - 0.05),
                chance.between(0.1, 1.4),
                0.05,
              )
            }
            ctx.globalAlpha = 1
          },
        }
      }
      const [sx, sy] = chance.pick([
        [1, 0],
        [-1, 0],
        [0, 1],
        [0, -1],
      ] as const)
      return {
        ...nothing,
        pxPerMm: short / seen,
        centre: [sx * (w / 2 - chance.between(-0.1, 0.2) * seen), sy * (h / 2 - chance.between(-0.1, 0.2) * seen)],
        design: face === 'front' ? look.front : look.back,
        draw: (ctx) => drawCardAt(ctx, look, face, 0, 0, chance),
      }
    }
    case 'raking-light': {
      const base = single(chance.pick(['front', 'back'] as const))
      const direction = chance.between(0, 2 * Math.PI)
      return {
        ...base,
        plainTable: null,
        table: chance.pick(settings.tables),
        light: {
          white: [1.03, 1, 0.93],
          exposure: chance.between(0.5, 0.7),
          vignette: 0,
          slope: chance.between(2.4, 3.6),
          direction,
          dye: null,
        },
        draw(ctx) {
          base.draw(ctx)
          // Relief: every bump is bright towards the lamp and dark behind.
          const [lx, ly] = [Math.cos(direction), Math.sin(direction)]
          for (let i = 0; i < 260; i++) {
            const [x, y, r] = [chance.between(-w, w) * 0.5, chance.between(-h, h) * 0.5, chance.between(0.4, 3)]
            ctx.globalAlpha = chance.between(0.05, 0.28)
            ctx.fillStyle = '#fff'
            ctx.beginPath()
            ctx.ellipse(x + lx * r * 0.3, y + ly * r * 0.3, r, r * 0.5, chance.between(0, 3), 0, 7)
            ctx.fill()
            ctx.fillStyle = '#000'
            ctx.beginPath()
            ctx.ellipse(x - lx * r * 0.3, y - ly * r * 0.3, r, r * 0.5, chance.between(0, 3), 0, 7)
            ctx.fill()
          }
          ctx.globalAlpha = 1
        },
      }
    }
    case 'black-light': {
      const base = single(chance.pick(['front', 'back'] as const))
      const glow = chance.happens(0.4)
      const dye = glow
        ? [0.12, 0.12, 0.04, 0.1, 0.2, 0.06, 0.25, 0.4, 0.45]
        : [0.16, 0.05, 0.03, 0.03, 0.06, 0.03, 0.2, 0.2, 0.3]
      return {
        ...base,
        plainTable: null,
        table: chance.pick(settings.tables),
        light: {
          white: [1, 1, 1],
          exposure: chance.between(0.8, 1.1),
          vignette: 0.5,
          slope: chance.between(0, 0.5),
          direction: 0,
          dye,
        },
      }
    }
    case 'transmitted-light': {
      const share = chance.between(0.5, 0.85)
      return {
        ...nothing,
        plainTable: chance.pick(['#ffffff', '#fffdf4']),
        pxPerMm: fitting(w, h, share),
        centre: cropShift(w, h),
        card: box(0, 0, w, h),
        light: { white: [1, 1, 1], exposure: 1.06, vignette: 0.1, slope: 0.1, direction: 0, dye: null },
        draw(ctx) {
          ctx.save()
          ctx.translate(-w / 2, -h / 2)
          drawFront(ctx, look, chance)
          // The other side shows through, turned round, and paper lets less blue pass than red.
          ctx.globalCompositeOperation = 'multiply'
          ctx.globalAlpha = 0.5
          ctx.translate(w, 0)
          ctx.scale(-1, 1)
          drawBack(ctx, look, chance)
          ctx.globalAlpha = 1
          ctx.fillStyle = chance.pick(['#c98a4a', '#b87a45', '#d29a5c'])
          ctx.fillRect(0, 0, w, h)
          ctx.restore()
        },
      }
    }
    case 'with-ruler': {
      const base = single('front')
      const along = chance.happens(0.5)
      const gap = (base.holder ? base.holder[1][0] : w / 2) + chance.between(3, 8) + 14
      const spanX = along ? 2 * (gap + 16) : 0
      return {
        ...base,
        plainTable: null,
        centre: [along ? 14 : 0, along ? 0 : 14],
        pxPerMm: along ? fitting(spanX, h + 30, 0.92) : fitting(w + 60, h + 2 * 34, 0.92),
        quarterTurn: false,
        draw(ctx) {
          base.draw(ctx)
          drawRuler(
            ctx,
            along ? gap : 0,
            along ? 0 : (base.holder ? base.holder[2][1] : h / 2) + chance.between(3, 8) + 14,
            along,
            chance,
            look,
          )
        },
      }
    }
    case 'dated-note': {
      const base = single('front')
      const beside = chance.happens(0.6)
      const half = base.holder ? base.holder[1][0] : w / 2
      const [nw, nh] = [chance.between(55, 85), chance.between(38, 60)]
      const [nx, ny] = beside
        ? [half + nw / 2 + chance.between(4, 12), chance.between(-15, 25)]
        : [chance.between(-8, 8), h / 2 + nh / 2 + chance.between(10, 20)]
      const hand = chance.pick(settings.fonts.hand)[0]
      return {
        ...base,
        plainTable: null,
        quarterTurn: false,
        centre: [nx / 2, ny / 2],
        pxPerMm: fitting(
          beside ? half * 2 + nw + 24 : Math.max(half * 2, nw) + 20,
          beside ? h + 36 : h + nh + 60,
          0.95,
        ),
        draw(ctx) {
          base.draw(ctx)
          drawNote(ctx, nx, ny, nw, nh, hand, chance)
        },
      }
    }
    case 'macro-print': {
      const seen = chance.between(4, 11)
      const pxPerMm = short / seen
      const lpi = chance.pick([85, 100, 120, 133, 150])
      return {
        ...nothing,
        plainTable: look.stock,
        pxPerMm,
        design: `${lpi} lpi`,
        draw: () => undefined,
        overPhoto: (film) => printScreen(film, pxPerMm, lpi, chance),
      }
    }
    case 'out-of-holder': {
      const holder = chooseHolder('sealed', [w, h], settings, chance)
      const gap = (holder.width + w) / 2 + chance.between(6, 14)
      const loose: HolderLook = holder
      return {
        ...nothing,
        plainTable: null,
        pxPerMm: fitting(gap + holder.width / 2 + w / 2 + 16, holder.height + 16, 0.95),
        centre: [gap / 2 - (holder.width - w) / 4, 0],
        card: box(gap, chance.between(-10, 10), w, h),
        holder: box(0, 0, holder.width, holder.height),
        label: box(0, holder.label!.y, holder.label!.width, holder.label!.height),
        draw(ctx) {
          drawUnder(ctx, loose)
          drawOver(ctx, loose, [w, h], chance, look, false)
          drawCardAt(ctx, look, 'front', gap, (this.card![0][1] + this.card![2][1]) / 2, chance)
        },
      }
    }
    case 'label':
    case 'holder-code': {
      const base = slab('front')
      const { label } = base.look
      const looks: HolderLook =
        view === 'holder-code'
          ? { ...base.look, code: base.look.code ?? chance.pick(['code128', 'qrcode'] as const) }
          : base.look
      if (view === 'holder-code')
        return { ...base, ...drawCodeCloseUp(looks, frame, chance, look), certificate: looks.certificate }
      return {
        ...base,
        pxPerMm: Math.min(
          (frame.width * chance.between(0.72, 1.02)) / label!.width,
          (frame.height * 0.9) / label!.height,
        ),
        centre: [chance.between(-2, 2), label!.y + chance.between(-2, 3)],
      }
    }
    case 'holder-edges':
      return { ...nothing, plainTable: null, ...drawSealedSide(frame, chance, look), holderKind: 'sealed' }
    case 'holder-corners': {
      const base = slab(chance.pick(['front', 'back'] as const))
      const seen = chance.between(18, 34)
      const [sx, sy] = [chance.pick([-1, 1]), chance.pick([-1, 1])]
      return {
        ...base,
        pxPerMm: short / seen,
        centre: [
          sx * (base.look.width / 2 - chance.between(0.1, 0.25) * seen),
          sy * (base.look.height / 2 - chance.between(0.1, 0.25) * seen),
        ],
      }
    }
    case 'other':
      return { ...nothing, plainTable: null, ...drawOther(frame, chance, look, settings) }
  }
}
