/** What is true of a drawn photo: computed from its layout, without drawing it. Benches and tests hold readings against it. */
import type { HolderKind } from '../../domain/claim.ts'
import { type Point, project, type Quad } from './camera.ts'
import { STOCK } from './card-stock.ts'
import { layOutScene } from './scene.ts'
import type { DrawnView, Shot } from './shot.ts'

export interface PhotoTruth {
  readonly view: DrawnView
  readonly width: number
  readonly height: number
  /** Clockwise from the top left, in pixels; `null` where the picture does not hold the whole outline. */
  readonly card: Quad | null
  readonly holder: Quad | null
  readonly holderKind: HolderKind | null
  /** At the middle of the photo, for close-ups and collages too. */
  readonly pxPerMm: number
  /** Size of the cut card in mm. */
  readonly cardSize: readonly [width: number, height: number]
  /** What a label in view says; `null` where none is in view. A covered number is not in view. */
  readonly label: {
    readonly lines: readonly string[]
    readonly grader: string
    readonly grade: string
    readonly certificate: string | null
  } | null
  /** Content of codes in view. */
  readonly codes: readonly { readonly format: 'Code128' | 'QRCode'; readonly text: string }[]
  readonly blurPx: number
  readonly jpegQuality: number
  /** Cells a mm of the screen that the tones were printed with. */
  readonly screenPerMm: number
  /** Whether type and rules are dots too. */
  readonly reScreened: boolean
}

const LABEL_VIEWS: readonly DrawnView[] = ['holder-front', 'label', 'holder-code']

export function truthOf(shot: Shot): PhotoTruth {
  const scene = layOutScene(shot)
  const inPhoto = (quad: Quad | null): Quad | null => {
    if (!quad) return null
    const corners = quad.map((point) => project(scene.toPhoto, point)) as unknown as Quad
    return corners.every((point) => isInside(point, scene.photo)) ? corners : null
  }
  const label = shot.holder?.label ?? null
  const shown = label && LABEL_VIEWS.includes(shot.view) ? label : null
  const number = label && !label.covered ? label.certificate : null
  const codes: PhotoTruth['codes'] =
    number && shown
      ? [{ format: 'Code128', text: number }]
      : number && shot.view === 'holder-back'
        ? [{ format: 'QRCode', text: number }]
        : []
  return {
    view: shot.view,
    width: scene.photo.width,
    height: scene.photo.height,
    card: inPhoto(scene.card),
    holder: inPhoto(scene.holder),
    holderKind: shot.holder?.kind ?? null,
    pxPerMm: scene.pxPerMm,
    cardSize: STOCK[shot.card.design].size,
    label: shown && { lines: shown.lines, grader: shown.grader, grade: shown.grade, certificate: number },
    codes,
    blurPx: shot.blurPx,
    jpegQuality: shot.jpegQuality,
    screenPerMm: shot.card.printing === 're-screened' ? 150 / 25.4 : STOCK[shot.card.design].cellsPerMm,
    reScreened: shot.card.printing === 're-screened',
  }
}

function isInside([x, y]: Point, photo: { readonly width: number; readonly height: number }): boolean {
  return x >= 0 && y >= 0 && x <= photo.width && y <= photo.height
}
