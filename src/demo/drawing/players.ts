/**
 * Invented players as stylised figures: a bust for portrait cards, a leaping figure for action cards. In mm.
 * Long because a figure is drawn part by part, and every part needs the same measures of the body.
 */
import { fillShape, type Pen, strokeShape } from './pen.ts'
import { between, createRandom, pick, type Random } from './random.ts'

export interface Player {
  readonly skin: string
  readonly shade: string
  readonly hair: string
  readonly hairStyle: 'short' | 'parted' | 'bob' | 'bun' | 'curls'
  readonly cap: boolean
  readonly moustache: boolean
  readonly jersey: string
  readonly trim: string
  readonly club: string
}

const CLUBS = [
  { club: 'SALTMERE HERONS', jersey: '#1f4e79', trim: '#f1e3b6' },
  { club: 'GRINDLE BAY', jersey: '#8c2a22', trim: '#f3ead2' },
  { club: 'PORT ENNISH', jersey: '#2f5d3a', trim: '#e7b84a' },
] as const

const WOMEN = ['Tamsin', 'Hesper', 'Wilhelmina']

const CLUB_OF: Readonly<Record<string, number>> = {
  'Odo Marrable': 0,
  'Tamsin Quillfeather': 0,
  'Ivo Brackwater': 2,
  'Hesper Lunn': 2,
  'Barnaby Oxt': 1,
  'Wilhelmina Strake': 1,
  'Corvin Thaxley': 0,
}

export function playerOf(name: string): Player {
  const seed = [...name].reduce((sum, letter) => (sum * 31 + letter.codePointAt(0)!) % 65_521, 3)
  const random = createRandom(seed)
  const skins = [
    ['#e8b992', '#b97a55'],
    ['#d9a077', '#9c6340'],
    ['#b77b52', '#7a4c2e'],
    ['#f0c8a4', '#c48a63'],
  ] as const
  const [skin, shade] = pick(random, skins)
  const woman = WOMEN.includes(name.split(' ')[0]!)
  const team = CLUBS[CLUB_OF[name] ?? seed % 3]!
  return {
    skin,
    shade,
    hair: pick(random, ['#3a2416', '#1d1713', '#7a4a22', '#a3672c', '#5b3a24']),
    hairStyle: woman ? pick(random, ['bob', 'bun', 'curls'] as const) : pick(random, ['short', 'parted'] as const),
    cap: !woman && random() < 0.6,
    moustache: !woman && random() < 0.45,
    ...team,
  }
}

/** Head and shoulders, or the head alone. `x`, `y`: middle of the face; `size`: height of the head in mm. */
export function drawBust(pen: Pen, player: Player, x: number, y: number, size: number, headOnly = false): void {
  pen.save()
  pen.translate(x, y)
  pen.scale(size / 100, size / 100)
  pen.lineJoin = 'round'
  pen.lineCap = 'round'
  drawBackHair(pen, player)
  pen.save()
  pen.translate(0, -12)
  if (!headOnly) drawShoulders(pen, player)
  if (!headOnly) drawNeck(pen, player)
  pen.restore()
  drawFace(pen, player)
  drawHair(pen, player)
  if (player.cap) drawCap(pen, player)
  pen.restore()
}

function drawShoulders(pen: Pen, player: Player): void {
  const cloth = pen.createLinearGradient(-110, 60, 110, 200)
  cloth.addColorStop(0, lighten(player.jersey, 0.16))
  cloth.addColorStop(0.5, player.jersey)
  cloth.addColorStop(1, darken(player.jersey, 0.45))
  fillShape(pen, cloth, () => {
    pen.moveTo(-132, 260)
    pen.bezierCurveTo(-134, 130, -104, 92, -50, 78)
    pen.lineTo(-26, 62)
    pen.lineTo(26, 62)
    pen.lineTo(50, 78)
    pen.bezierCurveTo(104, 92, 134, 130, 132, 260)
    pen.closePath()
  })
  // Knitted bands across the chest, following the body.
  for (const [offset, width] of [
    [0, 17],
    [27, 7],
  ] as const) {
    strokeShape(pen, player.trim, width, () => {
      pen.moveTo(-128, 172 + offset)
      pen.quadraticCurveTo(0, 206 + offset, 128, 172 + offset)
    })
  }
  strokeShape(pen, darken(player.jersey, 0.55), 2.4, () => {
    pen.moveTo(-74, 128)
    pen.quadraticCurveTo(-86, 190, -80, 260)
    pen.moveTo(76, 126)
    pen.quadraticCurveTo(90, 190, 84, 260)
    pen.moveTo(-30, 120)
    pen.quadraticCurveTo(-20, 150, -34, 168)
    pen.moveTo(44, 112)
    pen.quadraticCurveTo(36, 140, 46, 160)
  })
  pen.globalAlpha = 0.35
  fillShape(pen, darken(player.jersey, 0.7), () => {
    pen.moveTo(132, 260)
    pen.bezierCurveTo(134, 130, 104, 92, 50, 78)
    pen.bezierCurveTo(74, 120, 80, 190, 60, 260)
    pen.closePath()
  })
  pen.globalAlpha = 1
}

function drawNeck(pen: Pen, player: Player): void {
  fillShape(pen, player.shade, () => {
    pen.moveTo(-25, 30)
    pen.lineTo(-29, 74)
    pen.quadraticCurveTo(0, 104, 29, 74)
    pen.lineTo(25, 30)
    pen.closePath()
  })
  fillShape(pen, player.skin, () => {
    pen.moveTo(-24, 34)
    pen.lineTo(-27, 74)
    pen.quadraticCurveTo(-10, 92, 2, 88)
    pen.quadraticCurveTo(-12, 60, -6, 40)
    pen.closePath()
  })
  strokeShape(pen, player.trim, 11, () => {
    pen.moveTo(-42, 70)
    pen.quadraticCurveTo(0, 122, 42, 70)
  })
  strokeShape(pen, darken(player.jersey, 0.5), 2, () => {
    pen.moveTo(-46, 74)
    pen.quadraticCurveTo(0, 130, 46, 74)
  })
}

function faceOutline(pen: Pen): void {
  pen.moveTo(-36, -28)
  pen.bezierCurveTo(-39, 0, -37, 20, -28, 34)
  pen.bezierCurveTo(-18, 49, -9, 54, 0, 54)
  pen.bezierCurveTo(10, 54, 19, 49, 28, 34)
  pen.bezierCurveTo(37, 20, 39, 0, 36, -28)
  pen.bezierCurveTo(33, -58, -33, -58, -36, -28)
  pen.closePath()
}

function drawFace(pen: Pen, player: Player): void {
  for (const side of [-1, 1]) {
    fillShape(pen, side < 0 ? player.skin : player.shade, () => pen.ellipse(side * 37, 2, 6, 12, side * 0.15, 0, 7))
  }
  const skin = pen.createLinearGradient(-38, -10, 40, 14)
  skin.addColorStop(0, lighten(player.skin, 0.14))
  skin.addColorStop(0.55, player.skin)
  skin.addColorStop(1, player.shade)
  fillShape(pen, skin, () => faceOutline(pen))
  pen.save()
  pen.beginPath()
  faceOutline(pen)
  pen.clip()
  pen.globalAlpha = 0.4
  fillShape(pen, player.shade, () => {
    pen.moveTo(40, -50)
    pen.bezierCurveTo(14, -20, 30, 10, 10, 34)
    pen.bezierCurveTo(6, 46, 4, 52, 2, 60)
    pen.lineTo(50, 60)
    pen.closePath()
  })
  pen.globalAlpha = 1
  for (const side of [-1, 1]) {
    const blush = pen.createRadialGradient(side * 20, 16, 0, side * 20, 16, 13)
    blush.addColorStop(0, 'rgba(196, 76, 56, .4)')
    blush.addColorStop(1, 'rgba(196, 76, 56, 0)')
    fillShape(pen, blush, () => pen.ellipse(side * 20, 16, 13, 11, 0, 0, 7))
  }
  pen.restore()
  const dark = darken(player.shade, 0.62)
  for (const side of [-1, 1]) {
    fillShape(pen, '#f6efe2', () => pen.ellipse(side * 15.5, -6, 7, 3.9, 0, 0, 7))
    fillShape(pen, '#33221a', () => pen.ellipse(side * 15.5 + 0.8, -6.1, 3.5, 3.7, 0, 0, 7))
    fillShape(pen, '#ffffff', () => pen.ellipse(side * 15.5 - 0.6, -7.4, 1, 1, 0, 0, 7))
    strokeShape(pen, dark, 2.2, () => {
      pen.moveTo(side * 15.5 - 8, -7)
      pen.quadraticCurveTo(side * 15.5, -13.2, side * 15.5 + 8, -7)
    })
    strokeShape(pen, player.hair, 3.6, () => {
      pen.moveTo(side * 7, -16.5)
      pen.quadraticCurveTo(side * 16, -21.5, side * 25, -15)
    })
  }
  strokeShape(pen, dark, 2, () => {
    pen.moveTo(3, -10)
    pen.bezierCurveTo(8, 4, 9, 12, 7, 15)
    pen.quadraticCurveTo(2, 19, -5, 15)
  })
  fillShape(pen, lighten(player.skin, 0.3), () => pen.ellipse(-1, 8, 2, 6, 0, 0, 7))
  fillShape(pen, '#a8483c', () => {
    pen.moveTo(-13, 29)
    pen.quadraticCurveTo(-5, 25.5, 0, 28)
    pen.quadraticCurveTo(6, 25.5, 13, 28)
    pen.quadraticCurveTo(2, 38, -13, 29)
  })
  strokeShape(pen, dark, 1.8, () => {
    pen.moveTo(-14, 29)
    pen.quadraticCurveTo(0, 32, 14, 28)
  })
  if (player.moustache) {
    fillShape(pen, player.hair, () => {
      pen.moveTo(-17, 27)
      pen.quadraticCurveTo(-8, 19, 0, 22.5)
      pen.quadraticCurveTo(9, 19, 17, 26)
      pen.quadraticCurveTo(0, 29.5, -17, 27)
    })
  }
}

function drawBackHair(pen: Pen, player: Player): void {
  if (player.hairStyle === 'bob') fillShape(pen, darken(player.hair, 0.25), () => pen.roundRect(-48, -52, 96, 98, 40))
  if (player.hairStyle === 'bun') fillShape(pen, player.hair, () => pen.ellipse(6, -66, 19, 16, 0, 0, 7))
  if (player.hairStyle === 'curls') {
    for (let place = 0; place < 11; place++) {
      const turn = Math.PI * (0.9 + (place / 10) * 1.2)
      fillShape(pen, darken(player.hair, 0.2), () =>
        pen.ellipse(Math.cos(turn) * 42, -14 + Math.sin(turn) * 42, 15, 15, 0, 0, 7),
      )
    }
  }
}

function drawHair(pen: Pen, player: Player): void {
  const shine = pen.createLinearGradient(-36, -60, 36, -20)
  shine.addColorStop(0, lighten(player.hair, 0.25))
  shine.addColorStop(0.6, player.hair)
  shine.addColorStop(1, darken(player.hair, 0.4))
  fillShape(pen, shine, () => {
    pen.moveTo(-38, -2)
    pen.bezierCurveTo(-46, -46, -26, -68, 2, -67)
    pen.bezierCurveTo(32, -67, 46, -44, 38, -2)
    if (player.hairStyle === 'parted') {
      pen.bezierCurveTo(36, -24, 26, -36, -6, -42)
      pen.bezierCurveTo(-22, -36, -32, -28, -35, -6)
    } else if (player.hairStyle === 'short') {
      pen.bezierCurveTo(35, -22, 31, -36, 14, -38)
      pen.bezierCurveTo(-6, -32, -30, -44, -35, -6)
    } else {
      pen.bezierCurveTo(36, -16, 24, -34, 4, -44)
      pen.bezierCurveTo(-10, -30, -30, -24, -36, 0)
    }
    pen.closePath()
  })
  if (player.hairStyle === 'bob') {
    for (const side of [-1, 1]) {
      fillShape(pen, player.hair, () => {
        pen.moveTo(side * 34, -30)
        pen.bezierCurveTo(side * 54, -10, side * 50, 30, side * 42, 44)
        pen.bezierCurveTo(side * 32, 40, side * 37, 0, side * 31, -22)
        pen.closePath()
      })
    }
  }
}

function drawCap(pen: Pen, player: Player): void {
  const cloth = pen.createLinearGradient(-40, -70, 40, -30)
  cloth.addColorStop(0, lighten(player.jersey, 0.2))
  cloth.addColorStop(1, darken(player.jersey, 0.4))
  fillShape(pen, cloth, () => {
    pen.moveTo(-41, -27)
    pen.bezierCurveTo(-50, -66, -24, -80, 2, -80)
    pen.bezierCurveTo(30, -80, 48, -64, 41, -27)
    pen.quadraticCurveTo(0, -40, -41, -27)
  })
  strokeShape(pen, player.trim, 7, () => {
    pen.moveTo(-41, -31)
    pen.quadraticCurveTo(0, -44, 41, -31)
  })
  fillShape(pen, darken(player.jersey, 0.5), () => {
    pen.moveTo(-40, -28)
    pen.quadraticCurveTo(-8, -44, 42, -29)
    pen.quadraticCurveTo(30, -18, -2, -22)
    pen.quadraticCurveTo(-34, -14, -48, -17)
    pen.quadraticCurveTo(-50, -23, -40, -28)
  })
  for (const turn of [-0.5, 0, 0.5]) {
    strokeShape(pen, darken(player.jersey, 0.4), 1.4, () => {
      pen.moveTo(turn * 10, -79)
      pen.quadraticCurveTo(turn * 52, -62, turn * 56, -38)
    })
  }
  fillShape(pen, player.trim, () => pen.ellipse(1, -79, 4.5, 3, 0, 0, 7))
}

/** A player in the air with the ball, over water. `height`: of the figure in mm. */
export function drawLeap(pen: Pen, player: Player, x: number, y: number, height: number, seed: number): void {
  const random = createRandom(seed)
  pen.save()
  pen.translate(x, y)
  pen.scale(height / 200, height / 200)
  pen.lineJoin = 'round'
  pen.lineCap = 'round'
  const outline = '#1c1512'
  const limb = (points: readonly (readonly [number, number])[], width: number, colour: string): void => {
    for (const [stroke, ink] of [
      [width + 5, outline],
      [width, colour],
    ] as const) {
      strokeShape(pen, ink, stroke, () => {
        pen.moveTo(points[0]![0], points[0]![1])
        pen.quadraticCurveTo(points[1]![0], points[1]![1], points[2]![0], points[2]![1])
      })
    }
  }
  splash(pen, random)
  limb(
    [
      [-8, 34],
      [-46, 58],
      [-34, 98],
    ],
    19,
    player.skin,
  )
  limb(
    [
      [-36, 78],
      [-38, 90],
      [-34, 102],
    ],
    17,
    player.trim,
  )
  limb(
    [
      [10, 34],
      [54, 38],
      [66, 84],
    ],
    20,
    player.skin,
  )
  limb(
    [
      [60, 64],
      [64, 78],
      [68, 92],
    ],
    18,
    player.trim,
  )
  for (const [fx, fy, turn] of [
    [-30, 108, 0.5],
    [76, 96, -0.2],
  ] as const) {
    fillShape(pen, outline, () => pen.ellipse(fx, fy, 17, 9, turn, 0, 7))
  }
  fillShape(pen, outline, () => pen.roundRect(-31, 14, 60, 40, 13))
  fillShape(pen, '#f2e9d4', () => pen.roundRect(-28, 17, 54, 34, 11))
  limb(
    [
      [-24, -34],
      [-62, -26],
      [-74, -58],
    ],
    17,
    player.jersey,
  )
  fillShape(pen, outline, () => pen.roundRect(-11, -62, 20, 26, 6))
  fillShape(pen, player.shade, () => pen.roundRect(-9, -62, 16, 26, 6))
  fillShape(pen, outline, () => pen.roundRect(-33, -46, 64, 74, 22))
  fillShape(pen, player.jersey, () => pen.roundRect(-30, -43, 58, 68, 20))
  pen.save()
  pen.beginPath()
  pen.roundRect(-30, -43, 58, 68, 20)
  pen.clip()
  strokeShape(pen, player.trim, 11, () => {
    pen.moveTo(-34, -8)
    pen.quadraticCurveTo(0, 4, 34, -10)
  })
  pen.globalAlpha = 0.3
  fillShape(pen, outline, () => pen.ellipse(30, 0, 22, 50, 0.2, 0, 7))
  pen.globalAlpha = 1
  pen.restore()
  limb(
    [
      [22, -34],
      [52, -58],
      [44, -96],
    ],
    17,
    player.jersey,
  )
  for (const [hx, hy] of [
    [-75, -64],
    [44, -104],
  ] as const) {
    fillShape(pen, outline, () => pen.ellipse(hx, hy, 11.5, 11.5, 0, 0, 7))
    fillShape(pen, player.skin, () => pen.ellipse(hx, hy, 9, 9, 0, 0, 7))
  }
  pen.restore()
  pen.save()
  pen.translate(x, y)
  const unit = height / 200
  drawBust(pen, player, -1 * unit, -70 * unit, 44 * unit, true)
  pen.restore()
  pen.save()
  pen.translate(x, y)
  pen.scale(unit, unit)
  drawBall(pen, 58, -126, 23)
  pen.restore()
}

/** The skerryball: plaited, with a band. */
export function drawBall(pen: Pen, x: number, y: number, radius: number): void {
  pen.save()
  pen.translate(x, y)
  const leather = pen.createRadialGradient(-radius * 0.4, -radius * 0.4, radius * 0.1, 0, 0, radius)
  leather.addColorStop(0, '#f3cf8e')
  leather.addColorStop(0.6, '#c98b3c')
  leather.addColorStop(1, '#7d4b1c')
  fillShape(pen, leather, () => pen.ellipse(0, 0, radius, radius, 0, 0, 7))
  pen.beginPath()
  pen.ellipse(0, 0, radius, radius, 0, 0, 7)
  pen.clip()
  for (const turn of [-0.7, -0.25, 0.25, 0.7]) {
    strokeShape(pen, '#5c3412', radius * 0.06, () =>
      pen.ellipse(turn * radius, 0, radius * 0.9, radius * 1.25, 0.5, 0, 7),
    )
  }
  strokeShape(pen, '#8c2a22', radius * 0.2, () => pen.ellipse(0, 0, radius * 1.1, radius * 0.36, -0.5, 0, 7))
  pen.restore()
  strokeShape(pen, '#1c1512', radius * 0.09, () => pen.ellipse(x, y, radius, radius, 0, 0, 7))
}

function splash(pen: Pen, random: Random): void {
  for (let drop = 0; drop < 34; drop++) {
    const turn = between(random, -Math.PI * 0.95, -Math.PI * 0.05)
    const far = between(random, 30, 92)
    fillShape(pen, '#f3f7f4', () =>
      pen.ellipse(
        Math.cos(turn) * far,
        122 + Math.sin(turn) * far * 0.5,
        between(random, 1.5, 5),
        between(random, 2, 7),
        turn,
        0,
        7,
      ),
    )
  }
}

export function darken(colour: string, part: number): string {
  return mix(colour, [0, 0, 0], part)
}

export function lighten(colour: string, part: number): string {
  return mix(colour, [255, 255, 255], part)
}

function mix(colour: string, to: readonly [number, number, number], part: number): string {
  const from = [1, 3, 5].map((place) => Number.parseInt(colour.slice(place, place + 2), 16))
  return `#${from
    .map((value, place) =>
      Math.round(value * (1 - part) + to[place]! * part)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`
}
