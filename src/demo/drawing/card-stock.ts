/** Sizes, paper and screens of the invented issues. Sizes are usual ones of the trade (common practice). */
import type { CardDesign } from './shot.ts'

export interface CardStock {
  /** Width and height of the cut card in mm. */
  readonly size: readonly [width: number, height: number]
  /** Paper of the front and board of the back, as the eye sees them. */
  readonly paper: readonly [number, number, number]
  readonly board: readonly [number, number, number]
  /** Halftone cells a mm: 110 lines per inch is 4.33. */
  readonly cellsPerMm: number
  /** How full the inks were run; 1 is thin, by eye. */
  readonly inkStrength: number
  readonly maker: string
  readonly series: string
  readonly year: string
  /** How many cards the series has. */
  readonly count: number
}

const LPI = 1 / 25.4

export const STOCK: Readonly<Record<CardDesign, CardStock>> = {
  'harbour-ships': {
    size: [60.3, 73],
    paper: [240, 229, 203],
    board: [206, 188, 154],
    cellsPerMm: 110 * LPI,
    inkStrength: 1.14,
    maker: 'PELLWICK & SONS, GUM MAKERS, SALTMERE',
    series: 'HARBOUR SHIPS OF THE COLD COAST',
    year: '1931',
    count: 48,
  },
  'skerryball-stars': {
    size: [60.3, 73],
    paper: [239, 227, 200],
    board: [204, 186, 152],
    cellsPerMm: 110 * LPI,
    inkStrength: 1.12,
    maker: 'PELLWICK & SONS, GUM MAKERS, SALTMERE',
    series: 'SKERRYBALL STARS',
    year: '1931-32',
    count: 60,
  },
  'tidal-league': {
    size: [63.5, 88.9],
    paper: [242, 236, 219],
    board: [190, 178, 156],
    cellsPerMm: 133 * LPI,
    inkStrength: 1.16,
    maker: 'AURUNDA CONFECTIONERY COMPANY',
    series: 'TIDAL LEAGUE',
    year: '1958',
    count: 132,
  },
  'fen-insects': {
    size: [63.5, 88.9],
    paper: [243, 238, 222],
    board: [214, 203, 176],
    cellsPerMm: 133 * LPI,
    inkStrength: 1.14,
    maker: 'AURUNDA CONFECTIONERY COMPANY',
    series: 'INSECTS OF THE FEN',
    year: '1958',
    count: 60,
  },
  'skerryball-asse': {
    size: [66.7, 95.3],
    paper: [238, 230, 208],
    board: [200, 186, 160],
    cellsPerMm: 120 * LPI,
    inkStrength: 1.18,
    maker: 'DROSSELHUBER KAUGUMMI, WATTENAU',
    series: 'SKERRYBALL-ASSE',
    year: '1954',
    count: 52,
  },
  'tidal-prime': {
    size: [63.5, 88.9],
    paper: [247, 247, 246],
    board: [244, 244, 244],
    cellsPerMm: 175 * LPI,
    inkStrength: 1.42,
    maker: 'VENNLING PRESS',
    series: 'TIDAL PRIME',
    year: '2021',
    count: 100,
  },
}
