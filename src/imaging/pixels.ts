/** Decoded pictures as plain arrays. Nothing here knows a canvas, a browser or a file. */

/** Upright, eight bits a channel, sRGB as the decoder delivers it; `data` holds red, green, blue, alpha by rows. */
export interface Pixels {
  readonly width: number
  readonly height: number
  readonly data: Uint8ClampedArray
}

/** One value a pixel, by rows, 0–255. */
export interface Grey {
  readonly width: number
  readonly height: number
  readonly data: Float32Array
}

/**
 * Turns the bytes of an image file into upright pixels (EXIF orientation applied). Injected, since a worker and Node decode
 * differently. Rejects where the bytes cannot be decoded.
 */
export type Decode = (bytes: Uint8Array, mediaType: string) => Promise<Pixels>

/** Luma by Rec. 601, the one that JPEG and PDQ use; transparent parts lie on white. */
export function toGrey({ width, height, data }: Pixels): Grey {
  const grey = new Float32Array(width * height)
  for (let i = 0, j = 0; i < grey.length; i++, j += 4) {
    const luma = 0.299 * (data[j] as number) + 0.587 * (data[j + 1] as number) + 0.114 * (data[j + 2] as number)
    const alpha = data[j + 3] as number
    grey[i] = alpha === 255 ? luma : (luma * alpha) / 255 + 255 - alpha
  }
  return { width, height, data: grey }
}

/** Shrinks by averaging whole areas, each side to at most `longest`; never enlarges. Sides may shrink unequally. */
export function shrink(grey: Grey, longestWidth: number, longestHeight: number): Grey {
  const width = Math.min(grey.width, longestWidth)
  const height = Math.min(grey.height, longestHeight)
  if (width === grey.width && height === grey.height) return grey
  return shrinkRows(shrinkColumns(grey, width), height)
}

function shrinkColumns(grey: Grey, width: number): Grey {
  if (width === grey.width) return grey
  const data = new Float32Array(width * grey.height)
  const weights = areaWeights(grey.width, width)
  for (let y = 0; y < grey.height; y++) {
    const row = y * grey.width
    for (let x = 0; x < width; x++) data[y * width + x] = averageAlong(grey.data, row, 1, weights, x)
  }
  return { width, height: grey.height, data }
}

function shrinkRows(grey: Grey, height: number): Grey {
  if (height === grey.height) return grey
  const data = new Float32Array(grey.width * height)
  const weights = areaWeights(grey.height, height)
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < grey.width; x++) {
      data[y * grey.width + x] = averageAlong(grey.data, x, grey.width, weights, y)
    }
  }
  return { width: grey.width, height, data }
}

interface AreaWeights {
  readonly step: number
  readonly length: number
}

function areaWeights(from: number, to: number): AreaWeights {
  return { step: from / to, length: from }
}

function averageAlong(data: Float32Array, start: number, stride: number, { step, length }: AreaWeights, index: number) {
  const low = index * step
  const high = Math.min(low + step, length)
  let sum = 0
  for (let i = Math.floor(low); i < high; i++) {
    sum += (data[start + i * stride] as number) * (Math.min(i + 1, high) - Math.max(i, low))
  }
  return sum / (high - low)
}
