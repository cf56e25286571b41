/** Made-up exemplars and examinations for pictures and tests: drawn cards, laid square without a worker. */
import type { ExaminationRecord, ExemplarRecord } from '../../src/domain/examination.ts'
import type { ExemplarPoint, PointComparison } from '../../src/domain/exemplar.ts'
import type { ExemplarPorts } from '../../src/ui/exemplars/exemplar-ports.ts'
import type { SquarePicture } from '../../src/ui/light-table/square-picture.ts'

const META = {
  revision: 1,
  createdAt: '2026-11-20T09:00:00Z',
  updatedAt: '2026-11-24T18:30:00Z',
  deletedAt: null,
}
export const SIZE = { widthMm: 60.3, heightMm: 73 }

const base = { side: 'front', needsPxPerMm: null, tolerance: null } as const
export const points: readonly ExemplarPoint[] = [
  {
    ...base,
    id: 'name-plate',
    name: 'Hairline over the ship’s name',
    why: 'The finest rule of the plate.',
    copiesDo: 'It breaks up, or thickens to twice its width.',
    region: { x: 10, y: 60, width: 40, height: 2 },
    copies: { scan: 'fails', type: 'passes' },
    kind: 'stroke-width',
  },
  {
    ...base,
    id: 'sails',
    name: 'Sails, blue against cream',
    why: 'Printed in one pass of one ink.',
    copiesDo: 'The blue turns green.',
    region: { x: 22, y: 18, width: 9, height: 12 },
    copies: { scan: 'passes' },
    kind: 'tint',
    neutral: [{ x: 24, y: 68.5, width: 10, height: 2 }],
  },
  {
    ...base,
    id: 'left-border',
    name: 'Left border',
    why: '',
    copiesDo: 'Trimmed copies have less of it.',
    region: { x: 3, y: 20, width: 5, height: 30 },
    copies: {},
    kind: 'border-width',
    edge: 'left',
    opposite: null,
  },
  {
    ...base,
    id: 'sky',
    name: 'Sky: solid or dots',
    why: '',
    copiesDo: '',
    region: { x: 36, y: 10, width: 12, height: 8 },
    copies: {},
    kind: 'solid-or-screen',
    finestLpi: 175,
  },
  {
    ...base,
    id: 'pennant',
    name: 'Pennant’s split tail',
    why: '',
    copiesDo: 'The tail is whole.',
    region: { x: 27, y: 9, width: 6, height: 4 },
    copies: {},
    kind: 'judged',
    question: 'Is the pennant’s tail split in two?',
  },
]

export const exemplars: readonly ExemplarRecord[] = [
  {
    ...META,
    id: 'e1',
    exemplar: {
      schemaVersion: 2,
      id: 'e1',
      title: 'Harbour Ships of the Cold Coast 1931, no. 7 Grey Petrel',
      provenance: 'Bought in an album of 48 in Port Ennish in 1994; paper and wear alike throughout.',
      author: 'H. L.',
      licence: 'CC0-1.0',
      nominalSize: SIZE,
      pieces: [
        { id: 'piece-1', name: '1', provenance: '' },
        { id: 'piece-2', name: '2', provenance: '' },
      ],
      copies: [
        { id: 'scan', name: 'Re-screened scan', description: 'Dots in the lettering.' },
        { id: 'type', name: 'Thick type', description: '' },
      ],
      pictures: [
        { file: 'front.png', side: 'front', corners: null, piece: 'piece-1', greyCard: null },
        { file: 'back.png', side: 'back', corners: null, piece: 'piece-1', greyCard: null },
      ],
      points: [...points],
    },
    stored: {
      'front.png': { sha256: 'drawn-exemplar', mediaType: 'image/png' },
      'back.png': { sha256: 'drawn-back', mediaType: 'image/png' },
    },
  },
]

const found = (
  point: string,
  kind: PointComparison['kind'],
  verdict: PointComparison['verdict'],
  figures: Partial<PointComparison>,
): PointComparison => ({
  point,
  kind,
  verdict,
  value: null,
  unit: 'µm',
  uncertainty: null,
  exemplar: null,
  tolerance: 60,
  reason: '',
  cause: null,
  photo: 'photo-1',
  toleranceFrom: 'default',
  pxPerMm: 14.2,
  neededPxPerMm: 12,
  ...figures,
})

const examination: ExaminationRecord = {
  ...META,
  id: 'x1',
  title: exemplars[0]!.exemplar.title,
  exemplar: 'e1',
  dossier: 'd1',
  photos: [{ file: 'photo-1', sha256: 'drawn-questioned', mediaType: 'image/png', corners: null }],
  notes: '',
  lockedAt: null,
  laterNotes: '',
  measured: null,
  judged: {},
  answers: null,
  packages: [],
  verifications: [],
}
const compared: ExaminationRecord = {
  ...examination,
  id: 'x2',
  notes: 'Stock rather white. Lettering looks heavy. Left border narrow, cut clean. Surface not to be seen: sleeve.',
  lockedAt: '2026-11-24T18:12:00Z',
  measured: {
    at: '2026-11-24T18:13:00Z',
    registered: true,
    pxPerMm: 14.2,
    points: [
      found('name-plate', 'stroke-width', 'agrees', { value: 214, exemplar: 190, uncertainty: 22 }),
      found('sails', 'tint', 'differs', {
        value: 11.4,
        exemplar: 0,
        uncertainty: 1.6,
        unit: 'ΔE00',
        tolerance: 6,
        toleranceFrom: 'exemplars',
      }),
      found('left-border', 'border-width', 'differs', {
        value: 1.9,
        exemplar: 3.2,
        uncertainty: 0.12,
        unit: 'mm',
        tolerance: 0.4,
      }),
      found('sky', 'solid-or-screen', 'cannot-tell', {
        unit: 'lpi',
        cause: { code: 'too-coarse', figures: { scale: '14.2', needed: '27.6' }, on: null },
        neededPxPerMm: 27.6,
      }),
      found('pennant', 'judged', 'cannot-tell', {
        unit: 'word',
        cause: { code: 'for-the-person', figures: {}, on: null },
      }),
    ],
    photos: [
      {
        file: 'photo-1',
        registered: true,
        side: 'front',
        pxPerMm: 14.2,
        outline: null,
        reason: null,
        cause: null,
      },
    ],
  },
  judged: { 'left-border': { verdict: 'differs-explained', words: 'miscut, the right border is as much wider' } },
  verifications: [
    {
      package: 'p1',
      by: 'T. Q.',
      lockedAt: '2026-11-24T20:00:00Z',
      answeredAt: '2026-11-24T20:30:00Z',
      notes: 'Whitish stock.',
      points: [
        { point: 'sails', verdict: 'differs', words: 'greener' },
        { point: 'left-border', verdict: 'differs', words: '' },
      ],
    },
  ],
}
export const examinations: readonly ExaminationRecord[] = [
  examination,
  compared,
  { ...compared, id: 'x3', answers: 'p1', dossier: null, verifications: [] },
]

const nothing = async () => {}

const pxPerMm = 14
const marginMm = 3
/** A card of a ship: the questioned one greener, paler, cut narrower. */
function drawCard(questioned: boolean): HTMLCanvasElement {
  const canvas = document.createElement('canvas')
  canvas.width = (SIZE.widthMm + 2 * marginMm) * pxPerMm
  canvas.height = (SIZE.heightMm + 2 * marginMm) * pxPerMm
  const context = canvas.getContext('2d')!
  context.fillStyle = questioned ? '#5c6660' : '#6b675e'
  context.fillRect(0, 0, canvas.width, canvas.height)
  context.scale(pxPerMm, pxPerMm)
  context.translate(marginMm, marginMm)
  context.fillStyle = questioned ? '#f0efe6' : '#e9dfc6'
  context.fillRect(0, 0, SIZE.widthMm, SIZE.heightMm)
  const shift = questioned ? -1.3 : 0
  context.fillStyle = questioned ? '#9db7a8' : '#9cb4bb'
  context.fillRect(3.2 + shift, 3.2, 53.9, 54)
  context.fillStyle = '#f3ead2'
  context.beginPath()
  context.moveTo(31 + shift, 12)
  context.lineTo(46 + shift, 40)
  context.lineTo(31 + shift, 40)
  context.fill()
  context.fillStyle = questioned ? '#4f7d6c' : '#3f6780'
  context.beginPath()
  context.moveTo(30 + shift, 12)
  context.lineTo(16 + shift, 40)
  context.lineTo(30 + shift, 40)
  context.fill()
  context.fillStyle = '#5a3a26'
  context.beginPath()
  context.moveTo(12 + shift, 43)
  context.lineTo(50 + shift, 43)
  context.lineTo(45 + shift, 51)
  context.lineTo(17 + shift, 51)
  context.fill()
  context.fillStyle = '#1b2023'
  context.fillRect(10 + shift, 60.6, 40, questioned ? 0.32 : 0.19)
  context.font = '5px serif'
  context.textAlign = 'center'
  context.fillText('GREY PETREL', 30 + shift, 66.5)
  return canvas
}

export const drawnCard = (questioned: boolean): Promise<Blob> =>
  new Promise((resolve) => drawCard(questioned).toBlob((blob) => resolve(blob!)))

async function drawSquare(questioned: boolean): Promise<SquarePicture> {
  const canvas = drawCard(questioned)
  const levels = [await createImageBitmap(canvas)]
  for (let n = 0; n < 2; n++) {
    const last = levels.at(-1)!
    levels.push(
      await createImageBitmap(last, {
        resizeWidth: last.width / 2,
        resizeHeight: last.height / 2,
        resizeQuality: 'high',
      }),
    )
  }
  return {
    levels,
    pxPerMm,
    marginMm,
    size: SIZE,
    photo: await createImageBitmap(canvas),
    toPhoto: [pxPerMm, 0, marginMm * pxPerMm, 0, pxPerMm, marginMm * pxPerMm, 0, 0, 1],
    corners: [
      [0.045, 0.038],
      [0.955, 0.038],
      [0.955, 0.962],
      [0.045, 0.962],
    ],
    photoPxPerMm: questioned ? 14.2 : 23.6,
  }
}

let asked = 0
export const quietExemplarPorts: ExemplarPorts = {
  listExemplars: async () => exemplars,
  openExemplar: async (id) => exemplars.find((one) => one.id === id) ?? null,
  createExemplar: async (draft) => ({ ...META, ...draft, id: 'e2' }),
  saveExemplar: async (id, draft, revision) => ({ ...META, ...draft, id, revision: revision + 1 }),
  deleteExemplar: nothing,
  restoreExemplar: nothing,
  keepPicture: async ({ type }) => ({ sha256: 'drawn-questioned', mediaType: type }),
  // The photo in question is asked for first.
  laySquare: () => drawSquare(location.search.includes('table') && asked++ % 2 === 0),
  exportExemplar: nothing,
  importExemplars: async () => ({ ids: ['e1'], added: 1, merged: 0 }),
  exportGuide: nothing,
  listExaminations: async () => examinations,
  openExamination: async (id) => examinations.find((one) => one.id === id) ?? null,
  createExamination: async (draft) => ({ ...META, ...draft, id: 'x1' }),
  saveExamination: async (id, draft, revision) => ({ ...META, ...draft, id, revision: revision + 1 }),
  deleteExamination: nothing,
  restoreExamination: nothing,
  measure: async () => compared.measured!,
  keepComparison: nothing,
  exportBlindPackage: async () => 'p1',
  exportBlindAnswer: nothing,
  readBlindFile: async () => ({ kind: 'package', examination: 'x3' }),
}
