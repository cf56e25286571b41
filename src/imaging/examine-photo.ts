/**
 * The bytes of one photo in, its PhotoFacts out. A photo that cannot be looked at comes back `examined: false` with the
 * reason, never as an exception: the listing's other photos go on. Only an abort is thrown.
 * Must not say what a photo shows without positive evidence: the view stays `cannot-tell`.
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
import { readSize, type Size } from './read-size.ts'
import { sha256 } from './sha256.ts'
import { sniffMediaType } from './sniff-media-type.ts'
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
    problems: judgePhoto({ width, height, blurPx, jpegQuality, exposure: measureExposure(grey) }),
  }
  onEarly?.(early)
  const barcodes = readBarcodes ? await readBarcodes(pixels) : []
  signal?.throwIfAborted()
  const reading = readLabel ? await readLabel(pixels, null, signal) : null
  return { ...early, barcodes, label: labelOf(reading), problems: [...early.problems, ...labelProblems(reading)] }
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
