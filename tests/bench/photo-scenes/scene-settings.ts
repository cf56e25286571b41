/** What a family of scenes is made of. Two families exist; only one of them may be looked at while the finder is being changed. */
import type { SceneView } from './scene-truth.ts'

export type FrontDesign =
  | 'bordered'
  | 'full-bleed'
  | 'inner-frame'
  | 'bust'
  | 'landscape'
  | 'oval'
  | 'two-panels'
  | 'stripes'
  | 'engraving'
  | 'banner'
export type BackDesign =
  | 'biography'
  | 'statistics'
  | 'advert'
  | 'blank'
  | 'cartoon'
  | 'columns'
  | 'checklist'
  | 'pattern'
export type TableKind =
  | 'wood'
  | 'plain'
  | 'felt'
  | 'white'
  | 'black'
  | 'checked'
  | 'newsprint'
  | 'marble'
  | 'tiles'
  | 'weave'
  | 'cards'
  | 'desk'

export interface SceneSettings {
  readonly name: 'tuning' | 'validation'
  readonly firstSeed: number
  readonly views: readonly { readonly view: SceneView; readonly share: number }[]
  readonly fronts: readonly FrontDesign[]
  readonly backs: readonly BackDesign[]
  readonly tables: readonly TableKind[]
  readonly clutter: readonly TableKind[]
  /** Family and file below node_modules. */
  readonly fonts: {
    readonly display: readonly (readonly [string, string])[]
    readonly text: readonly (readonly [string, string])[]
    readonly hand: readonly (readonly [string, string])[]
  }
  readonly stocks: readonly string[]
  readonly inks: readonly (readonly string[])[]
  readonly sizes: readonly (readonly [number, number])[]
  readonly slab: {
    readonly width: readonly [number, number]
    readonly height: readonly [number, number]
    readonly label: readonly string[]
    readonly frost: readonly [number, number]
    readonly labelInset: readonly [number, number]
  }
  /** Degrees of tilt, normal and hard. */
  readonly tilt: readonly [normal: number, hard: number]
  readonly blur: readonly [low: number, high: number, hard: number]
  readonly jpeg: readonly [low: number, high: number, hard: number]
  readonly noise: readonly [number, number]
  readonly longSide: readonly number[]
  readonly hardShare: number
}
