/** How a photo is lit: black light, light from one side, light from behind. Each is said only on its own positive signs. */
import { contains, type Outline } from '../geometry/read-layout.ts'
import type { WorkingPicture } from '../geometry/working-picture.ts'

export interface LightSigns {
  /** Share of the photo that is violet or blue, and whether anything in it is neutral or warm. */
  readonly violetShare: number
  readonly warmShare: number
  readonly medianLuma: number
  /** Fall of light over the photo's long side, natural logarithm, and how much of the differences it explains, 0–1. */
  readonly fall: number
  readonly fallExplains: number
  /** The same within the card, along the same direction. */
  readonly fallOnCard: number | null
  /** Share of the card that is warm, its brightest level and the level around it. */
  readonly behind: { readonly warm: number; readonly bright: number; readonly around: number } | null
}

export function measureLight(picture: WorkingPicture, card: Outline | null): LightSigns {
  const { luma, blue, red } = picture
  let [violet, warm, lit] = [0, 0, 0]
  const levels: number[] = []
  for (let i = 0; i < luma.length; i += 3) {
    const [y, b, r] = [luma[i] as number, blue[i] as number, red[i] as number]
    levels.push(y)
    // In deep shadow colour is noise.
    if (y < 6) continue
    lit++
    if (b > 6 + 0.06 * y && b > r) violet++
    if (b < 2) warm++
  }
  levels.sort((a, b) => a - b)
  const whole = fitFall(picture, null)
  const onCard = card ? fitFall(picture, card) : null
  return {
    violetShare: lit === 0 ? 0 : violet / lit,
    warmShare: lit === 0 ? 1 : warm / lit,
    medianLuma: levels[levels.length >> 1] ?? 0,
    fall: Math.hypot(whole.x, whole.y),
    fallExplains: whole.explains,
    fallOnCard:
      onCard === null ? null : (onCard.x * whole.x + onCard.y * whole.y) / Math.max(1e-6, Math.hypot(whole.x, whole.y)),
    behind: card ? measureBehind(picture, card) : null,
  }
}

/** A plane through the logarithm of luma: light that falls off one way. Places of one side of the photo are averaged first. */
function fitFall({ width, height, luma }: WorkingPicture, within: Outline | null) {
  const long = Math.max(width, height)
  const cell = 12
  const points: { u: number; v: number; level: number }[] = []
  for (let y = 0; y + cell <= height; y += cell) {
    for (let x = 0; x + cell <= width; x += cell) {
      if (within && !contains(within.corners, [x + cell / 2, y + cell / 2], -cell / 2)) continue
      let sum = 0
      for (let dy = 0; dy < cell; dy += 2)
        for (let dx = 0; dx < cell; dx += 2) sum += luma[(y + dy) * width + x + dx] as number
      const level = (4 * sum) / (cell * cell)
      points.push({ u: (x - width / 2) / long, v: (y - height / 2) / long, level: Math.log(level + 4) })
    }
  }
  const n = points.length
  if (n < 12) return { x: 0, y: 0, explains: 0 }
  const mean = (of: (p: (typeof points)[number]) => number) => points.reduce((sum, p) => sum + of(p), 0) / n
  const [mu, mv, ml] = [mean((p) => p.u), mean((p) => p.v), mean((p) => p.level)]
  let [uu, vv, uv, ul, vl, ll] = [0, 0, 0, 0, 0, 0]
  for (const { u, v, level } of points) {
    const [du, dv, dl] = [u - mu, v - mv, level - ml]
    uu += du * du
    vv += dv * dv
    uv += du * dv
    ul += du * dl
    vl += dv * dl
    ll += dl * dl
  }
  const determinant = uu * vv - uv * uv
  if (determinant <= 0 || ll === 0) return { x: 0, y: 0, explains: 0 }
  const [x, y] = [(ul * vv - vl * uv) / determinant, (vl * uu - ul * uv) / determinant]
  return { x, y, explains: Math.max(0, Math.min(1, (x * ul + y * vl) / ll)) }
}

function measureBehind({ width, height, luma, blue, red }: WorkingPicture, card: Outline) {
  const inside: number[] = []
  let [warm, lit] = [0, 0]
  for (let y = 0; y < height; y += 2) {
    for (let x = 0; x < width; x += 2) {
      if (!contains(card.corners, [x, y], -4)) continue
      const at = y * width + x
      const level = luma[at] as number
      inside.push(level)
      if (level < 55) continue
      lit++
      if ((red[at] as number) > 3 + 0.02 * level && (blue[at] as number) < -3 - 0.02 * level) warm++
    }
  }
  inside.sort((a, b) => a - b)
  return {
    warm: lit === 0 ? 0 : warm / lit,
    bright: inside[Math.floor(inside.length * 0.97)] ?? 255,
    around: card.sides.outside[0],
  }
}
