/**
 * An exemplar beside questioned photos: each photo is laid over the side that it shows, each point judged on the photo that
 * resolves its place best.
 */
import type { CannotTellCause, Exemplar, ExemplarPoint, PointComparison, Side } from '../domain/exemplar.ts'
import { alignPrint } from './align-print.ts'
import { type CannotTell, cannotTell } from './cannot-tell.ts'
import { compareRegion, type ModelMemo, nothingMeasured } from './compare-region.ts'
import type { ExemplarFile } from './exemplar-file.ts'
import { explainDifferences, type PersonsWord } from './explain-differences.ts'
import type { Corners } from './homography.ts'
import { cornersOf, type Picture, type PlacedPicture, place } from './placed-picture.ts'
import { registerPhoto } from './register-photo.ts'

export interface QuestionedPhoto {
  readonly file: string
  /** `null` where the photo could not be looked at. */
  readonly picture: Picture | null
  /** By the person; `null`: found here. */
  readonly corners: Corners | null
  /** Why `picture` is `null`. */
  readonly problem: string | null
  /** A grey card or another neutral surface in the frame, px. Absent: none. */
  readonly greyCard?: Corners | null
}

export interface PhotoRegistration {
  readonly file: string
  readonly registered: boolean
  readonly side: Side | null
  readonly pxPerMm: number | null
  readonly corners: Corners | null
  readonly reason: string | null
  readonly cause: CannotTellCause | null
  /** The print was found block by block, and its blocks disagree by this, mm; `null`: only the outline places it. */
  readonly printResidualMm: number | null
}

export interface Comparison {
  /** At least one photo could be laid over the exemplar. */
  readonly registered: boolean
  /** Of the best photo, at the middle of the card. */
  readonly pxPerMm: number | null
  readonly points: readonly PointComparison[]
  readonly photos: readonly PhotoRegistration[]
}

interface Laid {
  readonly file: string
  readonly side: Side
  readonly placed: PlacedPicture
}

/** An exemplar's pictures found, made square and laid over each other once; then any number of photos is held against it. */
export interface PreparedExemplar {
  readonly exemplar: Exemplar
  /** By side, the best resolved picture first, each of another piece. */
  readonly models: ReadonlyMap<Side, readonly PlacedPicture[]>
  readonly faults: ReadonlyMap<Side, string>
  readonly memo: ModelMemo
}

/** @param pictures the exemplar's pictures, decoded, by file name. */
export function prepareExemplar(exemplar: Exemplar, pictures: ReadonlyMap<string, Picture>): PreparedExemplar {
  const size = exemplar.nominalSize
  const faults = new Map<Side, string>()
  const found = new Map<Side, { placed: PlacedPicture; piece: string }[]>()
  for (const { file, side, corners, piece, greyCard } of exemplar.pictures) {
    const picture = pictures.get(file)
    const outline = picture && cornersOf(picture, corners)
    const placed = picture && outline ? place(picture, outline.corners, size) : null
    if (!placed) {
      faults.set(side, `the piece could not be found in the exemplar’s picture ${file}`)
      continue
    }
    const list = found.get(side) ?? []
    list.push({ placed: { ...placed, greyCard }, piece })
    found.set(side, list)
  }
  const models = new Map<Side, PlacedPicture[]>()
  for (const [side, list] of found) {
    const first = list[0]!.placed
    const all = [first]
    const pieces = new Set([list[0]!.piece])
    for (const { placed, piece } of list.slice(1)) {
      if (pieces.has(piece)) continue
      const aligned = alignPrint(first, placed)
      if (!aligned) continue
      pieces.add(piece)
      all.push({ ...placed, plane: aligned.plane })
    }
    models.set(side, all)
  }
  return { exemplar, models, faults, memo: new Map() }
}

export function comparePhotos(
  { exemplar }: Pick<ExemplarFile, 'exemplar'>,
  pictures: ReadonlyMap<string, Picture>,
  photos: readonly QuestionedPhoto[],
  word: PersonsWord = {},
): Comparison {
  return comparePrepared(prepareExemplar(exemplar, pictures), photos, word)
}

export function comparePrepared(
  prepared: PreparedExemplar,
  photos: readonly QuestionedPhoto[],
  word: PersonsWord = {},
): Comparison {
  const { exemplar } = prepared
  const laid: Laid[] = []
  const registrations = photos.map((photo) => layPhoto(photo, prepared, laid))
  const points = exemplar.points.map((point) => judgePoint(point, prepared, laid, registrations))
  const scales = registrations.flatMap(({ pxPerMm }) => (pxPerMm === null ? [] : [pxPerMm]))
  return {
    registered: laid.length > 0,
    pxPerMm: scales.length > 0 ? Math.max(...scales) : null,
    points: explainDifferences(exemplar, points, word),
    photos: registrations,
  }
}

function layPhoto(photo: QuestionedPhoto, { exemplar, models }: PreparedExemplar, laid: Laid[]): PhotoRegistration {
  const size = exemplar.nominalSize
  const none = {
    file: photo.file,
    registered: false,
    side: null,
    pxPerMm: null,
    corners: null,
    printResidualMm: null,
  }
  if (!photo.picture) return { ...none, reason: photo.problem, cause: null }
  const found = cornersOf(photo.picture, photo.corners)
  if (!found) return { ...none, ...cannotTell('no-card') }
  let nearest: CannotTell & { correlation: number } = { ...cannotTell('exemplar-unusable'), correlation: -1 }
  for (const [side, [model]] of models) {
    if (!model) continue
    const registration = registerPhoto(model, photo.picture, found.corners, photo.corners !== null)
    if (registration.registered) {
      const aligned = alignPrint(model, registration.placed)
      const placed = {
        ...registration.placed,
        plane: aligned?.plane ?? registration.placed.plane,
        greyCard: photo.greyCard ?? null,
      }
      laid.push({ file: photo.file, side, placed })
      const pxPerMm = Number(placed.plane.scaleAt(size.widthMm / 2, size.heightMm / 2).toFixed(2))
      return {
        ...none,
        registered: true,
        side,
        pxPerMm,
        corners: placed.outline,
        reason: null,
        cause: null,
        printResidualMm: aligned && Number(aligned.residualMm.toFixed(4)),
      }
    }
    if (registration.correlation > nearest.correlation) nearest = registration
  }
  return { ...none, corners: found.corners, reason: nearest.reason, cause: nearest.cause }
}

function judgePoint(
  point: ExemplarPoint,
  { models, faults, memo }: PreparedExemplar,
  laid: readonly Laid[],
  registrations: readonly PhotoRegistration[],
): PointComparison {
  const own = models.get(point.side) ?? []
  const scaleOf = ({ placed }: Laid) =>
    placed.plane.scaleAt(point.region.x + point.region.width / 2, point.region.y + point.region.height / 2)
  const candidates = laid.filter(({ side }) => side === point.side).sort((a, b) => scaleOf(b) - scaleOf(a))
  if (own.length === 0 || candidates.length === 0) {
    const single = registrations.length === 1 ? registrations[0] : undefined
    const fault = faults.get(point.side)
    const known = single && !single.registered ? single : cannotTell('side-not-shown')
    return {
      ...nothingMeasured(point),
      verdict: 'cannot-tell',
      reason: (own.length === 0 ? fault : undefined) ?? known.reason ?? `no photo shows the ${point.side}`,
      cause: own.length === 0 && fault !== undefined ? null : known.cause,
    }
  }
  const judged = candidates.map(({ file, placed }) => ({ ...compareRegion(point, own, placed, memo), photo: file }))
  return judged.find(({ verdict }) => verdict !== 'cannot-tell') ?? (judged[0] as PointComparison)
}
