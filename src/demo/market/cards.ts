/**
 * The cards that turn up in the market, as drawn, and the labels of the sealed ones. One entry a physical card:
 * two listings of the same issue are two cards and differ in wear, centring and specks.
 */
import type { LabelSpec } from '../drawing/shot.ts'
import { card } from './photo-set.ts'

export const MARRABLE = ['skerryball-stars', '17', 'Odo Marrable'] as const
export const NORDLYS = ['harbour-ships', '12', 'Nordlys Maiden'] as const
export const HAWKER = ['fen-insects', '23', 'Lantern Hawker'] as const
export const QUILLFEATHER = ['tidal-league', '41', 'Tamsin Quillfeather'] as const

export const CARDS = {
  marrableDubious: card(...MARRABLE, { seed: 4101, wear: 0.5, printing: 're-screened', shift: [0.9, -0.5] }),
  marrableKvx5: card(...MARRABLE, { seed: 4102, wear: 0.42, shift: [-0.5, 0.3] }),
  marrableKvx4: card(...MARRABLE, { seed: 4103, wear: 0.62, shift: [0.7, 0.4] }),
  marrableKvx6: card(...MARRABLE, { seed: 4104, wear: 0.22, shift: [0.3, -0.2] }),
  marrableAttic: card(...MARRABLE, { seed: 4105, wear: 0.66, shift: [-0.8, 0.6] }),
  marrableAttributed: card(...MARRABLE, { seed: 4106, wear: 0.55, printing: 're-screened', shift: [0.2, 0.9] }),
  marrableClassified: card(...MARRABLE, { seed: 4107, wear: 0.75, printing: 're-screened', shift: [1, 0] }),
  marrableHammered: card(...MARRABLE, { seed: 4108, wear: 0.3, shift: [0.2, 0.2] }),
  brackwaterStars: card('skerryball-stars', '26', 'Ivo Brackwater', { seed: 4110, wear: 0.5, shift: [0.4, 0.3] }),
  oxtStars: card('skerryball-stars', '33', 'Barnaby Oxt', { seed: 4111, wear: 0.45, shift: [-0.3, 0.4] }),
  nordlysOlq7: card(...NORDLYS, { seed: 4201, wear: 0.15, shift: [0.2, 0.1] }),
  nordlysOlq8: card(...NORDLYS, { seed: 4202, wear: 0.08, shift: [-0.1, 0.1] }),
  nordlysScrewed: card(...NORDLYS, { seed: 4203, wear: 0.4, shift: [0.5, -0.4] }),
  soderholm: card('harbour-ships', '29', 'Anna Soderholm', { seed: 4204, wear: 0.03, printing: 're-screened' }),
  greyPetrel: card('harbour-ships', '1', 'Grey Petrel', { seed: 4205, wear: 0.48, shift: [0.3, 0.5] }),
  corrigane: card('harbour-ships', '40', 'Lady Corrigane', { seed: 4206, wear: 0.06 }),
  hawkerShop: card(...HAWKER, { seed: 4301, wear: 0.25, shift: [0.2, -0.1] }),
  hawkerAd: card(...HAWKER, { seed: 4302, wear: 0.4, shift: [-0.4, 0.3] }),
  mireBeetle: card('fen-insects', '51', 'Mire Beetle', { seed: 4303, wear: 0.3, shift: [0.1, 0.4] }),
  reedMoth: card('fen-insects', '7', 'Reed Lappet', { seed: 4304, wear: 0.3, shift: [0.3, 0.2] }),
  quillfeatherRaw: card(...QUILLFEATHER, { seed: 4401, wear: 0.38, shift: [0.6, 0.2] }),
  quillfeatherKvx9: card(...QUILLFEATHER, { seed: 4402, wear: 0.04, shift: [0.1, 0] }),
  oxtLeague: card('tidal-league', '30', 'Barnaby Oxt', { seed: 4403, wear: 0.05 }),
  brackwaterLeague: card('tidal-league', '8', 'Ivo Brackwater', { seed: 4404, wear: 0.08, shift: [0.1, 0.2] }),
  strakeLeague: card('tidal-league', '63', 'Wilhelmina Strake', { seed: 4405, wear: 0.42, shift: [-0.5, 0.4] }),
  strakeAsse: card('skerryball-asse', '12', 'Wilhelmina Strake', { seed: 4501, wear: 0.3, shift: [0.2, 0.3] }),
  lunnAsse: card('skerryball-asse', '3', 'Hesper Lunn', { seed: 4502, wear: 0.02, printing: 're-screened' }),
  brackwaterAsse: card('skerryball-asse', '20', 'Ivo Brackwater', { seed: 4503, wear: 0.45, shift: [0.6, -0.3] }),
  oxtAsse: card('skerryball-asse', '7', 'Barnaby Oxt', { seed: 4504, wear: 0.4, shift: [-0.3, 0.3] }),
  thaxleyPrime: card('tidal-prime', 'RP-CT', 'Corvin Thaxley', { seed: 4601, wear: 0, serial: '17/99' }),
} as const

type Label = Omit<LabelSpec, 'covered'>

function starsLabel(grade: string, gradeWords: string, certificate: string): Label {
  return {
    grader: 'KVX',
    lines: ['1931-32 PELLWICK & SONS', 'SKERRYBALL STARS', '#17 ODO MARRABLE'],
    grade,
    gradeWords,
    certificate,
  }
}

export const LABELS = {
  marrableKvx5: starsLabel('5', 'EX', '20417738'),
  marrableKvx4: starsLabel('4', 'VG-EX', '20388162'),
  marrableKvx6: starsLabel('6', 'EX-MT', '20411905'),
  marrableHammered: starsLabel('5.5', 'EX+', '20370246'),
  nordlysOlq7: {
    grader: 'OLQ',
    lines: ['1931 PELLWICK & SONS', 'HARBOUR SHIPS', '#12 NORDLYS MAIDEN'],
    grade: '7',
    gradeWords: 'NM',
    certificate: '3160448207',
  },
  nordlysOlq8: {
    grader: 'OLQ',
    lines: ['1931 PELLWICK & SONS', 'HARBOUR SHIPS', '#12 NORDLYS MAIDEN'],
    grade: '8',
    gradeWords: 'NM-MT',
    certificate: '3160512994',
  },
  corrigane: {
    grader: 'ZWY',
    lines: ['1931 PELLWICK HARBOUR SHIPS', 'LADY CORRIGANE #40'],
    grade: '9',
    gradeWords: 'MINT',
    certificate: '771204',
  },
  oxtLeague: {
    grader: 'ZWY',
    lines: ['1958 AURUNDA TIDAL LEAGUE', 'BARNABY OXT #30'],
    grade: '9.5',
    gradeWords: 'GEM MINT',
    certificate: '771933',
  },
  brackwaterLeague: {
    grader: 'KVX',
    lines: ['1958 AURUNDA', 'TIDAL LEAGUE', '#8 IVO BRACKWATER'],
    grade: '8',
    gradeWords: 'NM-MT',
    certificate: '20402271',
  },
  quillfeatherKvx9: {
    grader: 'KVX',
    lines: ['1958 AURUNDA', 'TIDAL LEAGUE', '#41 T. QUILLFEATHER'],
    grade: '9',
    gradeWords: 'MINT',
    certificate: '20433018',
  },
} as const satisfies Record<string, Label>
