/**
 * Which view a photo is. Each answer needs signs of its own, listed with it; where none is complete the answer is `cannot-tell`.
 * That something was not found is never a sign.
 * Long because it is a list: one question a view, each read beside the others that could be mistaken for it.
 */
import { CARD_SIZES } from '../../domain/card-sizes.ts'
import type { HolderKind } from '../../domain/claim.ts'
import type { PhotoCode, PhotoFacts, Point } from '../../domain/photo-facts.ts'
import { colourAt, colourDistance, isThrough } from '../geometry/compare-sides.ts'
import { areaOf, type Four } from '../geometry/find-quads.ts'
import { angleBetween, type SeenLine } from '../geometry/join-lines.ts'
import { contains, isCardShaped, type Outline } from '../geometry/read-layout.ts'
import { type Corners, createPlane } from '../homography.ts'
import type { FullSide } from './find-partial.ts'
import type { TextRow } from './find-text-rows.ts'
import type { Ticks } from './find-ticks.ts'
import type { Look } from './look.ts'
import { type Face, type FaceSigns, readFace } from './read-face.ts'
import { type HolderSigns, readHolder } from './read-holder.ts'

export interface ViewAnswer {
  readonly view: PhotoFacts['view']
  readonly evidence: readonly string[]
  readonly card: Outline | null
  readonly holder: Outline | null
  readonly label: Four | null
  readonly holderKind: HolderKind | null
}

export function tellView(seen: Look, codes: readonly PhotoCode[], ticks: () => Ticks | null): ViewAnswer {
  const { layout } = seen
  const card = chooseCard(seen)
  const holder = card === layout.card ? layout.holder : null
  const signs = readHolder(seen.picture, { ...layout, card, holder }, seen.rows)
  const face = card ? readFace(seen.picture, card.corners, seen.rows) : null
  const base = { card, holder, label: signs.label, holderKind: signs.kind }
  const answer = (view: ViewAnswer['view'], ...evidence: string[]): ViewAnswer => ({ ...base, view, evidence })

  const lit = tellLight(seen, card)
  if (lit?.view === 'black-light') return answer(lit.view, lit.evidence)
  const code = tellCode(seen, codes)
  if (code && !isWhole(card, seen)) return { ...base, card: null, view: 'holder-code', evidence: [code] }
  // Bars and squares are regular too: where a code was read, regularity says nothing about the print.
  const print = codes.length === 0 ? tellPrint(seen) : null
  if (print) return { ...base, card: null, holder: null, view: 'macro-print', evidence: [print] }
  if (card && isWhole(card, seen) && face) return tellWhole(seen, card, face, signs, lit, ticks, holder, answer)
  const label = tellLabel(seen)
  if (label)
    return {
      ...base,
      card: null,
      holder: null,
      label: label.corners,
      holderKind: null,
      view: 'label',
      evidence: label.evidence,
    }
  return { ...base, card: null, holder: null, label: null, holderKind: null, ...tellCloseUp(seen) }
}

/** The card among several objects: the one that is neither a slip of paper nor a label. */
function chooseCard(seen: Look): Outline | null {
  const shaped = seen.layout.objects.filter((object) => isCardShaped(object.aspect))
  return shaped.find((object) => !isSlip(seen, object)) ?? shaped[0] ?? null
}

// An outline that is hardly seen, or beyond which no table lies, carries no view. Ours.
const SOUND = { merit: 0.6, onTable: 0.85, seeThrough: 0.32 }
function isWhole(card: Outline | null, { picture }: Look): card is Outline {
  if (!card) return false
  const { merit, sides, area } = card
  return (
    merit >= SOUND.merit &&
    sides.onTable >= SOUND.onTable &&
    sides.seeThrough <= SOUND.seeThrough &&
    area >= 0.025 * picture.width * picture.height
  )
}

/** Paper with a line or three of tall writing. */
function isSlip({ picture, rows }: Look, object: Outline): boolean {
  const face = readFace(picture, object.corners, rows)
  if (face.commonest < 0.72 || face.colours > 14 || face.rows > 5) return false
  const [a, b, c] = object.corners as unknown as [Point, Point, Point]
  const short = Math.min(Math.hypot(b[0] - a[0], b[1] - a[1]), Math.hypot(c[0] - b[0], c[1] - b[1]))
  const inside = rows.filter((row) => contains(object.corners, middleOf(row)))
  const tall = inside.filter((row) => row.height > 0.085 * short)
  return tall.length > 0 && tall.length >= inside.length / 2 && inside.reduce((sum, row) => sum + row.glyphs, 0) <= 40
}

const middleOf = (row: TextRow): Point => [(row.left + row.right) / 2, (row.top + row.bottom) / 2]

function tellLight({ light }: Look, card: Outline | null) {
  if (light.violetShare > 0.93 && light.warmShare < 0.01 && light.medianLuma < 130) {
    return {
      view: 'black-light' as const,
      evidence: `${Math.round(100 * light.violetShare)} % of it is violet, nothing neutral or warm`,
    }
  }
  const { behind } = light
  if (card && behind && behind.warm > 0.85 && behind.around > 238 && behind.bright < 0.7 * behind.around) {
    return {
      view: 'transmitted-light' as const,
      evidence: 'the card is warm and darker all over than the light around it',
    }
  }
  if (light.fall > 1.5 && light.fallOnCard !== null && light.fallOnCard > 1.2 && light.fallExplains > 0.2) {
    const times = Math.exp(light.fall).toFixed(0)
    return {
      view: 'raking-light' as const,
      evidence: `light falls off ${times} times over the photo, on the card and beside it alike`,
    }
  }
  return null
}

function tellPrint({ screen, corner, strip, sides }: Look): string | null {
  // Cut sides in the photo: it shows more than print, and dots seen there may be the table's.
  if (corner !== null || strip !== null || sides.length > 2) return null
  if (screen === null || screen.windows < 3 || screen.cellPx === null || screen.cellPx < 4) return null
  return `dots of a screen in ${screen.windows} of ${screen.of} places, ${screen.cellPx.toFixed(1)} px apart`
}

// A code that fills this much of the photo's width is what the photo is of. Ours.
const CODE_WIDTH = 0.36
function tellCode({ picture }: Look, codes: readonly PhotoCode[]): string | null {
  for (const { corners, format } of codes) {
    if (!corners) continue
    const xs = corners.map((p) => p[0])
    const ys = corners.map((p) => p[1])
    const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)]
    const share = Math.max(w / (picture.width * picture.scale), h / (picture.height * picture.scale))
    if (share >= CODE_WIDTH) return `a ${format} code takes ${Math.round(100 * share)} % of the photo`
  }
  return null
}

// Lettering of a back is many small rows; a front has a name and a number. Counts of letters by form, seen on drawn scenes.
const BACK = { glyphs: 50, rows: 6, commonest: 0.6 }
const SHORT_BACK = { glyphs: 25, rows: 4, commonest: 0.8, colours: 15 }
const FRONT = { glyphs: 48, rows: 6, colours: 11, commonest: 0.7, roughness: 15 }
const BLANK = { colours: 5, commonest: 0.86, roughness: 2.2 }

function tellFace(face: FaceSigns, card: Outline, inHolder: boolean): { face: Face; evidence: string } {
  if (face.glyphs >= BACK.glyphs && face.rows >= BACK.rows && face.commonest >= BACK.commonest)
    return { face: 'back', evidence: `${face.rows} rows of lettering on even paper` }
  if (
    face.glyphs >= SHORT_BACK.glyphs &&
    face.rows >= SHORT_BACK.rows &&
    face.commonest >= SHORT_BACK.commonest &&
    face.colours <= SHORT_BACK.colours
  )
    return { face: 'back', evidence: `${face.rows} rows of lettering on even paper` }
  if (
    face.roughness <= FRONT.roughness &&
    face.glyphs <= FRONT.glyphs &&
    face.rows <= FRONT.rows &&
    face.colours >= FRONT.colours &&
    face.commonest <= FRONT.commonest
  )
    return {
      face: 'front',
      evidence: `a picture of ${face.colours} colours with ${face.glyphs === 0 ? 'no row' : 'few rows'} of lettering`,
    }
  if (
    !inHolder &&
    face.glyphs === 0 &&
    face.colours <= BLANK.colours &&
    face.commonest >= BLANK.commonest &&
    face.roughness <= BLANK.roughness &&
    card.merit > 0.85
  )
    return { face: 'back', evidence: 'even stock, nothing printed' }
  return { face: null, evidence: '' }
}

function tellWhole(
  seen: Look,
  card: Outline,
  face: FaceSigns,
  signs: HolderSigns,
  lit: ReturnType<typeof tellLight>,
  ticks: () => Ticks | null,
  answerHolder: Outline | null,
  answer: (view: ViewAnswer['view'], ...evidence: string[]) => ViewAnswer,
): ViewAnswer {
  if (lit) return answer(lit.view, lit.evidence)
  const told = tellFace(face, card, answerHolder !== null && signs.kind === null)
  const { objects } = seen.layout
  if (objects.filter((object) => isCardShaped(object.aspect) && object.area > 0.5 * card.area).length > 3)
    return answer('cannot-tell', 'several cards or things like cards')
  const beside = objects.filter((object) => object !== card && object.area > 0.12 * card.area)
  const others = beside.filter((object) => !isPartOfHolder(object, signs, answerHolder))
  const note = beside.find((object) => object.aspect >= 0.5 && isSlip(seen, object))
  if (note) return answer('dated-note', 'a slip of paper with writing lies beside the card')
  if (signs.kind === 'sealed') {
    const { labelRows, labelGlyphs, labelOutlined } = signs
    const described = labelRows >= 2 && labelRows <= MOST_LABEL_ROWS && labelGlyphs >= 12
    if (described && told.face !== 'back')
      return answer('holder-front', ...signs.evidence, `${labelRows} rows of lettering on the label`)
    if (told.face === 'back' && labelGlyphs <= 25) return answer('holder-back', ...signs.evidence, told.evidence)
    if (labelOutlined && labelGlyphs <= PLAIN_LABEL && face.commonest >= PAPER)
      return answer('holder-back', ...signs.evidence, 'a label without description over even paper')
    return answer('cannot-tell', ...signs.evidence)
  }
  const ruler = ticks()
  const fits = ruler !== null && fitsScale(ruler.spacingPx, card, seen)
  if (ruler && fits && ruler.regularity >= SURE_TICKS)
    return answer(
      'with-ruler',
      `${ruler.count} regular marks ${ruler.spacingPx} px apart along an edge beside the card`,
    )
  if (fits) return answer('cannot-tell', 'marks along an edge beside the card, not regular enough for a ruler')
  const empty = findEmptyHolder(seen, card)
  if (empty && told.face && clutter(seen) < 60)
    return answer('out-of-holder', 'a card beside a clear outline with a label and no card')
  // Something else beside the card may be what the photo is about.
  if (others.length > 0 || liesSomethingLong(seen, card, answerHolder)) return answer('cannot-tell')
  // Lettering just beyond the card, or a holder with one large end, may be a label: no raw card then.
  if (hasLetteringBeyond(seen, card) || (answerHolder && isLopsided(answerHolder, card))) return answer('cannot-tell')
  if (told.face) return answer(told.face, 'the whole outline of a card on a table', told.evidence)
  return answer('cannot-tell')
}

// Marks of a millimetre are followed by marks of a millimetre: likeness one and two spacings on. Ours.
const SURE_TICKS = 0.48
// Letters by form that a maker's sign on the back of a label may have.
const PLAIN_LABEL = 6
// A label has three to six lines; more is a newspaper below the holder.
const MOST_LABEL_ROWS = 9
const PAPER = 0.74

const clutter = ({ rows }: Look) => rows.length

function isPartOfHolder(object: Outline, signs: HolderSigns, holder: Outline | null): boolean {
  const centre = centreOf(object.corners)
  return (
    (holder !== null && contains(holder.corners, centre, 2)) ||
    (signs.label !== null && contains(signs.label, centre, 4))
  )
}

/** Rulers are marked in millimetres or sixteenths of an inch; tilt and unknown size of the card leave a seventh. */
function fitsScale(spacingPx: number, card: Outline, { picture }: Look): boolean {
  return CARD_SIZES.some(({ widthMm, heightMm }) => {
    if (Math.abs(widthMm / heightMm / card.aspect - 1) > 0.14) return false
    const pxPerMm = picture.scale * Math.sqrt(card.area / (widthMm * heightMm))
    return [1, 25.4 / 16].some((mm) => Math.abs(spacingPx / pxPerMm / mm - 1) < 0.14)
  })
}

function hasLetteringBeyond({ rows, picture }: Look, card: Outline): boolean {
  const plane = createPlane(card.corners as Corners, { widthMm: 1, heightMm: 1 })
  if (!plane) return false
  let [glyphs, elsewhere] = [0, 0]
  for (const row of rows) {
    const [u, v] = plane.toMillimetres(...middleOf(row))
    const [end, across] =
      card.aspect < 1 && isUpright(card.corners) ? [Math.max(-v, v - 1), u] : [Math.max(-u, u - 1), v]
    if (end > 0.02 && end < 0.45 && across > 0 && across < 1) glyphs += row.glyphs
    // Writing anywhere else on the table, of a size that can be read: a note, a ruler, a newspaper.
    else if (Math.max(-u, u - 1, -v, v - 1) > 0.03 && row.height > 0.014 * Math.max(picture.width, picture.height))
      elsewhere += row.glyphs
  }
  return glyphs >= 12 || elsewhere >= 10
}

/** Two long parallel sides beside the card with something opaque between them: a ruler, a pen, a box. */
function liesSomethingLong({ layout, picture }: Look, card: Outline, holder: Outline | null): boolean {
  const around = (holder ?? card).corners
  const long = Math.sqrt(card.area / Math.max(0.4, card.aspect))
  const lines = layout.lines.filter((line) => line.support > 0.85 * long)
  return lines.some((a, i) =>
    lines.slice(i + 1).some((b) => {
      if (angleBetween(a.angle, b.angle) > 0.07) return false
      const apart = Math.abs(a.uy * (b.x - a.x) - a.ux * (b.y - a.y))
      if (apart < 0.12 * long || apart > 0.6 * long) return false
      const middle: Point = [(a.x + b.x) / 2, (a.y + b.y) / 2]
      if (contains(around, middle, 6) || contains(around, [a.x, a.y], -3) || contains(around, [b.x, b.y], -3))
        return false
      const colour = colourAt(picture, ...middle)
      return (
        colour !== null && colourDistance(colour, card.sides.outside) > 26 && !isThrough(colour, card.sides.outside)
      )
    }),
  )
}

function isUpright(corners: Four): boolean {
  const [a, b, c] = corners as unknown as [Point, Point, Point]
  return Math.hypot(c[0] - b[0], c[1] - b[1]) >= Math.hypot(b[0] - a[0], b[1] - a[1])
}

function isLopsided(holder: Outline, card: Outline): boolean {
  const plane = createPlane(holder.corners as Corners, { widthMm: 1, heightMm: 1 })
  if (!plane) return true
  const places = card.corners.map((p) => plane.toMillimetres(p[0], p[1]))
  const [us, vs] = [places.map((p) => p[0]), places.map((p) => p[1])]
  const ends = [Math.min(...us) - (1 - Math.max(...us)), Math.min(...vs) - (1 - Math.max(...vs))]
  return ends.some((difference) => Math.abs(difference) > 0.1)
}

/** A clear outline larger than the card, beside it, with lettering in it. */
function findEmptyHolder({ layout, rows }: Look, card: Outline): Outline | null {
  for (const outline of layout.outlines) {
    if (outline.merit < 0.6 || outline.area < 1.1 * card.area || outline.area > 4 * card.area) continue
    if (outline.sides.seeThrough < 0.36 || outline.sides.onTable < 0.5 || !isCardShaped(outline.aspect)) continue
    if (contains(outline.corners, centreOf(card.corners), 0) || contains(card.corners, centreOf(outline.corners), 0))
      continue
    if (card.corners.some((p) => contains(outline.corners, p, -3))) continue
    const lettered = rows.filter((row) => contains(outline.corners, middleOf(row), 0))
    if (lettered.length >= 2 || lettered.reduce((sum, row) => sum + row.glyphs, 0) >= 12) return outline
  }
  return null
}

const centreOf = (corners: Four): Point =>
  [0, 1].map((c) => corners.reduce((sum, p) => sum + (p[c] as number), 0) / 4) as never

// Small print of a label is about 1.5 mm high: a fiftieth of a photo that the label fills.
const LABEL_LETTER = 0.012

/** A strip of paper with rows of large lettering across most of the photo. */
function tellLabel({ layout, rows, picture }: Look): { corners: Four; evidence: string[] } | null {
  const { width, height } = picture
  const large = rows.filter((row) => row.height > LABEL_LETTER * Math.max(width, height))
  if (large.length < 3 || large.length > 16) return null
  const glyphs = large.reduce((sum, row) => sum + row.glyphs, 0)
  if (glyphs < 18 || glyphs > 140 || glyphs < 0.7 * rows.reduce((sum, row) => sum + row.glyphs, 0)) return null
  const holding = layout.outlines
    .filter(
      (outline) =>
        outline.aspect < 0.5 &&
        outline.aspect > 0.16 &&
        outline.merit > 0.55 &&
        outline.area > 0.12 * width * height &&
        large.filter((row) => contains(outline.corners, middleOf(row), 3)).length >= Math.max(2, 0.7 * large.length),
    )
    .sort((a, b) => b.area - a.area)[0]
  const corners = holding?.corners ?? bandAround(large, layout.lines, width, height)
  if (!corners) return null
  return {
    corners,
    evidence: [
      `a strip of paper over ${Math.round((100 * areaOf(corners)) / (width * height))} % of the photo`,
      `${large.length} rows of large lettering on it`,
    ],
  }
}

/** The long sides of a label whose short ends lie outside the photo. */
function bandAround(rows: readonly TextRow[], lines: readonly SeenLine[], width: number, height: number): Four | null {
  const [top, bottom] = [Math.min(...rows.map((row) => row.top)), Math.max(...rows.map((row) => row.bottom))]
  const flat = lines.filter((line) => angleBetween(line.angle, 0) < 0.2 && line.support > 0.6 * width)
  const at = ({ x, y, ux, uy }: SeenLine, where: number) => y + ((where - x) * uy) / ux
  const above = flat
    .filter((line) => at(line, width / 2) < top + 3)
    .sort((a, b) => at(b, width / 2) - at(a, width / 2))[0]
  const below = flat
    .filter((line) => at(line, width / 2) > bottom - 3)
    .sort((a, b) => at(a, width / 2) - at(b, width / 2))[0]
  if (!above || !below) return null
  const thick = at(below, width / 2) - at(above, width / 2)
  if (thick > 0.75 * height || thick > 0.5 * width || thick < 0.12 * width) return null
  return [
    [0, at(above, 0)],
    [width, at(above, width)],
    [width, at(below, width)],
    [0, at(below, 0)],
  ]
}

// A side has one tone along its length; bars and lettering have not. Standard deviation, levels. Ours.
const EVEN_STRIP = 26
// Lettering of 1.5 mm takes more than a fortieth of a photo that shows less than 60 mm.
const CLOSE_LETTER = 0.022

/** One cut side across the photo: what lies on one side of it is printed, what lies on the other is not. */
function tellSide(sides: readonly FullSide[], rows: readonly TextRow[], long: number): string[] | null {
  for (const side of sides) {
    const { line } = side
    const contrast = colourDistance(side.left, side.right)
    if (contrast < 22 || side.seeThrough > 0.25) continue
    const offset = (x: number, y: number) => -line.uy * (x - line.x) + line.ux * (y - line.y)
    // All lettering that is seen lies on one side.
    const lettered = rows.map((row) => ({ glyphs: row.glyphs, at: offset(...middleOf(row)) }))
    const [before, after] = [-1, 1].map((sign) =>
      lettered.filter((row) => sign * row.at > 4).reduce((sum, row) => sum + row.glyphs, 0),
    ) as [number, number]
    const heights = rows.map((row) => row.height).sort((a, b) => a - b)
    const close = (heights[heights.length >> 1] ?? 0) > CLOSE_LETTER * long
    if (close && Math.max(before, after) >= 18 && Math.min(before, after) === 0)
      return ['one cut side crosses the photo', 'lettering on one side of it and none on the other']
  }
  return null
}

function tellCloseUp({ corner, strip, picture, sides, rows, layout }: Look): {
  view: ViewAnswer['view']
  evidence: readonly string[]
} {
  const cannot = { view: 'cannot-tell' as const, evidence: [] }
  const { width, height } = picture
  if (
    layout.objects.length === 0 &&
    layout.card === null &&
    rows.length < 3 &&
    strip?.runsOut &&
    strip.unevenness < EVEN_STRIP &&
    strip.lengthPx > 5.5 * strip.thicknessPx &&
    strip.contrast >= 14 &&
    strip.thicknessPx < 0.16 * Math.max(width, height) &&
    sides.length >= 2
  ) {
    const ratio = `${Math.round(strip.lengthPx / strip.thicknessPx)} times as long as thick`
    if (strip.layers >= 5)
      return { view: 'holder-edges', evidence: [`a strip of ${strip.layers - 1} layers, ${ratio}`] }
    if (strip.layers <= 3 && strip.thicknessPx < 0.09 * Math.max(width, height))
      return { view: 'edges', evidence: [`a single strip, ${ratio}, table beyond both sides`] }
    return cannot
  }
  const side =
    layout.objects.length === 0 && layout.card === null && sides.length <= 4 && !corner
      ? tellSide(sides, rows, Math.max(width, height))
      : null
  if (side) return { view: 'edges', evidence: side }
  const central = corner && Math.abs(corner.at[0] / width - 0.5) < 0.31 && Math.abs(corner.at[1] / height - 0.5) < 0.31
  if (corner && central && corner.seen > 0.7) {
    const glyphs = rows.reduce((sum, row) => sum + row.glyphs, 0)
    if (
      corner.seeThrough < (corner.contrast > 30 ? 0.36 : 0.25) &&
      corner.contrast > 15 &&
      corner.nested <= 5 &&
      rows.length < 12
    )
      return {
        view: 'corners',
        evidence: ['two cut sides meet in the photo and run out of it', 'the table lies beyond both'],
      }
    if (corner.seeThrough > 0.55 && corner.nested >= 2 && glyphs < 12)
      return {
        view: 'holder-corners',
        evidence: [
          'two clear sides meet in the photo and run out of it',
          `${corner.nested} further corners lie within`,
        ],
      }
    return cannot
  }
  return cannot
}
