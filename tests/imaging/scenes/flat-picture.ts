/** A flat picture square to the camera, from a formula of millimetres: linear light in, levels out, each pixel the mean of its area. */

function toLevel(light: number): number {
  const value = Math.min(1, Math.max(0, light))
  return 255 * (value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055)
}

export type Light3 = readonly [number, number, number]

/** @param looks a side of a pixel. @param noise standard deviation, levels. */
export function drawFlat(
  widthMm: number,
  heightMm: number,
  pxPerMm: number,
  light: (xMm: number, yMm: number) => number | Light3,
  { looks = 4, noise = 0, random = Math.random }: { looks?: number; noise?: number; random?: () => number } = {},
): { width: number; height: number; data: Uint8ClampedArray } {
  const [width, height] = [Math.round(widthMm * pxPerMm), Math.round(heightMm * pxPerMm)]
  const data = new Uint8ClampedArray(width * height * 4)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const sum = [0, 0, 0]
      for (let k = 0; k < looks * looks; k++) {
        const value = light(
          (x + ((k % looks) + 0.5) / looks) / pxPerMm,
          (y + (Math.floor(k / looks) + 0.5) / looks) / pxPerMm,
        )
        for (let c = 0; c < 3; c++) sum[c]! += (typeof value === 'number' ? value : value[c]!) / (looks * looks)
      }
      const grain = noise * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
      const at = 4 * (y * width + x)
      for (let c = 0; c < 3; c++) data[at + c] = Math.round(toLevel(sum[c]!) + grain)
      data[at + 3] = 255
    }
  }
  return { width, height, data }
}
