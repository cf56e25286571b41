/** Scenes that are counted, never looked at while anything is being changed: other designs, faces, tables, holders, ranges. */
import type { SceneSettings } from './scene-settings.ts'
import { TUNING } from './settings-tuning.ts'

export const VALIDATION: SceneSettings = {
  name: 'validation',
  firstSeed: 700_000,
  // The mixture of views is the same, so that totals can be compared.
  views: TUNING.views,
  fronts: ['oval', 'two-panels', 'stripes', 'engraving', 'banner'],
  backs: ['cartoon', 'columns', 'checklist', 'pattern'],
  tables: ['marble', 'tiles', 'weave', 'plain', 'desk'],
  clutter: ['cards', 'newsprint'],
  fonts: {
    display: [
      ['Jost', '@fontsource/jost/files/jost-latin-600-normal.woff2'],
      ['Limelight', '@fontsource/limelight/files/limelight-latin-400-normal.woff2'],
    ],
    text: [
      ['Condensed', '@fontsource/barlow-condensed/files/barlow-condensed-latin-500-normal.woff2'],
      ['Garamond', '@fontsource/cormorant-garamond/files/cormorant-garamond-latin-600-normal.woff2'],
      ['Typewriter', '@fontsource/special-elite/files/special-elite-latin-400-normal.woff2'],
    ],
    hand: [['Hand B', '@fontsource/caveat/files/caveat-latin-700-normal.woff2']],
  },
  stocks: ['#efe6cf', '#f6f1e6', '#dfd3b6', '#c9b78f', '#ffffff'],
  inks: [
    ['#31243f', '#a8503a', '#cfb06a', '#587f86'],
    ['#14213d', '#9a1f2b', '#f2c14e', '#2f6f4f'],
    ['#3b2a20', '#7a5c3a', '#b9925a', '#8a3b2c'],
  ],
  sizes: [
    [63.5, 88.9],
    [63.5, 88.9],
    [66.7, 95.3],
    [52.4, 79.4],
    [36.5, 66.7],
  ],
  slab: {
    width: [77, 86],
    height: [127, 140],
    label: ['#ffffff', '#d8c7a0', '#a9bfb0', '#2d3a4f'],
    frost: [0.03, 0.28],
    labelInset: [3, 10],
  },
  tilt: [12, 35],
  blur: [0.3, 1.3, 2.6],
  jpeg: [60, 95, 40],
  noise: [0.5, 6],
  longSide: [960, 1280, 1600, 2000],
  hardShare: 0.4,
}
