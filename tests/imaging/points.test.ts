/**
 * Each kind's measure against something outside: ISO 12233's way of reading a slanted edge, formulas of synthetic screens and
 * shapes, Euler numbers by Gray's bit quads, ssim.js, the trade's centering arithmetic.
 */
import { ssim } from 'ssim.js'
import { describe, expect, it } from 'vitest'
import type { PointOf, Region } from '../../src/domain/exemplar.ts'
import type { PointKind } from '../../src/domain/exemplar-kinds.ts'
import { createPlane } from '../../src/imaging/homography.ts'
import { createPicture, type PlacedPicture } from '../../src/imaging/placed-picture.ts'
import { centeringOf } from '../../src/imaging/points/border-width.ts'
import { cornerRoundness } from '../../src/imaging/points/corner-roundness.ts'
import { countPieces } from '../../src/imaging/points/counters-open.ts'
import { edgeSharpness } from '../../src/imaging/points/edge-sharpness.ts'
import { gap } from '../../src/imaging/points/lines-apart.ts'
import { measureEdge, normalCdf, RISE_PER_SIGMA } from '../../src/imaging/points/measure-edge.ts'
import { measureScreen } from '../../src/imaging/points/measure-screen.ts'
import { mapSsim, meanOf } from '../../src/imaging/points/measure-ssim.ts'
import { seam } from '../../src/imaging/points/seam.ts'
import { strokeWidth } from '../../src/imaging/points/stroke-width.ts'
import { createRandom } from './scenes/edges.ts'
import { drawFlat, type Light3 } from './scenes/flat-picture.ts'

const box = (x: number, y: number, width: number, height: number): Region => ({ x, y, width, height })

function placed(
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  light: (x: number, y: number) => number | Light3,
  options: { looks?: number; noise?: number; random?: () => number } = {},
): PlacedPicture {
  const pixels = drawFlat(widthMm, heightMm, pxPerMm, light, options)
  const corners = [
    [0, 0],
    [pixels.width, 0],
    [pixels.width, pixels.height],
    [0, pixels.height],
  ] as const
  const size = { widthMm: pixels.width / pxPerMm, heightMm: pixels.height / pxPerMm }
  return { ...createPicture(pixels, null), plane: createPlane(corners, size)!, outline: null, greyCard: null }
}

const point = <K extends PointKind>(kind: K, more: object) =>
  ({
    id: 'p',
    name: 'p',
    why: '',
    copiesDo: '',
    side: 'front',
    needsPxPerMm: null,
    tolerance: null,
    copies: {},
    kind,
    ...more,
  }) as unknown as PointOf<K>

const measured = <T extends object>(answer: T): Exclude<T, { reason: string }> => {
  if ('reason' in answer) throw new Error(String(answer.reason))
  return answer as Exclude<T, { reason: string }>
}

/** Standard deviation of a pixel's own width, mm. */
const pixelSigma = (pxPerMm: number) => 1 / pxPerMm / Math.sqrt(12)

/**
 * ISO 12233's slanted edge, as its clause on the e-SFR describes: every pixel projected on the edge's normal, averaged in bins of a
 * quarter pixel, the 10 and 90 % places read off between bins.
 */
function riseByBins({ grey }: PlacedPicture, pxPerMm: number, edgeMm: number, slope: number): number {
  const linear = (level: number) =>
    level / 255 <= 0.04045 ? level / 255 / 12.92 : ((level / 255 + 0.055) / 1.055) ** 2.4
  const bins = new Map<number, { sum: number; n: number }>()
  const [cos] = [1 / Math.sqrt(1 + slope * slope)]
  for (let y = 0; y < grey.height; y++) {
    for (let x = 0; x < grey.width; x++) {
      const d = (x + 0.5 - edgeMm * pxPerMm - slope * (y + 0.5)) * cos
      const bin = Math.round(4 * d)
      const known = bins.get(bin) ?? { sum: 0, n: 0 }
      bins.set(bin, { sum: known.sum + linear(grey.data[y * grey.width + x]!), n: known.n + 1 })
    }
  }
  const profile = [...bins].sort((a, b) => a[0] - b[0]).map(([bin, { sum, n }]) => [bin / 4, sum / n] as const)
  const tail = profile.slice(2, 12).reduce((s, [, v]) => s + v, 0) / 10
  const head = profile.slice(-12, -2).reduce((s, [, v]) => s + v, 0) / 10
  const cross = (share: number) => {
    const level = tail + share * (head - tail)
    for (let i = 1; i < profile.length; i++) {
      const [a, b] = [profile[i - 1]!, profile[i]!]
      if (a[1] < level && b[1] >= level) return a[0] + ((level - a[1]) / (b[1] - a[1])) * (b[0] - a[0])
    }
    return Number.NaN
  }
  return (cross(0.9) - cross(0.1)) / pxPerMm
}

describe('an edge’s rise', () => {
  it.each([
    [12, 0.06, 0.08],
    [16, 0.05, 0.1],
    [24, 0.03, 0.05],
    [24, 0.08, 0.2],
    [40, 0.02, 0.07],
  ])('at %f px/mm and σ %f mm is the formula’s and ISO 12233’s within 5 %%', (pxPerMm, sigma, slope) => {
    const cos = 1 / Math.sqrt(1 + slope * slope)
    const picture = placed(4, 4, pxPerMm, (x, y) => 0.1 + 0.6 * normalCdf(((x - 1.7 - slope * y) * cos) / sigma), {
      looks: 6,
    })
    const edge = measured(measureEdge(picture, box(0.1, 0.1, 3.8, 3.8), 'x'))
    const rise = RISE_PER_SIGMA * edge.sigmaMm
    const formula = RISE_PER_SIGMA * Math.hypot(sigma, pixelSigma(pxPerMm))
    expect(Math.abs(rise / formula - 1)).toBeLessThan(0.05)
    expect(Math.abs(rise / riseByBins(picture, pxPerMm, 1.7, slope) - 1)).toBeLessThan(0.05)
    expect(Math.abs(edge.positionMm - (1.7 + slope * 2))).toBeLessThan(0.1 / pxPerMm)
  })

  it.each([0, 0.6, 1.2])('of the print is told apart from a camera’s blur of %f px', (blurPx) => {
    const [pxPerMm, print] = [24, 0.04]
    const camera = blurPx / pxPerMm
    const picture = placed(
      8,
      4,
      pxPerMm,
      (x) =>
        x < 4
          ? 0.1 + 0.6 * normalCdf((x - 2.02) / Math.hypot(print, camera))
          : 0.7 - 0.6 * normalCdf((x - 6.03) / Math.max(1e-6, camera)),
      { looks: 6 },
    )
    const found = measured(
      edgeSharpness.measure(
        point('edge-sharpness', { region: box(1, 0.5, 2, 3), reference: box(5, 0.5, 2, 3) }),
        picture,
      ),
    )
    expect(Math.abs(found.value - 1000 * RISE_PER_SIGMA * print)).toBeLessThan(found.uncertainty)
    expect(found.uncertainty).toBeLessThan(40)
  })
})

describe('a stroke’s width', () => {
  it.each([
    [12, 0.36, 0.7, 0],
    [12, 0.36, 1, 0.1],
    [24, 0.2, 0.8, 0.05],
    [24, 0.5, 1.4, 0],
  ])('at %f px/mm, %f mm wide under %f px of blur, slope %f', (pxPerMm, width, blurPx, slope) => {
    const sigma = blurPx / pxPerMm
    const cos = 1 / Math.sqrt(1 + slope * slope)
    const picture = placed(3, 4, pxPerMm, (x, y) => {
      const d = (x - 1.4 - slope * (y - 2)) * cos
      return 0.75 - 0.68 * (normalCdf((d + width / 2) / sigma) - normalCdf((d - width / 2) / sigma))
    })
    const found = measured(strokeWidth.measure(point('stroke-width', { region: box(0.2, 0.4, 2.4, 3.2) }), picture))
    expect(Math.abs(found.value - 1000 * width)).toBeLessThan(Math.max(12, found.uncertainty))
    expect(found.uncertainty).toBeLessThan(40)
  })
})

describe('a corner’s radius', () => {
  it.each([
    [24, 0, 0.7],
    [24, 0.15, 0.7],
    [24, 0.3, 1],
    [40, 0.1, 0.8],
    [40, 0.25, 1.4],
  ])('at %f px/mm, %f mm round under %f px of blur', (pxPerMm, radius, blurPx) => {
    const hard = (x: number, y: number) => {
      const [dx, dy] = [1.3 + radius - x, 1.2 + radius - y]
      const d = Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - radius
      return d < 0 ? 1 : 0
    }
    // Blur by formula would need an integral; many looks of a hard corner, displaced by a Gaussian, are the same.
    const steps = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1]
    const weights = steps.map((z) => Math.exp((-z * z) / 2))
    const total = weights.reduce((a, b) => a + b, 0) ** 2
    const s = blurPx / pxPerMm
    const soft = (x: number, y: number) => {
      let sum = 0
      steps.forEach((zx, i) => {
        steps.forEach((zy, j) => {
          sum += weights[i]! * weights[j]! * hard(x + s * zx, y + s * zy)
        })
      })
      return 0.75 - (0.68 * sum) / total
    }
    const picture = placed(3, 3, pxPerMm, soft)
    const found = measured(
      cornerRoundness.measure(point('corner-roundness', { region: box(0.3, 0.2, 2.2, 2.2) }), picture),
    )
    expect(Math.abs(found.value - 1000 * radius)).toBeLessThan(Math.max(25, found.uncertainty))
    expect(found.uncertainty).toBeLessThan(80)
  })
})

describe('a halftone’s ruling and angle', () => {
  const screen = (lpi: number, degrees: number, tone: number) => {
    const turn = (degrees * Math.PI) / 180
    const per = lpi / 25.4
    return (x: number, y: number) => {
      const u = per * (x * Math.cos(turn) + y * Math.sin(turn))
      const v = per * (-x * Math.sin(turn) + y * Math.cos(turn))
      return (Math.cos(2 * Math.PI * u) + Math.cos(2 * Math.PI * v)) / 4 + 0.5 > 1 - tone ? 0.06 : 0.72
    }
  }

  it.each([85, 100, 120, 133, 150, 175, 200].flatMap((lpi) => [15, 45, 75, 90].map((angle) => [lpi, angle] as const)))(
    'of %i lpi at %i° within 2 %% and 2°',
    (lpi, angle) => {
      const random = createRandom(lpi * 7 + angle)
      const pxPerMm = (4.2 * lpi) / 25.4
      const picture = placed(200 / pxPerMm, 200 / pxPerMm, pxPerMm, screen(lpi, angle, 0.3), {
        looks: 3,
        noise: 2,
        random,
      })
      const side = 190 / pxPerMm
      const found = measureScreen(picture, box(4 / pxPerMm, 4 / pxPerMm, side, side), 220)
      if (found === null || found === 'too-small') throw new Error(`no screen was found: ${found}`)
      expect(Math.abs(found.lpi / lpi - 1)).toBeLessThan(0.02)
      expect(Math.abs(((found.angleDeg - angle + 135) % 90) - 45)).toBeLessThan(2)
    },
  )

  it('is not seen in even ink, grain, or a drawn line', () => {
    const random = createRandom(5)
    const even = placed(10, 10, 24, () => 0.4, { looks: 1, noise: 4, random })
    expect(measureScreen(even, box(0.2, 0.2, 9.6, 9.6), 200)).toBeNull()
    const drawn = placed(10, 10, 24, (x) => (Math.abs(x - 5) < 0.3 ? 0.1 : 0.6), { looks: 3, noise: 2, random })
    expect(measureScreen(drawn, box(0.2, 0.2, 9.6, 9.6), 200)).toBeNull()
  })
})

describe('pieces and holes', () => {
  const shape = (rows: readonly string[]) => ({
    ink: Uint8Array.from(rows.join(''), (letter) => (letter === '#' ? 1 : 0)),
    width: rows[0]!.length,
    height: rows.length,
  })

  // Pieces less holes of the letters, as topology has it: A 0, B −1, C 1, i 2, O 0, 8 −1.
  it.each<[string, number, readonly string[]]>([
    ['A', 0, ['......', '..##..', '.#..#.', '.####.', '.#..#.', '......']],
    ['B', -1, ['......', '.####.', '.#..#.', '.####.', '.#..#.', '.####.', '......']],
    ['C', 1, ['......', '..###.', '.#....', '.#....', '..###.', '......']],
    ['i', 2, ['....', '.##.', '....', '.##.', '.##.', '....']],
    ['O', 0, ['......', '..##..', '.#..#.', '.#..#.', '..##..', '......']],
    ['a ring joined over corners', 0, ['.....', '..#..', '.#.#.', '..#..', '.....']],
    ['an open ring', 1, ['.....', '.###.', '.#...', '.###.', '.....']],
  ])('of %s: %i', (_, euler, rows) => {
    expect(countPieces(shape(rows)).euler).toBe(euler)
  })

  /** Gray, Local Properties of Binary Images in Two Dimensions (1971): for ink joined over corners, (Q1 − Q3 − 2·QD) / 4. */
  function eulerByQuads({ ink, width, height }: { ink: Uint8Array; width: number; height: number }): number {
    const at = (x: number, y: number) => (x < 0 || y < 0 || x >= width || y >= height ? 0 : ink[y * width + x]!)
    let sum = 0
    for (let y = -1; y < height; y++) {
      for (let x = -1; x < width; x++) {
        const four = [at(x, y), at(x + 1, y), at(x, y + 1), at(x + 1, y + 1)]
        const n = four.reduce((a, b) => a + b, 0)
        if (n === 1) sum += 1
        else if (n === 3) sum -= 1
        else if (n === 2 && four[0] === four[3]) sum -= 2
      }
    }
    return sum / 4
  }

  it('is Gray’s Euler number on any blots', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = createRandom(seed)
      const [width, height] = [24, 18]
      // A rim of ground, so that no hole touches it.
      const ink = Uint8Array.from({ length: width * height }, (_, i) => {
        const [x, y] = [i % width, Math.floor(i / width)]
        const rim = x === 0 || y === 0 || x === width - 1 || y === height - 1
        return !rim && random() < 0.3 + 0.006 * seed ? 1 : 0
      })
      expect(countPieces({ ink, width, height }).euler).toBe(eulerByQuads({ ink, width, height }))
    }
  })
})

it('structural similarity is ssim.js’s', () => {
  for (const seed of [1, 2, 3]) {
    const random = createRandom(seed)
    const [width, height] = [60, 44]
    const a = Float32Array.from({ length: width * height }, (_, i) =>
      Math.round(120 + 90 * Math.sin(i / 7) * Math.cos((i % width) / 5)),
    )
    const b = a.map((value) => Math.max(0, Math.min(255, Math.round(value * 0.9 + 30 * random()))))
    const asImage = (values: Float32Array) => ({
      width,
      height,
      data: Uint8ClampedArray.from({ length: 4 * width * height }, (_, i) => (i % 4 === 3 ? 255 : values[i >> 2]!)),
    })
    const theirs = ssim(asImage(a), asImage(b), { ssim: 'original', downsample: false, rgb2grayVersion: 'integer' })
    expect(Math.abs(meanOf(mapSsim(a, b, width, height).values) - theirs.mssim)).toBeLessThan(0.01)
  }
})

describe('a seam', () => {
  const [left, right, stock]: Light3[] = [
    [0.16, 0.4, 0.6],
    [0.7, 0.58, 0.1],
    [0.77, 0.73, 0.62],
  ]
  it.each([
    [0, 0.8],
    [0.15, 0.8],
    [0.3, 1.6],
    [-0.2, 0.8],
    [-0.3, 1.5],
  ])('%f mm wide is measured so under %f px of blur', (width, blurPx) => {
    const s = blurPx / 16
    const over = left!.map((value, c) => (value * right![c]!) / stock![c]!)
    const between = width >= 0 ? stock! : over
    const picture = placed(6, 4, 16, (x) => {
      if (x > 5) return stock!
      const [a, b] = [normalCdf((x - 2 + Math.abs(width) / 2) / s), normalCdf((x - 2 - Math.abs(width) / 2) / s)]
      return [0, 1, 2].map((c) => left![c]! * (1 - a) + between[c]! * (a - b) + right![c]! * b) as unknown as Light3
    })
    const found = measured(
      seam.measure(point('seam', { region: box(0.4, 0.4, 3.2, 3.2), paper: box(5.2, 1, 0.6, 2) }), picture),
    )
    expect(Math.abs(found.value - 1000 * width)).toBeLessThan(Math.max(15, found.uncertainty))
  })
})

it('a gap is measured to a fortieth of a millimetre at 12 px/mm', () => {
  const s = 0.5 / 12
  const picture = placed(8, 4, 12, (x) => 0.08 + 0.62 * (normalCdf((x - 2.03) / s) - normalCdf((x - 5.41) / s)))
  const found = measured(
    gap.measure(point('gap', { axis: 'x', region: box(1, 1, 2, 2), other: box(4.4, 1, 2, 2) }), picture),
  )
  expect(Math.abs(found.value - 3.38)).toBeLessThan(0.025)
})

describe('centering, as the trade writes it', () => {
  // 100 × larger / (left + right): 3 mm beside 2 mm is 60/40.
  it.each([
    [3, 2, 60],
    [2, 3, 60],
    [2.5, 2.5, 50],
    [4.5, 0.5, 90],
  ])('%f and %f mm are %f', (a, b, larger) => {
    const found = centeringOf({ value: a, uncertainty: 0.1 }, { value: b, uncertainty: 0.1 })
    expect(found.larger).toBeCloseTo(larger, 9)
    expect(found.uncertainty).toBeGreaterThan(0)
  })
})
