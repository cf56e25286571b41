/**
 * The points of the two demo exemplars, in millimetres of the card as its maker drew it, and what each make of copy does there.
 * Data only; the drawing knows nothing of it.
 */
import type { CopyAtPoint, Exemplar, ExemplarPoint, Region } from '../../domain/exemplar.ts'

export const MAKES: Exemplar['copies'] = [
  {
    id: 're-screened',
    name: 'Re-screened scan',
    description: 'Printed from a scan of a genuine card: type and rules are dots too, on whiter stock.',
  },
  {
    id: 'ink-jet',
    name: 'Ink-jet',
    description: 'Sprayed from a scan: irregular drops instead of a screen, soft edges.',
  },
  {
    id: 'thick-type',
    name: 'Grown plate',
    description: 'From a plate that grew in copying: strokes swell, counters close.',
  },
  { id: 'shifted-tint', name: 'Other inks', description: 'Good line work in other inks, on whiter stock.' },
  { id: 'trimmed', name: 'Trimmed', description: 'A genuine card, cut down at the left and at the bottom.' },
]

type Make = 're-screened' | 'ink-jet' | 'thick-type' | 'shifted-tint' | 'trimmed'

const box = (x: number, y: number, width: number, height: number): Region => ({ x, y, width, height })

/** Makes that fail a point; all others pass it. */
function told(id: string, name: string, why: string, copiesDo: string, fails: readonly Make[]) {
  const copies: Record<string, CopyAtPoint> = {}
  for (const { id: make } of MAKES) copies[make] = fails.includes(make as Make) ? 'fails' : 'passes'
  return { id, name, why, copiesDo, side: 'front' as const, needsPxPerMm: null, tolerance: null, copies }
}

const DOTS = ['re-screened', 'ink-jet'] as const
const STOCKS = ['re-screened', 'ink-jet', 'shifted-tint'] as const

const INSECT_PAPER = [box(1, 22, 2, 20), box(60.5, 40, 2, 20)]

export const INSECT_POINTS: readonly ExemplarPoint[] = [
  {
    ...told('stem-edge', 'Edge of the L', 'The name is solid ink from a line block', 'scans make its edge soft', DOTS),
    kind: 'edge-sharpness',
    region: box(12.1, 76.2, 0.9, 2.6),
    reference: box(-1.2, 76, 2.4, 6),
  },
  {
    ...told('stem-width', 'Stem of the L', 'The stem is 0.85 mm', 'a grown plate makes it thicker', ['thick-type']),
    kind: 'stroke-width',
    region: box(12.05, 76.3, 2, 2.4),
  },
  {
    ...told('frame-corner', 'Lower left corner of the frame', 'The rule is mitred', 'copying rounds it', [
      'thick-type',
      ...DOTS,
    ]),
    kind: 'corner-roundness',
    region: box(3.25, 72.45, 1.1, 1.2),
  },
  {
    ...told('counters', 'Counters of “ante”', 'a and e are open', 'ink gain closes them', []),
    kind: 'counters-open',
    region: box(15.45, 76.3, 10.2, 3.6),
  },
  {
    ...told(
      'sky-screen',
      'Screen of the sky',
      'The maker used 133 lines per inch',
      'copies use another screen or none',
      DOTS,
    ),
    kind: 'solid-or-screen',
    region: box(40, 12.5, 11, 8),
    finestLpi: 160,
  },
  {
    ...told('band-tint', 'Green of the band', 'One mixed green', 'other inks come out browner', ['shifted-tint']),
    kind: 'tint',
    region: box(5, 9.35, 50, 1.35),
    neutral: INSECT_PAPER,
  },
  {
    ...told('band-darker', 'Band darker than the sky', 'Always by far', 'faded copies lose it', []),
    kind: 'tint-order',
    region: box(5, 9.35, 50, 1.35),
    other: box(40, 13, 11, 6),
    order: 'darker',
    leastDeltaL: 20,
    neutral: INSECT_PAPER,
  },
  {
    ...told('band-seam', 'Band meets sky', 'Both tones meet without a gap', 'misregister opens it', []),
    kind: 'seam',
    region: box(14, 9.4, 14, 3.2),
    paper: box(1, 22, 2, 10),
  },
  {
    ...told('frame-level', 'Frame’s foot is level', 'One rule, one line', 'pasted copies step', []),
    kind: 'flush',
    region: box(8, 72.75, 8, 0.9),
    other: box(46, 72.75, 8, 0.9),
    axis: 'y',
  },
  {
    ...told(
      'frame-to-name',
      'From the frame to the L',
      'Name and frame share a plate',
      'a reset name stands elsewhere',
      [],
    ),
    kind: 'gap',
    region: box(3.3, 66, 0.75, 6),
    other: box(12.1, 76.2, 0.9, 2.6),
    axis: 'x',
  },
  {
    ...told('latin-dot', 'Dot of the i', 'A dot of a third of a millimetre', 'coarse copies lose it', []),
    kind: 'mark-present',
    region: box(27.35, 80.75, 1.3, 1.2),
  },
  {
    ...told('left-border', 'Left border', '3.8 mm, as cut', 'trimming takes it', ['trimmed']),
    kind: 'border-width',
    edge: 'left',
    region: box(2.8, 22, 2, 42),
    opposite: null,
    tolerance: 0.8,
  },
  {
    ...told('right-border', 'Right border', '3.8 mm, as cut', 'trimming takes it', []),
    kind: 'border-width',
    edge: 'right',
    region: box(58.7, 22, 2, 42),
    opposite: null,
    tolerance: 0.8,
  },
  {
    ...told('centring', 'Centering, left and right', 'Most are near 50/50', 'trimming shifts it', ['trimmed']),
    kind: 'border-width',
    edge: 'left',
    region: box(2.8, 22, 2, 42),
    opposite: box(58.7, 22, 2, 42),
    tolerance: 14,
  },
  {
    ...told('stock-tone', 'Tone of the stock', 'Cream, toned by age', 'copies are on whiter stock', STOCKS),
    kind: 'paper-tone',
    region: box(5, 84.5, 18, 3),
    neutral: [],
  },
  {
    ...told('hawker', 'The hawker’s head', 'Drawn once for the series', 'redrawn copies differ', []),
    kind: 'same-look',
    region: box(28, 24, 13, 18),
  },
  {
    ...told('eyes', 'Light in the eyes', 'Two soft lights', 'copies make hard spots', DOTS),
    kind: 'judged',
    region: box(29.5, 24.5, 10, 7.5),
    question: 'Does the light in the eyes fade softly to all sides?',
  },
]

const SHIP_PAPER = [box(0.5, 20, 1.4, 20), box(58.4, 20, 1.4, 20)]

export const SHIP_POINTS: readonly ExemplarPoint[] = [
  {
    ...told('frame-edge', 'Edge of the frame', 'Solid ink from a line block', 'scans make it soft', DOTS),
    kind: 'edge-sharpness',
    region: box(2.75, 20, 0.72, 8),
    reference: box(-1.2, 20, 2.4, 8),
  },
  {
    ...told('hairline', 'Outer hairline', '0.16 mm, unbroken', 'a grown plate doubles it', ['thick-type']),
    kind: 'stroke-width',
    region: box(1.9, 20, 1.1, 8),
  },
  {
    ...told('name-stem', 'Stem of the L', 'Red, solid', 'a grown plate makes it thicker', ['thick-type']),
    kind: 'stroke-width',
    region: box(20.4, 63.6, 2, 2.3),
  },
  {
    ...told('frame-corner', 'Lower left corner of the frame', 'The rule is mitred', 'copying rounds it', [
      'thick-type',
      ...DOTS,
    ]),
    kind: 'corner-roundness',
    region: box(2.72, 60.3, 1.1, 1.15),
  },
  {
    ...told('counters', 'Counters of “ORD”', 'Three open counters', 'ink gain closes them', []),
    kind: 'counters-open',
    region: box(8.8, 62.8, 11.5, 4.1),
  },
  {
    ...told(
      'sky-screen',
      'Screen of the sky',
      'The maker used 110 lines per inch',
      'copies use another screen or none',
      DOTS,
    ),
    kind: 'solid-or-screen',
    region: box(40, 5, 13, 8),
    finestLpi: 160,
  },
  {
    ...told('sea-tint', 'Green of the sea', 'One mixed green', 'other inks come out greyer', ['shifted-tint']),
    kind: 'tint',
    region: box(13, 53.5, 8, 3.5),
    neutral: SHIP_PAPER,
  },
  {
    ...told('sea-darker', 'Sea darker than the evening', 'Always by far', 'faded copies lose it', []),
    kind: 'tint-order',
    region: box(13, 53.5, 8, 3.5),
    other: box(5, 34, 8, 5),
    order: 'darker',
    leastDeltaL: 20,
    neutral: SHIP_PAPER,
  },
  {
    ...told('horizon', 'The horizon', 'Sea and sky meet without a gap', 'misregister opens it', []),
    kind: 'seam',
    region: box(4.4, 38.4, 8, 3.2),
    paper: box(0.5, 20, 1.4, 10),
    tolerance: 300,
  },
  {
    ...told('frame-level', 'Frame’s foot is level', 'One rule, one line', 'pasted copies step', []),
    kind: 'flush',
    region: box(6, 60.66, 8, 0.7),
    other: box(45, 60.66, 8, 0.7),
    axis: 'y',
  },
  {
    ...told('black-to-red', 'From the frame to the L', 'Black and red are two plates', 'copies join them', []),
    kind: 'gap',
    region: box(2.75, 50, 0.72, 8),
    other: box(20.45, 63.6, 0.9, 2.3),
    axis: 'x',
    tolerance: 0.3,
  },
  {
    ...told('flag', 'Harbour flag', 'A red flag with a white ball', 'redrawn copies lose it', []),
    kind: 'mark-present',
    region: box(50.1, 30.8, 2, 2),
  },
  {
    ...told('left-border', 'Left border', '2.4 mm, as cut', 'trimming takes it', ['trimmed']),
    kind: 'border-width',
    edge: 'left',
    region: box(1.6, 15, 0.88, 40),
    opposite: null,
    tolerance: 0.8,
  },
  {
    ...told('right-border', 'Right border', '2.4 mm, as cut', 'trimming takes it', []),
    kind: 'border-width',
    edge: 'right',
    region: box(57.82, 15, 0.88, 40),
    opposite: null,
    tolerance: 0.8,
  },
  {
    ...told('centring', 'Centering, left and right', 'Most are near 50/50', 'trimming shifts it', ['trimmed']),
    kind: 'border-width',
    edge: 'left',
    region: box(1.6, 15, 0.88, 40),
    opposite: box(57.82, 15, 0.88, 40),
    tolerance: 18,
  },
  {
    ...told('stock-tone', 'Tone of the stock', 'Cream, toned by age', 'copies are on whiter stock', STOCKS),
    kind: 'paper-tone',
    region: box(5, 70.6, 30, 1.6),
    neutral: [],
  },
  {
    ...told('mainmast', 'The mainmast', 'Drawn once for the series', 'redrawn copies differ', []),
    kind: 'same-look',
    region: box(26, 16, 13, 20),
  },
  {
    ...told('rigging', 'Rigging', 'Fine lines run through the sails', 'copies break them', DOTS),
    kind: 'judged',
    region: box(24, 22, 16, 18),
    question: 'Do the fine lines of the rigging run unbroken over the sails?',
  },
]
