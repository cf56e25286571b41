/**
 * One seed, one scene: chooses view, card, holder, table and mishaps, draws them, photographs them, and says what is true of the
 * photo. Shares no code, font or constant with what is tested.
 */
import type { SKRSContext2D } from '@napi-rs/canvas'
import { aim, develop, expose, type Light, projectFour, shoot, soften, type View } from './camera.ts'
import { type CardLook, registerFonts } from './draw-card.ts'
import { blankCanvas, drawFinger, drawGlare, drawTable } from './draw-table.ts'
import { layOut } from './lay-out.ts'
import { type Chance, createChance } from './random.ts'
import type { SceneSettings } from './scene-settings.ts'
import type { Four, SceneTruth, SceneView } from './scene-truth.ts'

export interface Scene {
  readonly bytes: Uint8Array
  readonly truth: SceneTruth
}

export interface SceneWishes {
  readonly view?: SceneView
  readonly difficulty?: 'normal' | 'hard'
  /** Square-on, sharp, and this many times the scale that the view needs. */
  readonly generous?: { readonly factor: number; readonly pxPerMm: number }
  readonly longSide?: number
}

type Fault = 'tilt' | 'fingers' | 'matching-table' | 'clutter' | 'glare' | 'cropped' | 'blur' | 'compression' | 'dim'
const WHOLE_VIEWS: readonly SceneView[] = ['front', 'back', 'holder-front', 'holder-back', 'with-ruler', 'dated-note']
const FAULTS: readonly Fault[] = [
  'tilt',
  'fingers',
  'matching-table',
  'clutter',
  'glare',
  'cropped',
  'blur',
  'compression',
  'dim',
]

export function makeScene(seed: number, settings: SceneSettings, wishes: SceneWishes = {}): Scene {
  registerFonts(settings)
  const chance = createChance(seed)
  const view = wishes.view ?? pickView(settings, chance)
  const difficulty = wishes.difficulty ?? (chance.happens(settings.hardShare) ? 'hard' : 'normal')
  const faults = new Set<Fault>()
  if (difficulty === 'hard' && !wishes.generous) {
    const allowed = FAULTS.filter(
      (fault) => WHOLE_VIEWS.includes(view) || !['fingers', 'matching-table', 'cropped', 'clutter'].includes(fault),
    )
    for (let i = 0; i < 2; i++) faults.add(chance.pick(allowed))
  }
  const look = chooseCard(settings, chance)
  const long = wishes.longSide ?? chance.pick(settings.longSide)
  const upright = [
    'edges',
    'holder-edges',
    'label',
    'holder-code',
    'with-ruler',
    'dated-note',
    'out-of-holder',
  ].includes(view)
    ? chance.happens(0.25)
    : chance.happens(0.85)
  const [width, height] = upright ? [Math.round(long * 0.75), long] : [long, Math.round(long * 0.75)]
  const laid = layOut(view, look, settings, chance, {
    width,
    height,
    cropped: faults.has('cropped'),
    matching: faults.has('matching-table'),
  })
  const table = faults.has('clutter') ? chance.pick(settings.clutter) : (laid.table ?? chance.pick(settings.tables))

  const tiltDegrees = wishes.generous
    ? chance.between(0, 2)
    : faults.has('tilt')
      ? chance.between(settings.tilt[0], settings.tilt[1])
      : chance.between(0, settings.tilt[0])
  const roll = ((laid.quarterTurn ? 90 : 0) + chance.normal() * (wishes.generous ? 1 : 3)) * (Math.PI / 180)
  const pxPerMm = wishes.generous
    ? Math.max(laid.pxPerMm, wishes.generous.factor * wishes.generous.pxPerMm)
    : laid.pxPerMm
  const size: readonly [number, number] = wishes.generous
    ? [Math.round((width * pxPerMm) / laid.pxPerMm), Math.round((height * pxPerMm) / laid.pxPerMm)]
    : [width, height]
  const seen = aim(
    size[0],
    size[1],
    pxPerMm,
    laid.centre,
    (tiltDegrees * Math.PI) / 180,
    chance.between(0, 2 * Math.PI),
    roll,
  )

  // The drawing is as fine as the photo and wide enough for what a tilted camera sees.
  const reach = 1.25 + tiltDegrees / 40
  const side = Math.ceil(Math.hypot(size[0], size[1]) * Math.min(1.9, reach))
  const { canvas, ctx } = blankCanvas(side, side)
  ctx.translate(side / 2, side / 2)
  ctx.scale(pxPerMm, pxPerMm)
  ctx.translate(-laid.centre[0], -laid.centre[1])
  const half = side / pxPerMm / 2
  ctx.save()
  ctx.translate(laid.centre[0], laid.centre[1])
  if (laid.plainTable) {
    ctx.fillStyle = laid.plainTable
    ctx.fillRect(-half, -half, 2 * half, 2 * half)
  } else drawTable(ctx, table, { halfWidth: half, halfHeight: half }, chance, look)
  ctx.restore()
  laid.draw(ctx)
  if (faults.has('fingers')) drawFingers(ctx, laid.subject, chance)
  if (faults.has('glare')) {
    const [x, y] = laid.centre
    const span = Math.min(size[0], size[1]) / pxPerMm
    drawGlare(
      ctx,
      x + chance.between(-0.2, 0.2) * span,
      y + chance.between(-0.25, 0.25) * span,
      span * chance.between(0.1, 0.25),
      0.95,
      chance,
    )
  }
  // The world's own origin lies in the drawing's middle only when the aimed point does.
  const world = { width: side, height: side, data: ctx.getImageData(0, 0, side, side).data }
  canvas.width = 1
  const centred: View = { ...seen, toPhoto: recentre(seen.toPhoto, laid.centre) }
  const film = shoot(world, pxPerMm, centred)
  laid.overPhoto?.(film, seen)

  const blurPx = wishes.generous
    ? 0.5
    : faults.has('blur')
      ? chance.between(settings.blur[1] * 1.3, settings.blur[2])
      : chance.between(settings.blur[0], settings.blur[1])
  soften(film, blurPx)
  const noise = wishes.generous ? 1 : chance.between(...settings.noise)
  expose(film, laid.light ?? daylight(chance, faults.has('dim')), noise, chance)
  const jpegQuality = Math.round(
    wishes.generous
      ? 90
      : faults.has('compression')
        ? chance.between(settings.jpeg[2], settings.jpeg[2] + 12)
        : chance.between(settings.jpeg[0], settings.jpeg[1]),
  )
  const bytes = develop(film, jpegQuality)
  const inPhoto = (four: Four | null) => {
    if (!four) return null
    const projected = projectFour(seen.toPhoto, four)
    return projected.every(([x, y]) => x >= -1 && y >= -1 && x <= size[0] + 1 && y <= size[1] + 1) ? projected : null
  }
  return {
    bytes,
    truth: {
      seed,
      family: settings.name,
      view,
      difficulty,
      faults: [...faults],
      design: laid.design,
      table: laid.plainTable ?? table,
      width: size[0],
      height: size[1],
      card: inPhoto(laid.card),
      holder: inPhoto(laid.holder),
      label: inPhoto(laid.label),
      holderKind: laid.holderKind,
      cardMm: [look.width, look.height],
      pxPerMm,
      tiltDegrees,
      blurPx,
      jpegQuality,
      certificate: laid.certificate,
    },
  }
}

function pickView(settings: SceneSettings, chance: Chance): SceneView {
  const total = settings.views.reduce((sum, { share }) => sum + share, 0)
  let at = chance.next() * total
  for (const { view, share } of settings.views) {
    at -= share
    if (at < 0) return view
  }
  return 'other'
}

function chooseCard(settings: SceneSettings, chance: Chance): CardLook {
  const [width, height] = chance.pick(settings.sizes)
  const border = chance.between(2.5, 5.5)
  return {
    width,
    height,
    front: chance.pick(settings.fronts),
    back: chance.pick(settings.backs),
    stock: chance.pick(settings.stocks),
    inks: chance.pick(settings.inks),
    display: chance.pick(settings.fonts.display)[0],
    text: chance.pick(settings.fonts.text)[0],
    seed: chance.whole(1, 1e6),
    border: [
      border + chance.between(-1, 1),
      border + chance.between(-1, 1),
      border + chance.between(-1, 1),
      border + chance.between(-0.5, 2),
    ],
  }
}

function daylight(chance: Chance, dim: boolean): Light {
  const warm = chance.between(-0.09, 0.09)
  return {
    white: [1 + warm, 1, 1 - warm],
    exposure: dim ? chance.between(0.4, 0.55) : chance.between(0.82, 1.03),
    vignette: chance.between(0, 0.3),
    slope: chance.between(0, 0.35),
    direction: chance.between(0, 2 * Math.PI),
    dye: null,
  }
}

function drawFingers(ctx: SKRSContext2D, subject: Four, chance: Chance): void {
  const count = chance.whole(1, 3)
  for (let i = 0; i < count; i++) {
    const side = chance.pick([0, 1, 2, 3])
    const [a, b] = [subject[side]!, subject[(side + 1) % 4]!]
    const t = chance.between(0.2, 0.8)
    const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
    const outward = Math.atan2(-(b[0] - a[0]), b[1] - a[1])
    const into = chance.between(2, 11)
    drawFinger(
      ctx,
      x - Math.cos(outward) * into,
      y - Math.sin(outward) * into,
      outward + chance.between(-0.5, 0.5),
      130,
      chance,
    )
  }
}

function recentre(m: readonly number[], [x, y]: readonly [number, number]): number[] {
  // Drawing pixels are counted from the aimed point; the camera's matrix from the world's origin.
  return [
    m[0]!,
    m[1]!,
    m[0]! * x + m[1]! * y + m[2]!,
    m[3]!,
    m[4]!,
    m[3]! * x + m[4]! * y + m[5]!,
    m[6]!,
    m[7]!,
    m[6]! * x + m[7]! * y + m[8]!,
  ]
}
