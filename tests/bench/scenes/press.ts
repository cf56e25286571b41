/**
 * A press whose truth is known: one invented card as inks on stock in millimetres, printed as genuine pieces that vary as a run
 * varies, and as five makes of copy. Shares no code, font or constant with `src/imaging`, and may not import it.
 */
import { createRandom } from './simulate-market.ts'

export type Rgb = readonly [number, number, number]

/** How one piece was printed and cut. */
export interface Piece {
  /** Print on the cut stock, mm and degrees. */
  readonly shiftX: number
  readonly shiftY: number
  readonly turn: number
  /** Cut off at the left and at the bottom beyond the makers' cut, mm. */
  readonly trimLeft: number
  readonly trimBottom: number
  /** Softness of ink edges, standard deviation, mm. */
  readonly soft: number
  /** Ink spreads by so much at every edge, mm. */
  readonly gain: number
  /** Radius of what should be sharp corners, mm. */
  readonly corner: number
  /** Ink density over the standard's. */
  readonly density: number
  readonly paper: Rgb
  /** What each ink lets through, linear light. */
  readonly red: Rgb
  readonly blue: Rgb
  readonly yellow: Rgb
  /** Shift of the yellow and of the red layer, mm. */
  readonly yellowX: number
  readonly redX: number
  /** Shift of the lower of the two flush blocks, mm. */
  readonly lowerX: number
  /** 0–1. */
  readonly mark: number
  /** Seed of this very piece's specks and of the course of its cut edges; `null`: clean and cut straight. */
  readonly wear: number | null
  /** Seed of the drawing. */
  readonly drawing: number
  /** `null`: solid inks and one screened panel. Else all of it is made of dots. */
  readonly dots:
    | { readonly kind: 'screen'; readonly lpi: number; readonly angle: number }
    | { readonly kind: 'spray'; readonly size: number }
    | null
}

export const WIDTH = 63.5
export const HEIGHT = 88.9
export const SCREEN = { lpi: 120, angle: 45 }

export const STANDARD_PIECE: Piece = {
  shiftX: 0,
  shiftY: 0,
  turn: 0,
  trimLeft: 0,
  trimBottom: 0,
  soft: 0.012,
  gain: 0,
  corner: 0.03,
  density: 1,
  paper: [0.77, 0.73, 0.61],
  red: [0.62, 0.1, 0.09],
  blue: [0.16, 0.42, 0.62],
  yellow: [0.92, 0.78, 0.12],
  yellowX: 0,
  redX: 0,
  lowerX: 0,
  mark: 1,
  wear: null,
  drawing: 5,
  dots: null,
}

/** Another genuine piece of the run: shift, ink, softness and toning vary. */
export function printGenuine(random: () => number): Piece {
  const normal = (sd: number) => sd * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const toned = 1 - 0.05 * random()
  const aged = 1 - 0.05 * random()
  return {
    ...STANDARD_PIECE,
    shiftX: normal(0.12),
    shiftY: normal(0.12),
    turn: normal(0.15),
    soft: 0.009 + 0.008 * random(),
    gain: normal(0.006),
    corner: 0.02 + 0.02 * random(),
    density: 1 + normal(0.03),
    paper: STANDARD_PIECE.paper.map((value, i) => value * aged * (i === 2 ? toned : 1)) as unknown as Rgb,
    yellowX: normal(0.02),
    redX: normal(0.02),
    lowerX: normal(0.015),
    mark: 0.9 + 0.1 * random(),
  }
}

export const MAKES = ['re-screened', 'ink-jet', 'thick-type', 'shifted-tint', 'trimmed'] as const
export type Make = (typeof MAKES)[number]

export function printCopy(make: Make, random: () => number): Piece {
  const base = printGenuine(random)
  switch (make) {
    case 're-screened':
      return {
        ...base,
        soft: 0.055,
        corner: 0.12,
        dots: { kind: 'screen', lpi: 133 + 17 * Math.floor(3 * random()), angle: 45 },
      }
    case 'ink-jet':
      return { ...base, soft: 0.06, gain: 0.03, corner: 0.14, dots: { kind: 'spray', size: 0.07 } }
    case 'thick-type':
      return { ...base, gain: 0.075 + 0.02 * random(), corner: 0.26, soft: 0.02 }
    case 'shifted-tint':
      return {
        ...base,
        red: [0.66, 0.2, 0.05],
        blue: [0.3, 0.42, 0.5],
        paper: [0.8, 0.81, 0.8],
        yellow: [0.85, 0.6, 0.2],
      }
    case 'trimmed':
      return { ...base, trimLeft: 1.15 + 0.3 * random(), trimBottom: 1.15 + 0.3 * random() }
  }
}

interface Shape {
  readonly ink: 'black' | 'red' | 'blue' | 'yellow' | 'paper' | 'grey' | Rgb
  readonly box: readonly [x: number, y: number, width: number, height: number]
  /** Signed distance, mm: negative inside. */
  distance(x: number, y: number): number
}

function bar(ink: Shape['ink'], x: number, y: number, width: number, height: number, corner = 0): Shape {
  const [cx, cy, hx, hy] = [x + width / 2, y + height / 2, width / 2 - corner, height / 2 - corner]
  return {
    ink,
    box: [x, y, width, height],
    distance: (px, py) => {
      const [dx, dy] = [Math.abs(px - cx) - hx, Math.abs(py - cy) - hy]
      return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - corner
    },
  }
}

function ring(ink: Shape['ink'], x: number, y: number, inner: number, outer: number): Shape {
  return {
    ink,
    box: [x - outer, y - outer, 2 * outer, 2 * outer],
    distance: (px, py) => {
      const r = Math.hypot(px - x, py - y)
      return Math.max(r - outer, inner - r)
    },
  }
}

/** All that is printed, from the bottom up; a later shape lies over the earlier ones. */
function layOut(piece: Piece): Shape[] {
  const random = createRandom(piece.drawing)
  const { corner, redX, yellowX, lowerX, mark } = piece
  const drawing = Array.from({ length: 60 }, (_, k) => {
    const [x, y] = [7 + 49 * random(), 9 + 36 * random()]
    const colour = [0.05 + 0.8 * random(), 0.05 + 0.7 * random(), 0.05 + 0.7 * random()] as const
    return k % 3 === 0
      ? bar(colour, x, y, 1 + 4 * random(), 0.6 + 2 * random(), 0.1)
      : ring(colour, x, y, k % 3 === 1 ? 0 : 0.7, 1 + 2.2 * random())
  })
  return [
    bar('blue', 4, 5, WIDTH - 8, HEIGHT - 11),
    ...drawing,
    // The paper strip with type.
    bar('paper', 6, 63, 29, 18),
    bar('black', 12, 66, 0.36, 12),
    bar('black', 16, 68, 4.5, 7, corner),
    ring('black', 24, 66.5, 0.28, 0.85),
    ring('black', 26.6, 66.5, 0.28, 0.85),
    ring('black', 29.2, 66.5, 0.28, 0.85),
    bar('black', 27, 71, 2, 2.6),
    bar('black', 27 + lowerX, 75.5, 2, 2.6),
    ...(mark > 0 ? [ring('black', 31.4, 69.2, 0, 0.32 * Math.sqrt(mark))] : []),
    ...(mark > 0 ? [bar('black', 8, 79.2, 20, 0.3)] : []),
    bar('red', 33.5 + redX, 65, 12, 14),
    bar('grey', 47, 65, 11, 14),
    bar('paper', 36, 50.5, 9, 9),
    bar('blue', 36, 50.5, 4.5, 9),
    bar('yellow', 40.5 + yellowX, 50.5, 4.5, 9),
  ]
}

/** A value in 0–1 by cell, the same for the same cell. */
function hashCell(x: number, y: number, seed: number): number {
  let z = (Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ seed) | 0
  z = Math.imul(z ^ (z >>> 15), 0x2c1b3c6d)
  z = Math.imul(z ^ (z >>> 12), 0x297a2d39)
  return ((z ^ (z >>> 15)) >>> 0) / 4294967296
}

/** Light from a place of the piece, by mm of the cut card; `null` beside it. `window` keeps only what can be seen there. */
export function createSheet(piece: Piece, window: readonly [x: number, y: number, width: number, height: number]) {
  const reach = 0.6
  // By square millimetre: which shapes may be seen there.
  const cells = new Map<number, Shape[]>()
  for (const shape of layOut(piece)) {
    const [x, y, w, h] = shape.box
    if (
      x > window[0] + window[2] + 3 ||
      x + w < window[0] - 3 ||
      y > window[1] + window[3] + 3 ||
      y + h < window[1] - 3
    )
      continue
    for (let row = Math.floor(y - reach); row <= Math.floor(y + h + reach); row++) {
      for (let column = Math.floor(x - reach); column <= Math.floor(x + w + reach); column++) {
        const key = row * 1000 + column
        const list = cells.get(key)
        if (list) list.push(shape)
        else cells.set(key, [shape])
      }
    }
  }
  const [cos, sin] = [Math.cos((piece.turn * Math.PI) / 180), Math.sin((piece.turn * Math.PI) / 180)]
  const { soft, gain, density, paper, dots } = piece
  const through = (ink: Rgb): Rgb => ink.map((value) => value ** density) as unknown as Rgb
  const inks = {
    black: through([0.04, 0.04, 0.045]),
    red: through(piece.red),
    blue: through(piece.blue),
    yellow: through(piece.yellow),
  }
  const [cellAngle, cellMm] = [(SCREEN.angle * Math.PI) / 180, 25.4 / SCREEN.lpi]
  const screenCover = (x: number, y: number, tone: number, angle: number, cell: number) => {
    const u = (x * Math.cos(angle) + y * Math.sin(angle)) / cell
    const v = (-x * Math.sin(angle) + y * Math.cos(angle)) / cell
    const dot = (Math.cos(2 * Math.PI * u) + Math.cos(2 * Math.PI * v)) / 4 + 0.5
    const edge = 0.09
    return Math.min(1, Math.max(0, (dot - (1 - tone) + edge) / (2 * edge)))
  }
  /** What the original shows there, before a copy makes dots of it. */
  const original = (x: number, y: number): [number, number, number] => {
    let light: [number, number, number] = [...paper]
    const shapes = cells.get(Math.floor(y) * 1000 + Math.floor(x))
    if (!shapes) return light
    for (const shape of shapes) {
      const d = (shape.distance(x, y) - gain) / soft
      if (d > 4) continue
      const cover = d < -4 ? 1 : 1 / (1 + Math.exp(1.702 * d))
      let ink: Rgb
      if (shape.ink === 'paper') ink = [1, 1, 1]
      else if (shape.ink === 'grey') {
        const dot = dots ? 0.38 : screenCover(x, y, 0.38, cellAngle, cellMm)
        ink = [1 - dot * 0.94, 1 - dot * 0.94, 1 - dot * 0.93]
      } else if (typeof shape.ink === 'string') ink = inks[shape.ink]
      else ink = through(shape.ink)
      // Over the drawing a later ink replaces; the two inks of the seam lie over each other.
      const under = shape.ink === 'yellow' ? light : paper
      light = [0, 1, 2].map((c) => light[c]! * (1 - cover) + under[c]! * ink[c]! * cover) as [number, number, number]
    }
    return light
  }
  const { specks, nick } = wearOf(piece)
  return (cardX: number, cardY: number): Rgb | null => {
    if (
      cardX < piece.trimLeft + nick(0, cardY) ||
      cardY < nick(1, cardX) ||
      cardX > WIDTH - nick(2, cardY) ||
      cardY > HEIGHT - piece.trimBottom - nick(3, cardX)
    ) {
      return null
    }
    for (const speck of specks) {
      if (Math.hypot(cardX - speck.x, cardY - speck.y) < speck.r)
        return speck.dark ? [0.1, 0.08, 0.06] : [0.75, 0.72, 0.62]
    }
    const [rx, ry] = [cardX - WIDTH / 2 - piece.shiftX, cardY - HEIGHT / 2 - piece.shiftY]
    const [x, y] = [rx * cos + ry * sin + WIDTH / 2, -rx * sin + ry * cos + HEIGHT / 2]
    const light = original(x, y)
    if (!dots) return light
    // Darkness by channel becomes dots of the process's own inks.
    return light.map((value, c) => {
      const tone = Math.min(1, Math.max(0, (1 - value / paper[c]!) / 0.93))
      if (dots.kind === 'screen') {
        const angle = ((dots.angle + [-30, 30, 0][c]!) * Math.PI) / 180
        // A scan prints its black in every ink: solids become a dense screen.
        const cover = screenCover(x, y, 0.06 + 0.82 * tone, angle, 25.4 / dots.lpi)
        return paper[c]! * (1 - 0.93 * cover)
      }
      const [i, j] = [Math.floor(x / dots.size), Math.floor(y / dots.size)]
      const cover = hashCell(i, j, 77 + c) < 0.04 + 0.93 * tone ? 1 : 0
      return paper[c]! * (1 - 0.9 * cover)
    }) as unknown as Rgb
  }
}

/** Specks of dirt and lost ink, and the course of the cut: a saw's waver of a few hundredths of a millimetre, and some nicks. */
function wearOf({ wear }: Piece) {
  if (wear === null) return { specks: [], nick: () => 0 }
  const random = createRandom(wear)
  const specks = Array.from({ length: 8 + Math.floor(10 * random()) }, () => ({
    x: 2 + (WIDTH - 4) * random(),
    y: 2 + (HEIGHT - 4) * random(),
    r: 0.08 + 0.14 * random(),
    dark: random() < 0.6,
  }))
  const sides = [0, 1, 2, 3].map(() => {
    const waver = Array.from({ length: 400 }, () => 0.045 * (random() - 0.5))
    const nicks = Array.from({ length: Math.floor(6 * random()) }, () => ({
      at: 90 * random(),
      wide: 0.25 + 0.4 * random(),
      deep: 0.08 + 0.16 * random(),
    }))
    return { waver, nicks }
  })
  const nick = (side: number, along: number) => {
    const { waver, nicks } = sides[side]!
    const place = Math.max(0, along) / 0.6
    const k = Math.min(waver.length - 2, Math.floor(place))
    let depth = waver[k]! + (waver[k + 1]! - waver[k]!) * (place - k)
    for (const { at, wide, deep } of nicks) {
      const d = Math.abs(along - at) / wide
      if (d < 1) depth += deep * (1 - d)
    }
    return depth
  }
  return { specks, nick }
}

/** Where a place of the print lies on the cut card. */
export function printToCard(piece: Piece, x: number, y: number): readonly [number, number] {
  const [cos, sin] = [Math.cos((piece.turn * Math.PI) / 180), Math.sin((piece.turn * Math.PI) / 180)]
  const [rx, ry] = [x - WIDTH / 2, y - HEIGHT / 2]
  return [rx * cos - ry * sin + WIDTH / 2 + piece.shiftX, rx * sin + ry * cos + HEIGHT / 2 + piece.shiftY]
}
