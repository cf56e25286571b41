/**
 * The bytes of one photo in, its PhotoFacts out. A photo that cannot be looked at comes back `examined: false` with the
 * reason, never as an exception: the listing's other photos go on. Only an abort is thrown.
 * Must not say what a photo shows without positive evidence: without it the view stays `cannot-tell`.
 */
import { emptyPhotoFacts, type PhotoFacts, type PhotoProblem } from '../domain/photo-facts.ts'
import { describePhoto } from './fingerprints/describe-photo.ts'
import { estimateJpegQuality } from './jpeg-quality.ts'
import { judgePhoto } from './judge-photo.ts'
import { LEAST_LABEL_WIDTH_PX } from './label/label-limits.ts'
import type { LabelReading, ReadLabel } from './label-reader.ts'
import { measureBlur } from './measure-blur.ts'
import { measureExposure } from './measure-exposure.ts'
import { type Decode, type Pixels, toGrey } from './pixels.ts'
import { measureGlare } from './quality/measure-glare.ts'
import { readSize, type Size } from './read-size.ts'
import { sha256 } from './sha256.ts'
import { sniffMediaType } from './sniff-media-type.ts'
import { findTicks } from './view/find-ticks.ts'
import { look } from './view/look.ts'
import { type PlacedView, placeView } from './view/place-view.ts'
import { tellView } from './view/tell-view.ts'
import { walkJpeg } from './walk-jpeg.ts'

/** Reads the codes on a photo. Injected, since its WebAssembly is loaded differently in a worker and in Node. */
export type ReadBarcodes = (pixels: Pixels) => Promise<PhotoFacts['barcodes']>

export interface ExamineOptions {
  readonly file: string
  readonly decode: Decode
  readonly readBarcodes?: ReadBarcodes
  readonly readLabel?: ReadLabel
  /** Hears of what is known before codes and label are read, which take longest. */
  readonly onEarly?: (facts: PhotoFacts) => void
  readonly signal?: AbortSignal
}

// A camera original at 50 megapixels takes some 25 MB; four bytes a pixel decoded make 200 MB, which a worker bears.
const LARGEST_FILE_BYTES = 64 * 2 ** 20
const LARGEST_PIXELS = 50e6
// Tracking pixels, icons, spacers: nothing of a card can be seen on so few pixels. Ours.
const LEAST_SIDE_PX = 32

export async function examinePhoto(bytes: Uint8Array, options: ExamineOptions): Promise<PhotoFacts> {
  const { file, decode, readBarcodes, readLabel, onEarly, signal } = options
  signal?.throwIfAborted()
  if (bytes.length > LARGEST_FILE_BYTES) {
    const megabytes = Math.round(bytes.length / 2 ** 20)
    return notExamined(
      file,
      { bytes: bytes.length },
      'too-large',
      `the file has ${megabytes} MB; at most 64 are opened`,
    )
  }
  const known: Partial<PhotoFacts> = { bytes: bytes.length, sha256: await sha256(bytes) }
  const sniffed = sniffMediaType(bytes)
  if (sniffed.kind === 'other') return notExamined(file, known, 'not-an-image', sniffed.what)
  const { mediaType } = sniffed
  const stated = readSize(bytes, mediaType)
  if (!stated) return notExamined(file, { ...known, mediaType }, 'damaged', 'the file ends before it says its size')
  const refused = refuseBySize(stated)
  if (refused) return notExamined(file, { ...known, mediaType, ...stated }, refused.problem, refused.detail)

  let pixels: Pixels
  try {
    pixels = await decode(bytes, mediaType)
  } catch {
    signal?.throwIfAborted()
    return notExamined(file, { ...known, mediaType, ...stated }, 'damaged', 'the picture cannot be decoded')
  }
  signal?.throwIfAborted()
  const { width, height } = pixels
  if (width * height !== stated.width * stated.height) {
    return notExamined(
      file,
      { ...known, mediaType, width, height },
      'damaged',
      'the picture is not of the size that the file states',
    )
  }
  const grey = toGrey(pixels)
  const { hash, quality, ...prints } = describePhoto(grey)
  const blurPx = measureBlur(grey)
  const jpegQuality = mediaType === 'image/jpeg' ? qualityOf(bytes) : null
  signal?.throwIfAborted()
  const seen = look(pixels, grey)
  const ticks = once(() => findTicks(grey, seen.layout, seen.picture.scale))
  const placed = placeView(tellView(seen, [], ticks), seen.picture, grey)
  signal?.throwIfAborted()
  const exposure = measureExposure(grey)
  const glare = placed.outline && measureGlare(seen.picture, placed.outline)
  const early: PhotoFacts = {
    ...emptyPhotoFacts(file),
    ...known,
    examined: true,
    mediaType,
    width,
    height,
    pdq: hash,
    pdqQuality: quality,
    prints,
    blurPx: blurPx === null ? null : Math.round(blurPx * 100) / 100,
    jpegQuality,
    ...factsOf(placed),
    problems: judgePhoto({ width, height, blurPx, jpegQuality, exposure, glare }),
  }
  onEarly?.(early)
  const barcodes = readBarcodes ? await readBarcodes(pixels) : []
  signal?.throwIfAborted()
  const withCodes = barcodes.length === 0 ? placed : placeView(tellView(seen, barcodes, ticks), seen.picture, grey)
  const reading = readLabel && mayBearLabel(withCodes) ? await readLabel(pixels, withCodes.label, signal) : null
  const label = labelOf(reading)
  return {
    ...early,
    ...factsOf(tellByLabel(withCodes, reading, width)),
    barcodes,
    label,
    problems: [...early.problems, ...(withCodes.label === null ? [] : labelProblems(reading))],
  }
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

function factsOf({ view, evidence, card, holder, holderKind, pxPerMm, tiltDegrees }: PlacedView) {
  return { view, viewEvidence: evidence, card, holder, holderKind, pxPerMm, tiltDegrees }
}

const WITHOUT_LABEL: readonly PhotoFacts['view'][] = [
  'front',
  'back',
  'corners',
  'edges',
  'macro-print',
  'transmitted-light',
  'holder-edges',
  'holder-corners',
]

/** Reading takes longest: a photo that shows something else for certain is not read. */
function mayBearLabel({ view, holderKind }: PlacedView): boolean {
  return holderKind === 'sealed' || !WITHOUT_LABEL.includes(view)
}

// A label over more than this share of the photo's width is what the photo is of. Ours.
const LABEL_FILLS = 0.62

/** A label that was read says where a photo that was not told by its outlines belongs. */
function tellByLabel(placed: PlacedView, reading: LabelReading | null, width: number): PlacedView {
  if (placed.view !== 'cannot-tell' || reading === null) return placed
  const { certificate, grade, lines, widthPx } = reading
  if (certificate === null || grade === null || lines.length < 2) return placed
  const evidence = [`a label with grade and certificate number was read, ${widthPx} px wide`]
  const view = widthPx > LABEL_FILLS * width ? 'label' : 'holder-front'
  return { ...placed, view, holderKind: 'sealed', evidence }
}

/** A label that was seen and not read beyond doubt is no label to judge by. */
function labelOf(reading: LabelReading | null): PhotoFacts['label'] {
  if (reading === null || reading.lines.length === 0) return null
  const { widthPx: _widthPx, ...label } = reading
  return label
}

function labelProblems(reading: LabelReading | null): PhotoProblem[] {
  if (reading === null || reading.widthPx >= LEAST_LABEL_WIDTH_PX) return []
  const detail = `the label is ${reading.widthPx} px wide; ${LEAST_LABEL_WIDTH_PX} are needed`
  return [{ problem: 'label-unreadable', detail }]
}

function refuseBySize({ width, height }: Size): PhotoProblem | null {
  if (width * height > LARGEST_PIXELS) {
    return { problem: 'too-large', detail: `the picture has ${width} × ${height} px; at most 50 million are opened` }
  }
  if (Math.min(width, height) < LEAST_SIDE_PX) {
    return { problem: 'too-small', detail: `the picture has ${width} × ${height} px` }
  }
  return null
}

function qualityOf(bytes: Uint8Array): number | null {
  const luma = walkJpeg(bytes).quantisation.get(0)
  return luma ? estimateJpegQuality(luma) : null
}

function notExamined(
  file: string,
  known: Partial<PhotoFacts>,
  problem: PhotoProblem['problem'],
  detail: string,
): PhotoFacts {
  return { ...emptyPhotoFacts(file), ...known, problems: [{ problem, detail }] }
}
