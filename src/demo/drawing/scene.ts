/**
 * Lays out what one photo shows on the plane of the table, in mm: which objects, where, and what the camera sees of it.
 * No pixels here: the truth of a photo is computed from this alone.
 */
import { type Homography, homographyOf, type Point, type Quad, turnedBox } from './camera.ts'
import type { Face } from './card-sprite.ts'
import { STOCK } from './card-stock.ts'
import { type HolderLayout, layOutHolder } from './holders.ts'
import { between, createRandom } from './random.ts'
import type { Shot } from './shot.ts'

export interface PlacedObject {
  readonly middle: Point
  readonly angle: number
  /** Outer size: of the holder where there is one. */
  readonly width: number
  readonly height: number
  readonly face: Face
  readonly holder: HolderLayout | null
}

export interface Scene {
  /** What the flat drawing covers, in mm from its top left. */
  readonly field: { readonly width: number; readonly height: number }
  readonly photo: { readonly width: number; readonly height: number }
  readonly toPhoto: Homography
  readonly toField: Homography
  /** `null` on pictures put together from several close-ups. */
  readonly object: PlacedObject | null
  /** Pixels of the photo a mm of the table, at its middle. */
  readonly pxPerMm: number
  readonly card: Quad | null
  readonly holder: Quad | null
}

/** Whole things; the others are close-ups or collages. */
const WHOLE = new Set(['front', 'back', 'raking-light', 'with-ruler', 'dated-note', 'holder-front', 'holder-back'])
const COLLAGES = new Set(['corners', 'edges', 'holder-corners', 'holder-edges'])

/** Room in mm around the object: left, top, right, bottom, as parts of its width. */
function roomOf(shot: Shot, random: () => number): readonly [number, number, number, number] {
  const loose = shot.background === 'scanner' ? 0.1 : 0.15 + 0.1 * Math.min(2, shot.tilt)
  const even = loose + between(random, 0, 0.06)
  if (shot.view === 'with-ruler') return [even, even, even + 0.42, even]
  if (shot.view === 'dated-note') return [even, even, even + 0.95, even]
  return [even, even, even, even]
}

export function layOutScene(shot: Shot): Scene {
  const random = createRandom(shot.seed * 17 + 3)
  if (COLLAGES.has(shot.view)) return flatScene(shot, COLLAGE_FIELDS[shot.view as keyof typeof COLLAGE_FIELDS])
  const [cardWidth, cardHeight] = STOCK[shot.card.design].size
  const holder = shot.holder ? layOutHolder(shot.holder, cardWidth, cardHeight) : null
  const width = holder?.width ?? cardWidth
  const height = holder?.height ?? cardHeight
  const angle = between(random, -1, 1) * 0.028 * Math.max(0.25, shot.tilt)
  const face: Face = shot.view === 'back' || shot.view === 'holder-back' ? 'back' : 'front'
  const frame = WHOLE.has(shot.view)
    ? wholeFrame(shot, random, width, height)
    : closeFrame(shot, width, height, cardWidth, cardHeight, holder)
  const object: PlacedObject = { middle: frame.middle, angle, width, height, face, holder }
  return seen(shot, random, frame.field, object, cardWidth, cardHeight)
}

interface Frame {
  readonly field: { readonly width: number; readonly height: number }
  readonly middle: Point
}

function wholeFrame(shot: Shot, random: () => number, width: number, height: number): Frame {
  const room = roomOf(shot, random).map((part) => part * width) as [number, number, number, number]
  const wide = room[0] + width + room[2]
  const high = room[1] + height + room[3]
  // Phones take 3:4 pictures; the shorter way is filled up with table.
  const aspect = wide > high ? 4 / 3 : shot.background === 'scanner' ? wide / high : 3 / 4
  const field = wide / high > aspect ? { width: wide, height: wide / aspect } : { width: high * aspect, height: high }
  const left = room[0] + (field.width - wide) / 2
  const top = room[1] + (field.height - high) / 2
  return { field, middle: [left + width / 2, top + height / 2] }
}

function closeFrame(
  shot: Shot,
  width: number,
  height: number,
  cardWidth: number,
  cardHeight: number,
  holder: HolderLayout | null,
): Frame {
  // Where the close-up's middle lies on the object, from the object's top left.
  const label = holder?.label
  const target: { x: number; y: number; field: number } =
    shot.view === 'label' && label
      ? { x: label.x + label.width / 2, y: label.y + label.height / 2 + 6, field: 80 }
      : shot.view === 'holder-code' && label
        ? { x: label.x + 21, y: label.y + 16, field: 44 }
        : {
            x: (holder?.cardX ?? 0) + cardWidth * 0.42,
            y: (holder?.cardY ?? 0) + cardHeight - (shot.card.design === 'fen-insects' ? 12 : 11),
            field: 25,
          }
  const field = { width: target.field, height: target.field * 0.75 }
  return { field, middle: [field.width / 2 - (target.x - width / 2), field.height / 2 - (target.y - height / 2)] }
}

/** Fields of the collages in mm. */
export const COLLAGE_FIELDS = {
  corners: { width: 33, height: 33 },
  edges: { width: 104, height: 62 },
  'holder-corners': { width: 61, height: 61 },
  'holder-edges': { width: 164, height: 84 },
} as const

function photoSize(shot: Shot, field: Frame['field']): { width: number; height: number } {
  const scale = shot.longSide / Math.max(field.width, field.height)
  return { width: Math.round(field.width * scale), height: Math.round(field.height * scale) }
}

function boxOf(width: number, height: number): Quad {
  return [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]
}

function flatScene(shot: Shot, field: Frame['field']): Scene {
  const photo = photoSize(shot, field)
  const box = boxOf(field.width, field.height)
  const frame = boxOf(photo.width, photo.height)
  return {
    field,
    photo,
    toPhoto: homographyOf(box, frame),
    toField: homographyOf(frame, box),
    object: null,
    pxPerMm: photo.width / field.width,
    card: null,
    holder: null,
  }
}

function seen(
  shot: Shot,
  random: () => number,
  field: Frame['field'],
  object: PlacedObject,
  cardWidth: number,
  cardHeight: number,
): Scene {
  const photo = photoSize(shot, field)
  // A tilted camera sees a trapezium of the table. It stays inside the field, so that nothing beyond it is needed.
  const reach = Math.min(field.width, field.height) * 0.022 * shot.tilt
  const inward = () => between(random, 0, reach)
  const trapezium: Quad = [
    [inward(), inward()],
    [field.width - inward(), inward()],
    [field.width - inward(), field.height - inward()],
    [inward(), field.height - inward()],
  ]
  const frame = boxOf(photo.width, photo.height)
  const offset: Point = object.holder
    ? [object.holder.cardX + cardWidth / 2 - object.width / 2, object.holder.cardY + cardHeight / 2 - object.height / 2]
    : [0, 0]
  const cos = Math.cos(object.angle)
  const sin = Math.sin(object.angle)
  const cardMiddle: Point = [
    object.middle[0] + offset[0] * cos - offset[1] * sin,
    object.middle[1] + offset[0] * sin + offset[1] * cos,
  ]
  return {
    field,
    photo,
    toPhoto: homographyOf(trapezium, frame),
    toField: homographyOf(frame, trapezium),
    object,
    pxPerMm: photo.width / field.width,
    card: turnedBox(cardMiddle, cardWidth, cardHeight, object.angle),
    holder: object.holder ? turnedBox(object.middle, object.width, object.height, object.angle) : null,
  }
}
