/**
 * Invented grading labels for the experiment on reading them: eight layouts, many colours, foil, codes, with the truth beside.
 * Shares no code, font or constant with the reader. Tuning and validation draw from different fonts, layouts and seeds.
 */
import { createRequire } from 'node:module'
import { type Canvas, createCanvas, GlobalFonts, type SKRSContext2D } from '@napi-rs/canvas'
import bwipjs from 'bwip-js/node'

export type Dice = () => number

/** xorshift32 (Marsaglia 2003). */
export function createDice(seed: number): Dice {
  let state = (Math.imul(seed + 1, 0x9e3779b1) ^ 0x5bd1e995) >>> 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    state >>>= 0
    return state / 4_294_967_296
  }
}

export interface LabelTruth {
  readonly certificate: string
  readonly grade: string
  readonly grader: string
  readonly year: string
  readonly lines: readonly string[]
}

export interface DrawnLabel {
  readonly canvas: Canvas
  readonly truth: LabelTruth
  readonly style: string
}

export type Half = 'tuning' | 'validation'

const { resolve } = createRequire(import.meta.url)
const FONT_FILES: Record<string, string> = {
  plain: '@fontsource/barlow/files/barlow-latin-600-normal.woff2',
  geometric: '@fontsource/jost/files/jost-latin-500-normal.woff2',
  bookish: '@fontsource/old-standard-tt/files/old-standard-tt-latin-700-normal.woff2',
  slim: '@fontsource/barlow-condensed/files/barlow-condensed-latin-600-normal.woff2',
  grotesque: '@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2',
  serif: '@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-normal.woff2',
  typed: '@fontsource/special-elite/files/special-elite-latin-400-normal.woff2',
}
for (const [name, file] of Object.entries(FONT_FILES)) GlobalFonts.registerFromPath(resolve(file), `label-${name}`)

const FONTS: Record<Half, readonly string[]> = {
  tuning: ['plain', 'geometric', 'bookish'],
  validation: ['slim', 'grotesque', 'serif', 'typed'],
}
const LAYOUTS: Record<Half, readonly string[]> = {
  tuning: ['two-columns', 'centred', 'number-on-top', 'grade-box'],
  validation: ['number-below', 'code-right', 'one-column', 'banner'],
}

const SURNAMES = ['MARRABLE', 'QUILLFEATHER', 'BRACKWATER', 'LUNN', 'OXT', 'STRAKE', 'THAXLEY', 'FENNIMORE', 'WHARRAM']
const FIRST = ['ODO', 'TAMSIN', 'IVO', 'HESPER', 'BARNABY', 'WILHELMINA', 'CORVIN', 'ANSELM', 'PERPETUA']
const SETS = ['SKERRYBALL STARS', 'TIDAL LEAGUE', 'HARBOUR SHIPS', 'INSECTS OF THE FEN', 'NORTHERN TIDES GUM']
const MAKERS = ['PELLWICK', 'AURUNDA', 'DROSSELHUBER', 'MORROW & DEEKS']
const COMPANIES = ['KVX', 'OLQ', 'ZWY', 'TRN', 'HBD']
const GRADES: readonly (readonly [string, string])[] = [
  ['10', 'GEM MT'],
  ['9', 'MINT'],
  ['8.5', 'NM-MT+'],
  ['8', 'NM-MT'],
  ['7', 'NM'],
  ['6', 'EX-MT'],
  ['5', 'EX'],
  ['4', 'VG-EX'],
  ['3', 'VG'],
  ['2', 'GOOD'],
  ['1', 'PR'],
]

const choose = <Item>(dice: Dice, items: readonly Item[]): Item => items[Math.floor(dice() * items.length)]!
const digits = (dice: Dice, n: number) =>
  Array.from({ length: n }, (_, i) => Math.floor(dice() * (i === 0 ? 9 : 10)) + (i === 0 ? 1 : 0)).join('')

interface Look {
  readonly ground: string
  readonly ink: string
  readonly foil: boolean
}

function chooseLook(dice: Dice): Look {
  const hue = Math.floor(dice() * 360)
  const kind = dice()
  if (kind < 0.45)
    return { ground: `hsl(${hue} ${20 + dice() * 40}% ${88 + dice() * 10}%)`, ink: `hsl(${hue} 40% 12%)`, foil: false }
  if (kind < 0.6) return { ground: `hsl(${hue} 30% 94%)`, ink: `hsl(${(hue + 180) % 360} 65% 30%)`, foil: false }
  if (kind < 0.8) return { ground: `hsl(${hue} 55% ${14 + dice() * 14}%)`, ink: `hsl(${hue} 30% 94%)`, foil: false }
  return { ground: `hsl(${hue} 15% 78%)`, ink: `hsl(${hue} 30% 14%)`, foil: true }
}

/** 70 × 21 mm or thereabouts, drawn at 1600 px across. */
export function drawLabel(seed: number, half: Half): DrawnLabel {
  const dice = createDice(seed * 7919 + (half === 'validation' ? 1_000_003 : 0))
  const width = 1600
  const height = Math.round(width / (2.7 + dice() * 1.3))
  const canvas = createCanvas(width, height)
  const pen = canvas.getContext('2d')
  const look = chooseLook(dice)
  const layout = choose(dice, LAYOUTS[half])
  const font = `label-${choose(dice, FONTS[half])}`
  const [grade, words] = choose(dice, GRADES)
  const company = choose(dice, COMPANIES)
  const number = digits(dice, 7 + Math.floor(dice() * 4))
  const suffix = dice() < 0.1 ? `-${digits(dice, 3)}` : ''
  const certificate = number + suffix
  const year = String(1909 + Math.floor(dice() * 70))
  const shown = dice() < 0.25 ? `${year}-${String((Number(year) + 1) % 100).padStart(2, '0')}` : year
  const cardNumber = String(1 + Math.floor(dice() * 260))
  const name = `${choose(dice, FIRST)} ${choose(dice, SURNAMES)}`
  const first = `${shown} ${choose(dice, MAKERS)}`
  const second = choose(dice, SETS)
  const prefix = choose(dice, ['', '', 'CERT # ', 'Cert. No. ', 'NO. ', 'CERTIFICATION '])
  const numberLine = prefix + certificate

  pen.fillStyle = look.ground
  pen.fillRect(0, 0, width, height)
  if (look.foil) drawFoil(pen, width, height, dice)
  if (dice() < 0.5) {
    pen.strokeStyle = look.ink
    pen.lineWidth = 6 + dice() * 16
    pen.strokeRect(14, 14, width - 28, height - 28)
  }
  pen.fillStyle = look.ink
  pen.textBaseline = 'alphabetic'
  const lines: string[] = []
  const write = (
    text: string,
    x: number,
    y: number,
    size: number,
    align: 'left' | 'right' | 'center' = 'left',
    most = width * 0.6,
  ) => {
    pen.textAlign = align
    let px = size * height
    pen.font = `${px}px "${font}"`
    const wide = pen.measureText(text).width
    if (wide > most) px *= most / wide
    pen.font = `${px}px "${font}"`
    pen.fillText(text, x * width, y * height)
    lines.push(text)
  }
  const column = (x: number, align: 'left' | 'right' | 'center', most: number) => {
    write(first, x, 0.27, 0.16, align, most * width)
    write(second, x, 0.47, 0.16, align, most * width)
    write(name, x, 0.67, 0.17, align, most * width)
  }

  switch (layout) {
    case 'two-columns':
      column(0.05, 'left', 0.55)
      write(`#${cardNumber}`, 0.05, 0.87, 0.15)
      write(words, 0.95, 0.27, 0.17, 'right', width * 0.3)
      write(grade, 0.95, 0.62, 0.34, 'right')
      write(numberLine, 0.95, 0.87, 0.15, 'right', width * 0.36)
      break
    case 'centred':
      write(company, 0.06, 0.35, 0.26, 'left', width * 0.16)
      column(0.5, 'center', 0.5)
      write(numberLine, 0.5, 0.9, 0.15, 'center', width * 0.5)
      write(`${words} ${grade}`, 0.96, 0.35, 0.2, 'right', width * 0.2)
      break
    case 'number-on-top':
      write(numberLine, 0.05, 0.22, 0.14, 'left', width * 0.5)
      write(`${first} #${cardNumber}`, 0.05, 0.45, 0.16, 'left', width * 0.66)
      write(second, 0.05, 0.66, 0.16, 'left', width * 0.6)
      write(name, 0.05, 0.88, 0.17, 'left', width * 0.6)
      write(grade, 0.9, 0.6, 0.42, 'center')
      write(words, 0.9, 0.86, 0.14, 'center', width * 0.18)
      break
    case 'grade-box':
      pen.fillRect(width * 0.78, height * 0.12, width * 0.17, height * 0.6)
      column(0.05, 'left', 0.66)
      write(`${company} ${words}`, 0.05, 0.88, 0.15, 'left', width * 0.4)
      pen.fillStyle = look.ground
      write(grade, 0.865, 0.58, 0.42, 'center', width * 0.15)
      pen.fillStyle = look.ink
      write(numberLine, 0.95, 0.9, 0.13, 'right', width * 0.4)
      break
    case 'number-below':
      write(company, 0.95, 0.24, 0.19, 'right')
      column(0.05, 'left', 0.6)
      write(`${words} ${grade}`, 0.95, 0.58, 0.24, 'right', width * 0.3)
      write(numberLine, 0.05, 0.9, 0.16, 'left', width * 0.5)
      break
    case 'code-right':
      drawCode(pen, certificate, width * 0.82, height * 0.16, height * 0.6)
      column(0.04, 'left', 0.52)
      write(`${words}`, 0.78, 0.3, 0.16, 'right', width * 0.18)
      write(grade, 0.76, 0.64, 0.34, 'right')
      write(numberLine, 0.78, 0.9, 0.15, 'right', width * 0.5)
      break
    case 'one-column':
      write(`${first} ${second}`, 0.04, 0.24, 0.15, 'left', width * 0.9)
      write(`${name} ${cardNumber}`, 0.04, 0.45, 0.16, 'left', width * 0.8)
      write(`${company} ${words} ${grade}`, 0.04, 0.68, 0.18, 'left', width * 0.7)
      write(numberLine, 0.04, 0.9, 0.16, 'left', width * 0.6)
      break
    default:
      pen.fillRect(0, 0, width, height * 0.26)
      pen.fillStyle = look.ground
      write(company, 0.05, 0.21, 0.19)
      write(numberLine, 0.95, 0.2, 0.15, 'right', width * 0.5)
      pen.fillStyle = look.ink
      write(first, 0.05, 0.48, 0.15, 'left', width * 0.6)
      write(second, 0.05, 0.68, 0.15, 'left', width * 0.6)
      write(name, 0.05, 0.9, 0.16, 'left', width * 0.6)
      write(words, 0.95, 0.5, 0.16, 'right', width * 0.3)
      write(grade, 0.95, 0.88, 0.32, 'right')
  }
  const tone = look.foil ? 'foil' : Number(/ ([\d.]+)%\)$/.exec(look.ground)?.[1]) < 50 ? 'inverted' : 'plain'
  return { canvas, truth: { certificate, grade, grader: company, year: shown, lines }, style: `${layout}, ${tone}` }
}

function drawFoil(pen: SKRSContext2D, width: number, height: number, dice: Dice): void {
  const shine = pen.createLinearGradient(0, 0, width, height)
  for (let stop = 0; stop <= 8; stop++) shine.addColorStop(stop / 8, `hsl(${dice() * 360} 25% ${62 + dice() * 30}%)`)
  pen.fillStyle = shine
  pen.fillRect(0, 0, width, height)
  pen.globalAlpha = 0.25
  for (let i = 0; i < 60; i++) {
    pen.fillStyle = `hsl(${dice() * 360} 30% ${50 + dice() * 45}%)`
    pen.fillRect(dice() * width, 0, 4 + dice() * 16, height)
  }
  pen.globalAlpha = 1
}

function drawCode(pen: SKRSContext2D, text: string, x: number, y: number, side: number): void {
  const { pixs, pixx } = (bwipjs as unknown as { raw(o: object): { pixs: number[]; pixx: number }[] }).raw({
    bcid: 'qrcode',
    text,
  })[0]!
  const module = side / (pixx + 4)
  const before = pen.fillStyle
  pen.fillStyle = '#fff'
  pen.fillRect(x, y, side, side)
  pen.fillStyle = '#000'
  pixs.forEach((dark, i) => {
    if (dark)
      pen.fillRect(x + ((i % pixx) + 2) * module, y + (Math.floor(i / pixx) + 2) * module, module + 0.5, module + 0.5)
  })
  pen.fillStyle = before
}
