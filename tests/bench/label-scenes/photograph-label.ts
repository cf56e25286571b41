/** A camera before an invented label: holder and table around it, turned, tilted, blurred, noisy, saved as JPEG. Known corners. */
import { type Canvas, createCanvas } from '@napi-rs/canvas'
import { createDice } from './draw-label.ts'

export interface Shot {
  /** Pixels of the label's upper side. */
  readonly widthPx: number
  /** Standard deviation of the blur, px. */
  readonly blurPx: number
  /** libjpeg's quality setting. */
  readonly jpeg: number
  readonly turnDegrees: number
  /** 0: square-on; the right end is smaller by this part. */
  readonly tilt: number
  /** `close`: label and a little around; `holder`: a whole holder in 1200 px. */
  readonly frame: 'close' | 'holder'
  readonly seed: number
}

export interface LabelPhoto {
  readonly bytes: Buffer
  readonly corners: readonly (readonly [number, number])[]
  readonly width: number
  readonly height: number
}

export async function photographLabel(label: Canvas, shot: Shot): Promise<LabelPhoto> {
  const dice = createDice(shot.seed * 31 + 5)
  const aspect = label.width / label.height
  const labelWidth = shot.widthPx
  const labelHeight = labelWidth / aspect
  const close = shot.frame === 'close'
  const width = Math.round(close ? labelWidth * 1.25 : labelWidth * 1.5)
  const height = Math.round(close ? labelHeight * 1.5 + labelWidth * 0.25 : labelWidth * 2.2)
  const photo = createCanvas(width, height)
  const pen = photo.getContext('2d')
  pen.fillStyle = `hsl(${dice() * 360} ${dice() * 30}% ${20 + dice() * 60}%)`
  pen.fillRect(0, 0, width, height)
  pen.fillStyle = `hsl(${dice() * 360} 8% ${80 + dice() * 14}%)`
  pen.fillRect(width * 0.04, height * 0.03, width * 0.92, height * 0.94)
  if (!close) drawCardBelow(pen, width, height, dice)
  const centre = [width / 2, close ? height / 2 : labelHeight * 0.5 + height * 0.07] as const
  const turn = (shot.turnDegrees * Math.PI) / 180
  const place = (u: number, v: number): [number, number] => {
    // The far end is smaller: a plain central projection along the label.
    const scale = 1 / (1 + shot.tilt * (u + 0.5))
    const x = u * labelWidth * scale
    const y = v * labelHeight * scale
    return [centre[0] + x * Math.cos(turn) - y * Math.sin(turn), centre[1] + x * Math.sin(turn) + y * Math.cos(turn)]
  }
  // The label in upright strips, each laid where the projection puts it. Smaller first, so that shrinking averages.
  const shrunk = createCanvas(Math.ceil(labelWidth * 2), Math.ceil(labelHeight * 2))
  const small = shrunk.getContext('2d')
  small.imageSmoothingQuality = 'high'
  small.drawImage(label, 0, 0, shrunk.width, shrunk.height)
  const strips = shot.tilt === 0 ? 1 : 64
  pen.imageSmoothingQuality = 'high'
  for (let i = 0; i < strips; i++) {
    const [u0, u1] = [i / strips - 0.5, (i + 1) / strips - 0.5]
    const [a, b, d] = [place(u0, -0.5), place(u1, -0.5), place(u0, 0.5)]
    const sw = shrunk.width / strips
    pen.setTransform(
      (b[0] - a[0]) / sw,
      (b[1] - a[1]) / sw,
      (d[0] - a[0]) / shrunk.height,
      (d[1] - a[1]) / shrunk.height,
      a[0],
      a[1],
    )
    pen.drawImage(shrunk, i * sw, 0, sw, shrunk.height, 0, 0, sw + 0.6, shrunk.height)
  }
  pen.resetTransform()
  const soft = createCanvas(width, height)
  const lens = soft.getContext('2d')
  lens.filter = `blur(${shot.blurPx}px)`
  lens.drawImage(photo, 0, 0)
  lens.filter = 'none'
  addNoise(lens, width, height, 2 + dice() * 3, dice)
  return {
    bytes: soft.toBuffer('image/jpeg', shot.jpeg),
    corners: [place(-0.5, -0.5), place(0.5, -0.5), place(0.5, 0.5), place(-0.5, 0.5)],
    width,
    height,
  }
}

type Pen = ReturnType<Canvas['getContext']>

function drawCardBelow(pen: Pen, width: number, height: number, dice: () => number): void {
  const [x, y, w, h] = [width * 0.2, height * 0.36, width * 0.6, height * 0.56]
  pen.fillStyle = '#f3ead6'
  pen.fillRect(x, y, w, h)
  pen.fillStyle = `hsl(${dice() * 360} 40% 45%)`
  pen.fillRect(x + w * 0.07, y + h * 0.05, w * 0.86, h * 0.72)
  pen.fillStyle = '#222'
  pen.font = `${h * 0.06}px "label-bookish"`
  pen.textAlign = 'center'
  pen.fillText('PORT ENNISH', x + w / 2, y + h * 0.88)
}

function addNoise(pen: Pen, width: number, height: number, sd: number, dice: () => number): void {
  const image = pen.getImageData(0, 0, width, height)
  for (let i = 0; i < image.data.length; i += 4) {
    const noise = (dice() + dice() + dice() - 1.5) * 2 * sd
    for (let channel = 0; channel < 3; channel++) image.data[i + channel] = image.data[i + channel]! + noise
  }
  pen.putImageData(image, 0, 0)
}
