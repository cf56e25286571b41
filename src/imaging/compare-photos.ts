/**
 * An exemplar beside questioned photos: each photo is laid over the side that it shows, each point judged on the photo that
 * resolves its place best.
 */
import type { CannotTellCause, ExemplarPoint, PointComparison, Side } from '../domain/exemplar.ts'
import { type CannotTell, cannotTell } from './cannot-tell.ts'
import { compareRegion, KINDS } from './compare-region.ts'
import type { ExemplarFile } from './exemplar-file.ts'
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
}

export interface PhotoRegistration {
  readonly file: string
  readonly registered: boolean
  readonly side: Side | null
  readonly pxPerMm: number | null
  readonly corners: Corners | null
  readonly reason: string | null
  readonly cause: CannotTellCause | null
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

/** @param pictures the exemplar's pictures, decoded, by file name. */
export function comparePhotos(
  { exemplar }: ExemplarFile,
  pictures: ReadonlyMap<string, Picture>,
  photos: readonly QuestionedPhoto[],
): Comparison {
  const size = exemplar.nominalSize
  const models = new Map<Side, PlacedPicture>()
  const faults = new Map<Side, string>()
  for (const { file, side, corners } of exemplar.pictures) {
    const picture = pictures.get(file)
    const found = picture && cornersOf(picture, corners)
    const placed = picture && found ? place(picture, found.corners, size) : null
    if (placed && !models.has(side)) models.set(side, placed)
    else if (!placed) faults.set(side, `the piece could not be found in the exemplar’s picture ${file}`)
  }
  const laid: Laid[] = []
  const registrations = photos.map((photo): PhotoRegistration => {
    const none = { file: photo.file, registered: false, side: null, pxPerMm: null, corners: null }
    if (!photo.picture) return { ...none, reason: photo.problem, cause: null }
    const found = cornersOf(photo.picture, photo.corners)
    if (!found) return { ...none, ...cannotTell('no-card') }
    let nearest: CannotTell & { correlation: number } = { ...cannotTell('exemplar-unusable'), correlation: -1 }
    for (const [side, model] of models) {
      const registration = registerPhoto(model, photo.picture, found.corners, photo.corners !== null)
      if (registration.registered) {
        const { placed } = registration
        laid.push({ file: photo.file, side, placed })
        const pxPerMm = Number(placed.plane.scaleAt(size.widthMm / 2, size.heightMm / 2).toFixed(2))
        return { file: photo.file, registered: true, side, pxPerMm, corners: found.corners, reason: null, cause: null }
      }
      if (registration.correlation > nearest.correlation) nearest = registration
    }
    return { ...none, corners: found.corners, reason: nearest.reason, cause: nearest.cause }
  })
  const points = exemplar.points.map((point) => judgePoint(point, models, faults, laid, registrations))
  const scales = registrations.flatMap(({ pxPerMm }) => (pxPerMm === null ? [] : [pxPerMm]))
  return {
    registered: laid.length > 0,
    pxPerMm: scales.length > 0 ? Math.max(...scales) : null,
    points,
    photos: registrations,
  }
}

function judgePoint(
  point: ExemplarPoint,
  models: ReadonlyMap<Side, PlacedPicture>,
  faults: ReadonlyMap<Side, string>,
  laid: readonly Laid[],
  registrations: readonly PhotoRegistration[],
): PointComparison {
  const model = models.get(point.side)
  const scaleOf = ({ placed }: Laid) =>
    placed.plane.scaleAt(point.region.x + point.region.width / 2, point.region.y + point.region.height / 2)
  const candidates = laid.filter(({ side }) => side === point.side).sort((a, b) => scaleOf(b) - scaleOf(a))
  if (!model || candidates.length === 0) {
    const single = registrations.length === 1 ? registrations[0] : undefined
    const fault = faults.get(point.side)
    return {
      point: point.id,
      kind: point.kind,
      verdict: 'cannot-tell',
      value: null,
      unit: KINDS[point.kind].unit,
      uncertainty: null,
      exemplar: null,
      tolerance: point.tolerance ?? KINDS[point.kind].tolerance,
      reason: fault ?? single?.reason ?? `no photo shows the ${point.side}`,
      cause: fault === undefined ? (single?.cause ?? null) : null,
      photo: null,
    }
  }
  const judged = candidates.map(({ file, placed }) => ({ ...compareRegion(point, model, placed), photo: file }))
  return judged.find(({ verdict }) => verdict !== 'cannot-tell') ?? (judged[0] as PointComparison)
}
