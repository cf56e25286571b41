/**
 * What the pixels and the file of one photo say. Field names are a public contract (`photos --json`).
 * A photo that was not looked at is `examined: false` with the reason, and everything else empty.
 */
import type { HolderKind } from './claim.ts'
import type { ViewId } from './views.ts'

export type Point = readonly [x: number, y: number]

export interface Quadrilateral {
  /** Clockwise from the top left, in pixels of the upright photo. */
  readonly corners: readonly [Point, Point, Point, Point]
  /** 0–1, ours and uncalibrated. */
  readonly confidence: number
}

export interface PhotoLabel {
  readonly lines: readonly string[]
  readonly grader: string | null
  readonly grade: string | null
  readonly certificate: string | null
  readonly confidence: number
  /** Its outline in pixels of the photo, clockwise from its own top left; absent in what was kept before it was. */
  readonly where?: Quadrilateral['corners'] | null
}

/** Further fingerprints, each 64 hex digits: they find a photo that was turned, mirrored, cropped or framed. */
export interface PhotoPrints {
  /** After each turn and mirroring, in the order of `TURNS` without the first. */
  readonly turns: readonly string[]
  /** Of four windows of nine tenths of each side. */
  readonly windows: readonly string[]
  /** Of what lies inside an even border, and where that is in parts of the sides; `null`: no such border. */
  readonly trimmed: {
    readonly hash: string
    readonly left: number
    readonly top: number
    readonly width: number
    readonly height: number
  } | null
}

export interface PhotoCode {
  readonly format: string
  /** As found, never opened. */
  readonly text: string
  /** Where it stands in the upright photo, where that is known. */
  readonly corners?: Quadrilateral['corners']
}

export interface PhotoProblem {
  readonly problem:
    | 'not-fetched'
    | 'not-an-image'
    | 'too-large'
    | 'damaged'
    | 'too-small'
    | 'blurred'
    | 'glare'
    | 'dark'
    | 'overexposed'
    | 'heavily-compressed'
    | 'label-unreadable'
  readonly detail: string
}

export interface PhotoFacts {
  /** File name or URL, as given. */
  readonly file: string
  readonly examined: boolean
  readonly sha256: string | null
  readonly bytes: number | null
  readonly mediaType: string | null
  /** Pixels of the upright photo. */
  readonly width: number | null
  readonly height: number | null
  readonly pdq: string | null
  readonly pdqQuality: number | null
  /** Absent in what was kept before there were any. */
  readonly prints?: PhotoPrints | null
  readonly view: ViewId | 'other' | 'cannot-tell'
  readonly viewEvidence: readonly string[]
  readonly card: Quadrilateral | null
  readonly holder: Quadrilateral | null
  readonly pxPerMm: number | null
  /** Angle between card and sensor, estimated from converging sides; absent in what was kept before it was measured. */
  readonly tiltDegrees?: number | null
  /** Standard deviation of the blur at the sharpest edges, in pixels. */
  readonly blurPx: number | null
  readonly jpegQuality: number | null
  readonly label: PhotoLabel | null
  readonly barcodes: readonly PhotoCode[]
  readonly holderKind: HolderKind | null
  readonly problems: readonly PhotoProblem[]
}

/** A photo of which nothing is known yet. */
export function emptyPhotoFacts(file: string): PhotoFacts {
  return {
    file,
    examined: false,
    sha256: null,
    bytes: null,
    mediaType: null,
    width: null,
    height: null,
    pdq: null,
    pdqQuality: null,
    view: 'cannot-tell',
    viewEvidence: [],
    card: null,
    holder: null,
    pxPerMm: null,
    blurPx: null,
    jpegQuality: null,
    label: null,
    barcodes: [],
    holderKind: null,
    problems: [],
  }
}
