/** The streaks of the panel, drawn small for the page: whole, broken, outline. Built node by node, since a page may forbid markup. */
import type { Stance } from '../domain/inspection.ts'

const SVG = 'http://www.w3.org/2000/svg'

const WHOLE = 'M1 8 5 4 18 2.600 41 1.600 70 2.200 97 1.200 113 4 119 7.600 112 12 94 14 66 13.200 38 14.400 15 13.200Z'
const BROKEN = [
  'M1 8 5 4 17 2.600 31 2 29 8 33 14 15 13.200Z',
  'M47 2 70 2.200 80 1.600 77 7.400 82 13.600 66 13.200 44 14 48 8Z',
  'M97 1.400 113 4 119 7.600 112 12 95 13.800 99 7.400Z',
]

function draw(
  document: Document,
  viewBox: string,
  paths: readonly { d: string; kind: 'filled' | 'outlined' }[],
): SVGElement {
  const svg = document.createElementNS(SVG, 'svg') as SVGElement
  svg.setAttribute('viewBox', viewBox)
  svg.setAttribute('aria-hidden', 'true')
  for (const { d, kind } of paths) {
    const path = document.createElementNS(SVG, 'path')
    path.setAttribute('d', d)
    path.setAttribute('class', kind)
    svg.append(path)
  }
  return svg
}

export function drawStance(document: Document, stance: Stance): SVGElement {
  const paths = stance === 'ask' ? BROKEN : [WHOLE]
  return draw(
    document,
    '0 0 120 16',
    paths.map((d) => ({ d, kind: stance === 'nothing-open' ? 'outlined' : 'filled' })),
  )
}

const DOTS = {
  concerns: { d: 'M1 9 5 1H9L5 9Z', kind: 'filled' },
  kept: { d: 'M2.500 1H7.500V9.500L5 7.400 2.500 9.500Z', kind: 'filled' },
  'not-a-single-card': { d: 'M1.500 3.500H6.500V9H1.500ZM3.500 3.500V1H8.500V6.500H6.500', kind: 'outlined' },
  clear: { d: 'M1 8 5 2H9L5 8Z', kind: 'outlined' },
} as const

export function drawRowShape(document: Document, kind: keyof typeof DOTS): SVGElement {
  const svg = draw(document, '0 0 10 10', [DOTS[kind]])
  svg.setAttribute('class', 'dot')
  return svg
}
