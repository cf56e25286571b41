/**
 * Invented ships before painted seas, as on a chromolithographed card. Draws into a box in mm.
 * Long because every rig and weather is drawn in the same box with the same palette.
 */
import { fillShape, type Pen, polygon, strokeShape } from './pen.ts'
import { between, createRandom, type Random } from './random.ts'

interface Weather {
  readonly sky: readonly [string, string, string]
  readonly sea: readonly [string, string]
  readonly light: string
  readonly cloud: string
}

const WEATHER: readonly Weather[] = [
  { sky: ['#2c6cb4', '#86c1e2', '#f7e0b0'], sea: ['#3d94a6', '#0e4763'], light: '#fff3cf', cloud: '#f6e6cc' },
  { sky: ['#54477d', '#d77d5c', '#fbd08a'], sea: ['#c06a55', '#262b4e'], light: '#ffe2a0', cloud: '#e9a27c' },
  { sky: ['#4a6a80', '#9cb9b8', '#ebe0bd'], sea: ['#5a8a88', '#1a3a44'], light: '#f2efdb', cloud: '#c5cbc3' },
  { sky: ['#14243f', '#2c4d72', '#7fa1a8'], sea: ['#2f5a73', '#0b1a2c'], light: '#f5f1d8', cloud: '#5d7d92' },
]

type Rig = 'barque' | 'steamer' | 'schooner' | 'cutter'
const RIGS: readonly Rig[] = ['barque', 'steamer', 'schooner', 'cutter']

const RIG_OF: Readonly<Record<string, Rig>> = {
  'Nordlys Maiden': 'barque',
  'Grey Petrel': 'steamer',
  'Anna Soderholm': 'schooner',
  'Lady Corrigane': 'cutter',
}

const WEATHER_OF: Readonly<Record<string, number>> = {
  'Nordlys Maiden': 0,
  'Grey Petrel': 2,
  'Anna Soderholm': 1,
  'Lady Corrigane': 3,
}

export function drawShipScene(pen: Pen, name: string, x: number, y: number, width: number, height: number): void {
  const seed = [...name].reduce((sum, letter) => (sum * 37 + letter.codePointAt(0)!) % 32_749, 11)
  const random = createRandom(seed)
  const weather = WEATHER[WEATHER_OF[name] ?? seed % WEATHER.length]!
  pen.save()
  pen.beginPath()
  pen.rect(x, y, width, height)
  pen.clip()
  pen.translate(x, y)
  pen.scale(width / 100, width / 100)
  const tall = (height / width) * 100
  const horizon = tall * 0.64
  drawSky(pen, random, weather, horizon)
  drawCoast(pen, random, weather, horizon)
  drawSea(pen, random, weather, horizon, tall)
  pen.save()
  pen.translate(50, horizon + 9)
  drawShip(pen, RIG_OF[name] ?? RIGS[seed % RIGS.length]!, random, weather)
  pen.restore()
  drawWake(pen, random, horizon + 9)
  pen.restore()
}

function drawSky(pen: Pen, random: Random, weather: Weather, horizon: number): void {
  const sky = pen.createLinearGradient(0, 0, 0, horizon)
  weather.sky.forEach((colour, place) => {
    sky.addColorStop(place / 2, colour)
  })
  pen.fillStyle = sky
  pen.fillRect(0, 0, 100, horizon + 1)
  const sunX = between(random, 18, 84)
  const sun = pen.createRadialGradient(sunX, horizon * 0.55, 2, sunX, horizon * 0.55, 34)
  sun.addColorStop(0, weather.light)
  sun.addColorStop(0.16, `${weather.light}cc`)
  sun.addColorStop(1, `${weather.light}00`)
  pen.fillStyle = sun
  pen.fillRect(0, 0, 100, horizon)
  for (let bank = 0; bank < 9; bank++) {
    const cy = between(random, horizon * 0.08, horizon * 0.86)
    const cx = between(random, -10, 110)
    for (let puff = 0; puff < 14; puff++) {
      pen.globalAlpha = between(random, 0.12, 0.34)
      const far = between(random, -20, 20)
      fillShape(pen, puff % 3 === 0 ? weather.sky[1] : weather.cloud, () =>
        pen.ellipse(cx + far, cy + between(random, -2, 2), between(random, 4, 12), between(random, 0.7, 2.6), 0, 0, 7),
      )
    }
  }
  pen.globalAlpha = 1
  for (let gull = 0; gull < 5; gull++) {
    const gx = between(random, 8, 92)
    const gy = between(random, horizon * 0.1, horizon * 0.5)
    const size = between(random, 1.2, 2.6)
    strokeShape(pen, '#2a2a2c', 0.35, () => {
      pen.moveTo(gx - size, gy - size * 0.3)
      pen.quadraticCurveTo(gx - size * 0.4, gy - size * 0.5, gx, gy)
      pen.quadraticCurveTo(gx + size * 0.4, gy - size * 0.5, gx + size, gy - size * 0.35)
    })
  }
}

function drawCoast(pen: Pen, random: Random, weather: Weather, horizon: number): void {
  const left = random() < 0.5
  const edge = left ? 0 : 100
  const way = left ? 1 : -1
  for (const [depth, colour] of [
    [1.35, weather.sky[1]],
    [0.8, weather.sea[1]],
  ] as const) {
    pen.globalAlpha = depth > 1 ? 0.65 : 0.85
    fillShape(pen, colour, () => {
      pen.moveTo(edge, horizon + 1)
      pen.lineTo(edge, horizon - 9 * depth)
      for (let step = 1; step <= 7; step++) {
        pen.lineTo(
          edge + way * step * 5.2 * depth,
          horizon - Math.max(0.4, (8 - step * 1.1) * depth + between(random, -1, 1)),
        )
      }
      pen.lineTo(edge + way * 40 * depth, horizon + 1)
      pen.closePath()
    })
  }
  pen.globalAlpha = 1
  const towerX = edge + way * 11
  fillShape(pen, '#efe3cb', () =>
    polygon(pen, [
      [towerX - 1.3, horizon - 6],
      [towerX + 1.3, horizon - 6],
      [towerX + 0.9, horizon - 15],
      [towerX - 0.9, horizon - 15],
    ]),
  )
  fillShape(pen, '#9b3326', () => pen.rect(towerX - 1.2, horizon - 16.6, 2.4, 1.8))
  fillShape(pen, weather.light, () => pen.ellipse(towerX, horizon - 15.6, 0.6, 0.6, 0, 0, 7))
}

function drawSea(pen: Pen, random: Random, weather: Weather, horizon: number, tall: number): void {
  const sea = pen.createLinearGradient(0, horizon, 0, tall)
  sea.addColorStop(0, weather.sea[0])
  sea.addColorStop(1, weather.sea[1])
  pen.fillStyle = sea
  pen.fillRect(0, horizon, 100, tall - horizon)
  for (let wave = 0; wave < 190; wave++) {
    const depth = random() ** 1.4
    const wy = horizon + 0.6 + depth * (tall - horizon)
    const wx = between(random, -8, 104)
    const long = 2 + depth * 11
    pen.globalAlpha = between(random, 0.15, 0.55)
    strokeShape(pen, random() < 0.5 ? weather.light : weather.sea[1], 0.18 + depth * 0.7, () => {
      pen.moveTo(wx, wy)
      pen.quadraticCurveTo(wx + long * 0.3, wy - 0.5 - depth * 1.8, wx + long * 0.55, wy)
      pen.quadraticCurveTo(wx + long * 0.8, wy + 0.4 + depth, wx + long, wy - 0.2)
    })
  }
  pen.globalAlpha = 1
}

function drawWake(pen: Pen, random: Random, waterline: number): void {
  for (let fleck = 0; fleck < 70; fleck++) {
    pen.globalAlpha = between(random, 0.3, 0.85)
    fillShape(pen, '#f4f3e6', () =>
      pen.ellipse(
        between(random, 16, 86),
        waterline + between(random, -0.6, 2.6),
        between(random, 0.6, 3),
        between(random, 0.2, 0.7),
        0,
        0,
        7,
      ),
    )
  }
  pen.globalAlpha = 1
}

function drawHull(pen: Pen, from: number, to: number, colour: string, band: string): void {
  fillShape(pen, colour, () => {
    pen.moveTo(from - 3, -8)
    pen.quadraticCurveTo(0, -4.6, to + 5, -9.4)
    pen.quadraticCurveTo(to + 1, -1, to - 4, 1.4)
    pen.lineTo(from + 3, 1.4)
    pen.quadraticCurveTo(from - 1, -2, from - 3, -8)
  })
  strokeShape(pen, band, 0.9, () => {
    pen.moveTo(from - 2.4, -6.4)
    pen.quadraticCurveTo(0, -3, to + 3.6, -7.4)
  })
  pen.globalAlpha = 0.35
  fillShape(pen, '#000000', () => pen.rect(from, -0.6, to - from - 3, 2))
  pen.globalAlpha = 1
}

function mast(pen: Pen, x: number, top: number): void {
  strokeShape(pen, '#3a2618', 0.8, () => {
    pen.moveTo(x, -5)
    pen.lineTo(x + 0.6, top)
  })
}

function sail(pen: Pen, points: readonly (readonly [number, number])[], belly: number, lit: boolean): void {
  const [a, b, c, d] = points as [
    readonly [number, number],
    readonly [number, number],
    readonly [number, number],
    readonly [number, number],
  ]
  const cloth = pen.createLinearGradient(a[0], 0, b[0], 0)
  cloth.addColorStop(0, lit ? '#fbf3df' : '#d9cbb0')
  cloth.addColorStop(0.6, lit ? '#eadcbd' : '#bfae8e')
  cloth.addColorStop(1, '#a08c6c')
  pen.beginPath()
  pen.moveTo(a[0], a[1])
  pen.lineTo(b[0], b[1])
  pen.quadraticCurveTo(b[0] + belly, (b[1] + c[1]) / 2, c[0], c[1])
  pen.quadraticCurveTo((c[0] + d[0]) / 2, c[1] - 1.2, d[0], d[1])
  pen.quadraticCurveTo(a[0] + belly, (a[1] + d[1]) / 2, a[0], a[1])
  pen.fillStyle = cloth
  pen.fill()
  pen.strokeStyle = '#4a3a28'
  pen.lineWidth = 0.3
  pen.stroke()
}

function drawShip(pen: Pen, rig: Rig, random: Random, weather: Weather): void {
  pen.lineCap = 'round'
  if (rig === 'barque') {
    drawHull(pen, -27, 25, '#23262b', '#e9dcc0')
    for (const [x, top] of [
      [-18, -46],
      [0, -52],
      [17, -47],
    ] as const) {
      mast(pen, x, top)
      const high = (-8 - top) / 4
      for (let tier = 0; tier < 4; tier++) {
        const half = 8.4 - tier * 1.35
        const upper = top + 1.4 + (3 - tier) * high
        sail(
          pen,
          [
            [x - half * 0.88, upper],
            [x + half * 0.88, upper],
            [x + half, upper + high * 0.9],
            [x - half, upper + high * 0.9],
          ],
          2.2,
          x < 10,
        )
      }
    }
    for (const [x1, x2] of [
      [20, 37],
      [21, 32],
    ] as const) {
      sail(
        pen,
        [
          [x1, -38],
          [x1 + 0.6, -37],
          [x2, -11],
          [x1 + 2, -12],
        ],
        1.4,
        true,
      )
    }
    strokeShape(pen, '#3a2618', 0.7, () => {
      pen.moveTo(27, -9)
      pen.lineTo(39, -13)
    })
  } else if (rig === 'steamer') {
    drawHull(pen, -28, 27, '#3d474d', '#c9c3ae')
    fillShape(pen, '#e6ddc6', () => pen.rect(-12, -15, 24, 9))
    fillShape(pen, '#d2c7aa', () => pen.rect(-7, -20, 11, 5))
    for (let hole = 0; hole < 6; hole++)
      fillShape(pen, '#23303a', () => pen.ellipse(-9.5 + hole * 3.9, -11, 0.9, 0.9, 0, 0, 7))
    fillShape(pen, '#1f2327', () =>
      polygon(pen, [
        [5, -15],
        [11, -15],
        [10.2, -32],
        [5.6, -32],
      ]),
    )
    fillShape(pen, '#a83c2b', () => pen.rect(5.2, -27, 5.6, 3.2))
    mast(pen, -20, -38)
    mast(pen, 21, -36)
    for (let puff = 0; puff < 46; puff++) {
      const far = puff / 46
      pen.globalAlpha = 0.4 * (1 - far) + 0.06
      fillShape(pen, puff % 2 ? '#4a4c4c' : weather.cloud, () =>
        pen.ellipse(
          8 - far * 46 + between(random, -2, 2),
          -34 - Math.sqrt(far) * 15 + between(random, -2, 2),
          1.6 + far * 6,
          1.3 + far * 3.6,
          0,
          0,
          7,
        ),
      )
    }
    pen.globalAlpha = 1
  } else if (rig === 'schooner') {
    drawHull(pen, -28, 26, '#5a2c1d', '#e7c67a')
    for (const [x, top, boom] of [
      [-12, -49, -29],
      [8, -52, -8],
    ] as const) {
      mast(pen, x, top)
      sail(
        pen,
        [
          [x - 0.4, top + 10],
          [x - 0.2, top + 9],
          [x - 1, -10],
          [boom, -9],
        ],
        -1.2,
        true,
      )
      sail(
        pen,
        [
          [x, top + 1],
          [x + 0.3, top + 1],
          [x - 0.6, top + 10],
          [x - 9, top + 13],
        ],
        -0.6,
        false,
      )
    }
    for (const [x1, x2] of [
      [10, 38],
      [10, 31],
      [10, 24],
    ] as const) {
      sail(
        pen,
        [
          [x1, -46],
          [x1 + 0.4, -45],
          [x2, -11],
          [x1 + 3, -11],
        ],
        1.2,
        x2 > 30,
      )
    }
    strokeShape(pen, '#3a2618', 0.7, () => {
      pen.moveTo(27, -9)
      pen.lineTo(40, -12)
    })
  } else {
    drawHull(pen, -22, 20, '#efe6d0', '#355c86')
    mast(pen, -1, -56)
    sail(
      pen,
      [
        [-1.6, -50],
        [-1.2, -51],
        [-2, -9],
        [-27, -8],
      ],
      -2,
      true,
    )
    for (const [x2, foot] of [
      [33, -9],
      [22, -10],
    ] as const) {
      sail(
        pen,
        [
          [-0.4, -50],
          [0.2, -49],
          [x2, foot],
          [2, -10],
        ],
        1.6,
        x2 > 30,
      )
    }
    fillShape(pen, '#9b3326', () =>
      polygon(pen, [
        [-0.6, -58],
        [-0.6, -54.6],
        [-7, -56.3],
      ]),
    )
  }
  strokeShape(pen, '#2d2119', 0.16, () => {
    for (const [x, top] of rig === 'cutter'
      ? ([[-1, -55]] as const)
      : ([
          [-16, -45],
          [8, -48],
        ] as const)) {
      for (const foot of [-24, -8, 12, 24]) {
        pen.moveTo(x, top)
        pen.lineTo(foot, -8)
      }
    }
  })
}
