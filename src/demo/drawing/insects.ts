/** Invented insects of the fen, as on a naturalist's plate. Draws into a box in mm. */
import { fillShape, type Pen, strokeShape } from './pen.ts'
import { darken, lighten } from './players.ts'
import { between, createRandom, type Random } from './random.ts'

type Kind = 'hawker' | 'beetle' | 'moth' | 'longhorn'
const KIND_OF: Readonly<Record<string, Kind>> = {
  'Lantern Hawker': 'hawker',
  'Sedge Skimmer': 'hawker',
  'Mire Beetle': 'beetle',
  'Peat Longhorn': 'longhorn',
  'Reed Lappet': 'moth',
}

const GROUNDS: Readonly<Record<Kind, readonly [string, string]>> = {
  hawker: ['#dfe9d2', '#a9c3a6'],
  beetle: ['#f0e3c2', '#cfae74'],
  moth: ['#e9e0d4', '#b5a79c'],
  longhorn: ['#e3e7d0', '#b3b384'],
}

export function drawInsectScene(pen: Pen, name: string, x: number, y: number, width: number, height: number): void {
  const seed = [...name].reduce((sum, letter) => (sum * 41 + letter.codePointAt(0)!) % 32_749, 5)
  const random = createRandom(seed)
  const kind = KIND_OF[name] ?? (['hawker', 'beetle', 'moth', 'longhorn'] as const)[seed % 4]!
  pen.save()
  pen.beginPath()
  pen.rect(x, y, width, height)
  pen.clip()
  const [pale, deep] = GROUNDS[kind]
  const ground = pen.createRadialGradient(
    x + width / 2,
    y + height * 0.42,
    4,
    x + width / 2,
    y + height / 2,
    height * 0.7,
  )
  ground.addColorStop(0, lighten(pale, 0.3))
  ground.addColorStop(0.6, pale)
  ground.addColorStop(1, deep)
  pen.fillStyle = ground
  pen.fillRect(x, y, width, height)
  pen.translate(x, y)
  pen.scale(width / 100, width / 100)
  const tall = (height / width) * 100
  drawReeds(pen, random, tall)
  pen.translate(50, tall * 0.47)
  pen.rotate(kind === 'hawker' ? 0.22 : -0.12)
  if (kind === 'hawker') pen.scale(0.88, 0.88)
  pen.shadowColor = 'rgba(40, 40, 20, .28)'
  pen.shadowBlur = 14
  pen.shadowOffsetX = 10
  pen.shadowOffsetY = 14
  if (kind === 'hawker') drawHawker(pen)
  else if (kind === 'moth') drawMoth(pen)
  else drawBeetle(pen, kind === 'longhorn')
  pen.restore()
}

function drawReeds(pen: Pen, random: Random, tall: number): void {
  pen.lineCap = 'round'
  for (let reed = 0; reed < 46; reed++) {
    const foot = between(random, -4, 104)
    const lean = between(random, -10, 10)
    const high = between(random, tall * 0.18, tall * 0.55) * (Math.abs(foot - 50) / 70 + 0.35)
    pen.globalAlpha = between(random, 0.35, 0.9)
    strokeShape(pen, ['#5f7d43', '#86955a', '#3f5e3a', '#a39a5d'][reed % 4]!, between(random, 0.5, 1.5), () => {
      pen.moveTo(foot, tall + 2)
      pen.quadraticCurveTo(foot + lean * 0.2, tall - high * 0.6, foot + lean, tall - high)
    })
    if (reed % 6 === 0) {
      fillShape(pen, '#6b4526', () => pen.ellipse(foot + lean, tall - high - 3, 1.3, 4.6, lean * 0.03, 0, 7))
    }
  }
  pen.globalAlpha = 1
}

function legs(pen: Pen, colour: string, reach: number): void {
  for (const side of [-1, 1]) {
    for (const [from, knee, toe] of [
      [-14, -26, -34],
      [-2, -2, 10],
      [10, 22, 40],
    ] as const) {
      strokeShape(pen, colour, 1.9, () => {
        pen.moveTo(side * 6, from)
        pen.lineTo(side * reach, knee)
        pen.lineTo(side * (reach + 8), toe)
      })
    }
  }
}

function drawHawker(pen: Pen): void {
  for (const side of [-1, 1]) {
    for (const [y, length, turn, wide] of [
      [-15, 45, -0.2, 7.4],
      [-7, 43, 0.16, 8.4],
    ] as const) {
      pen.save()
      pen.translate(side * 3, y)
      pen.rotate(side * turn)
      const glass = pen.createLinearGradient(0, 0, side * length, 0)
      glass.addColorStop(0, '#e8b84acc')
      glass.addColorStop(0.25, '#d8e6dfd0')
      glass.addColorStop(1, '#b9d2d6c8')
      const wing = (): void => {
        pen.moveTo(0, 0)
        pen.bezierCurveTo(side * length * 0.3, -wide, side * length * 0.9, -wide * 0.9, side * length, -1)
        pen.bezierCurveTo(side * length * 0.95, wide * 0.8, side * length * 0.3, wide * 0.9, 0, 3)
      }
      fillShape(pen, glass, wing)
      pen.shadowColor = 'transparent'
      pen.save()
      pen.beginPath()
      wing()
      pen.clip()
      for (let vein = 0; vein < 30; vein++) {
        strokeShape(pen, '#3c4a3e', 0.24, () => {
          pen.moveTo(side * vein * 1.6, -wide)
          pen.lineTo(side * (vein * 1.6 + 2.6), wide)
        })
      }
      for (const rib of [-0.7, -0.35, 0, 0.4]) {
        strokeShape(pen, '#2e3b31', 0.45, () => {
          pen.moveTo(0, 0)
          pen.quadraticCurveTo(side * length * 0.5, rib * wide * 1.4, side * length, rib * wide * 0.6)
        })
      }
      pen.restore()
      strokeShape(pen, '#27332b', 0.6, wing)
      fillShape(pen, '#a5372a', () =>
        pen.rect(side > 0 ? length * 0.8 : -length * 0.9, -wide * 0.62, length * 0.1, 1.5),
      )
      pen.restore()
    }
  }
  for (let ring = 0; ring < 9; ring++) {
    const y = 2 + ring * 6.2
    fillShape(pen, ring % 2 ? '#1f5c57' : '#2c8177', () => pen.ellipse(0, y, 3.6 - ring * 0.16, 4, 0, 0, 7))
    fillShape(pen, '#f0c14b', () => pen.ellipse(-1.5, y, 0.7, 1.1, 0, 0, 7))
    fillShape(pen, '#f0c14b', () => pen.ellipse(1.5, y, 0.7, 1.1, 0, 0, 7))
  }
  const chest = pen.createRadialGradient(-2, -14, 1, 0, -11, 10)
  chest.addColorStop(0, '#5fae86')
  chest.addColorStop(1, '#1d4a3d')
  fillShape(pen, chest, () => pen.ellipse(0, -11, 7, 11, 0, 0, 7))
  for (const side of [-1, 1]) {
    const eye = pen.createRadialGradient(side * 4 - 1, -26, 0.5, side * 4, -25, 6)
    eye.addColorStop(0, '#ffdf8e')
    eye.addColorStop(0.4, '#d8842c')
    eye.addColorStop(1, '#6a2f12')
    fillShape(pen, eye, () => pen.ellipse(side * 4, -25, 5, 5.4, 0, 0, 7))
  }
}

function drawBeetle(pen: Pen, longhorn: boolean): void {
  const base = longhorn ? '#6a5130' : '#23513d'
  legs(pen, '#2a1f17', longhorn ? 26 : 30)
  for (const side of [-1, 1]) {
    strokeShape(pen, '#2a1f17', 1.3, () => {
      pen.moveTo(side * 4, -33)
      if (longhorn) pen.bezierCurveTo(side * 20, -56, side * 46, -44, side * 47, -10)
      else pen.bezierCurveTo(side * 8, -44, side * 16, -46, side * 19, -52)
    })
  }
  fillShape(pen, '#2d2018', () => pen.ellipse(0, -32, 7.5, 7, 0, 0, 7))
  fillShape(pen, darken(base, 0.3), () => pen.ellipse(0, -21, longhorn ? 10 : 14, 9, 0, 0, 7))
  pen.shadowColor = 'transparent'
  for (const side of [-1, 1]) {
    const shell = pen.createLinearGradient(side * 2, 0, side * 22, 10)
    shell.addColorStop(0, lighten(base, 0.35))
    shell.addColorStop(0.45, base)
    shell.addColorStop(1, darken(base, 0.5))
    const wing = (): void => {
      pen.moveTo(side * 0.4, -15)
      pen.bezierCurveTo(side * 20, -17, side * (longhorn ? 17 : 24), 30, side * 0.4, 43)
      pen.closePath()
    }
    fillShape(pen, shell, wing)
    pen.save()
    pen.beginPath()
    wing()
    pen.clip()
    for (let stripe = 1; stripe < 5; stripe++) {
      strokeShape(pen, longhorn ? '#3b2a17' : '#c9a13b', longhorn ? 1.6 : 0.7, () => {
        pen.moveTo(side * stripe * 3.6, -18)
        pen.quadraticCurveTo(side * stripe * 4.8, 14, side * stripe * 1.2, 44)
      })
    }
    pen.globalAlpha = 0.5
    fillShape(pen, '#fff8e0', () => pen.ellipse(side * 7, -2, 1.6, 10, side * -0.15, 0, 7))
    pen.restore()
  }
}

function drawMoth(pen: Pen): void {
  for (const side of [-1, 1]) {
    const low = pen.createRadialGradient(side * 8, 12, 2, side * 18, 18, 30)
    low.addColorStop(0, '#d9ab74')
    low.addColorStop(1, '#8e5734')
    fillShape(pen, low, () => {
      pen.moveTo(side * 3, 2)
      pen.bezierCurveTo(side * 36, 0, side * 40, 34, side * 22, 40)
      pen.bezierCurveTo(side * 10, 42, side * 5, 26, side * 3, 14)
    })
    const high = pen.createRadialGradient(side * 10, -12, 2, side * 26, -14, 38)
    high.addColorStop(0, '#e9cfa0')
    high.addColorStop(0.6, '#b87b48')
    high.addColorStop(1, '#6d3f27')
    fillShape(pen, high, () => {
      pen.moveTo(side * 3, -12)
      pen.bezierCurveTo(side * 22, -38, side * 44, -34, side * 46, -26)
      pen.bezierCurveTo(side * 44, -4, side * 24, 10, side * 3, 6)
    })
    pen.shadowColor = 'transparent'
    for (const band of [0.42, 0.62, 0.8]) {
      strokeShape(pen, band === 0.62 ? '#f3e4c2' : '#5a3320', 1.2, () => {
        pen.moveTo(side * 44 * band, -34 * band - 4)
        pen.quadraticCurveTo(side * 40 * band + side * 4, -8, side * 30 * band, 6)
      })
    }
    fillShape(pen, '#f6ecd0', () => pen.ellipse(side * 21, -15, 3.4, 2.8, 0, 0, 7))
    fillShape(pen, '#3a2216', () => pen.ellipse(side * 21, -15, 1.7, 1.4, 0, 0, 7))
    for (let hair = 0; hair < 12; hair++) {
      strokeShape(pen, '#4a2f1e', 0.5, () => {
        pen.moveTo(side * (2 + hair * 1.2), -22 - hair * 1.5)
        pen.lineTo(side * (5 + hair * 1.2), -22 - hair * 1.1)
      })
    }
    strokeShape(pen, '#4a2f1e', 0.8, () => {
      pen.moveTo(side * 2, -18)
      pen.quadraticCurveTo(side * 8, -34, side * 17, -40)
    })
  }
  const fur = pen.createLinearGradient(-6, 0, 7, 0)
  fur.addColorStop(0, '#d9b283')
  fur.addColorStop(1, '#6d4429')
  fillShape(pen, fur, () => pen.ellipse(0, 6, 6.4, 26, 0, 0, 7))
  for (let ring = 0; ring < 6; ring++) {
    strokeShape(pen, '#5a3722', 0.8, () => {
      pen.moveTo(-5, 6 + ring * 4)
      pen.quadraticCurveTo(0, 8 + ring * 4, 5, 6 + ring * 4)
    })
  }
}
