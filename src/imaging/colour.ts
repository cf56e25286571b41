/** Colours of a picture as light and as CIELAB (D65), and how far two lie apart. */
import { converter, differenceCiede2000, type Lab65 } from 'culori'
import { linearLevel } from './linear-light.ts'
import type { Pixels } from './pixels.ts'

/** Red, green, blue as linear light, 0–1. */
export type Light = readonly [red: number, green: number, blue: number]

const toLab65 = converter('lab65')
const difference = differenceCiede2000()

export function labOf([r, g, b]: Light): Lab65 {
  return toLab65({ mode: 'lrgb', r, g, b })
}

/** CIEDE2000 with kL = kC = kH = 1. Sharma, Wu & Dalal (2005). */
export function deltaE00(a: Lab65, b: Lab65): number {
  return difference(a, b)
}

/** Light at a place between pixels, bilinear; `null` outside the picture. Pixel centres lie at whole numbers plus a half. */
export function lightAt({ width, height, data }: Pixels, x: number, y: number): Light | null {
  const [left, top] = [Math.floor(x - 0.5), Math.floor(y - 0.5)]
  if (left < 0 || top < 0 || left + 1 >= width || top + 1 >= height) return null
  const [fx, fy] = [x - 0.5 - left, y - 0.5 - top]
  const mix = (channel: number) => {
    const at = 4 * (top * width + left) + channel
    const upper = linearLevel(data[at] as number) * (1 - fx) + linearLevel(data[at + 4] as number) * fx
    const next = at + 4 * width
    const lower = linearLevel(data[next] as number) * (1 - fx) + linearLevel(data[next + 4] as number) * fx
    return upper * (1 - fy) + lower * fy
  }
  return [mix(0), mix(1), mix(2)]
}
