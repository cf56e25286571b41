/** What is true of a drawn scene. */
export type SceneView =
  | 'front'
  | 'back'
  | 'corners'
  | 'edges'
  | 'raking-light'
  | 'macro-print'
  | 'black-light'
  | 'transmitted-light'
  | 'with-ruler'
  | 'dated-note'
  | 'out-of-holder'
  | 'holder-front'
  | 'holder-back'
  | 'label'
  | 'holder-edges'
  | 'holder-corners'
  | 'holder-code'
  | 'other'

export type Xy = readonly [number, number]
export type Four = readonly [Xy, Xy, Xy, Xy]
export type SceneHolder = 'sealed' | 'screw-down' | 'one-touch' | 'toploader' | 'sleeve'

export interface SceneTruth {
  readonly seed: number
  readonly family: string
  readonly view: SceneView
  readonly difficulty: 'normal' | 'hard'
  readonly faults: readonly string[]
  readonly design: string
  readonly table: string
  readonly width: number
  readonly height: number
  /** Outlines in photo pixels, clockwise from the object's own top left; `null` where the photo does not hold them whole. */
  readonly card: Four | null
  readonly holder: Four | null
  readonly label: Four | null
  readonly holderKind: SceneHolder | null
  readonly cardMm: readonly [number, number]
  readonly pxPerMm: number
  readonly tiltDegrees: number
  readonly blurPx: number
  readonly jpegQuality: number
  readonly certificate: string | null
}
