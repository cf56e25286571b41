/** The streaks of the panel, drawn small for the page: whole, broken, outline. Built node by node, since a page may forbid markup. */
import type { Stance } from '../domain/inspection.ts'

const SVG = 'http://www.w3.org/2000/svg'

const WHOLE = 'M1 6.6 2.6 3 12 1.8 24 2.2 31 3.6 29 7.4 18 8.5 6 8.100Z'
const BROKEN = [
  'M1 6.6 2.6 3 8.4 2 7.6 8.2 5 8Z',
  'M12.2 1.8 19.8 2 19 8.5 11.4 8.300Z',
  'M23.8 2.2 31 3.6 29 7.4 23 8.100Z',
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
    '0 0 32 10',
    paths.map((d) => ({ d, kind: stance === 'nothing-open' ? 'outlined' : 'filled' })),
  )
}

const DOTS = {
  concerns: { d: 'M1 9 5 1H9L5 9Z', kind: 'filled' },
  wanted: { d: 'M5 1 9 5 5 9 1 5Z', kind: 'filled' },
  kept: { d: 'M2.5 1H7.5V9.5L5 7.4 2.5 9.5Z', kind: 'filled' },
  'not-a-single-card': { d: 'M1.5 3.5H6.5V9H1.5ZM3.5 3.5V1H8.5V6.5H6.5', kind: 'outlined' },
} as const

export function drawRowShape(document: Document, kind: keyof typeof DOTS): SVGElement {
  const svg = draw(document, '0 0 10 10', [DOTS[kind]])
  svg.setAttribute('class', 'dot')
  return svg
}
