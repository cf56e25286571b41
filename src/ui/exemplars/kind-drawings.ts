/**
 * What each kind of point looks at, drawn twice: as the press made it and as copying leaves it. Plain SVG, shared by the choice of
 * kinds and the printed guide. `currentColor` is ink; `#b8904a` shows where to look.
 */
import type { PointKind } from '../../domain/exemplar-kinds.ts'

interface KindDrawing {
  readonly good: string
  readonly bad: string
}

const LOOK = '#b8904a'
const look = (d: string) => `<path d="${d}" fill="none" stroke="${LOOK}" stroke-width="1.5"/>`
const ink = (d: string, more = '') => `<path d="${d}" fill="currentColor" ${more}/>`
const dots = (radius: number, step: number, from = 6, to = 58) => {
  let out = ''
  for (let row = 0, y = 8; y <= 40; row++, y += step)
    for (let x = from + (row % 2) * (step / 2); x <= to; x += step)
      out += `<circle cx="${x}" cy="${y}" r="${radius}" fill="currentColor"/>`
  return out
}
const soft = (from: number, to: number, steps = 6) =>
  Array.from({ length: steps }, (_, i) => {
    const width = (to - from) / steps
    return `<rect x="${from + i * width}" y="6" width="${width + 0.2}" height="36" fill="currentColor" opacity="${(1 - (i + 1) / (steps + 1)).toFixed(2)}"/>`
  }).join('')
const letter = (hole: string) =>
  `<path fill-rule="evenodd" fill="currentColor" d="M32 6c13 0 18 8 18 18s-5 18-18 18-18-8-18-18 5-18 18-18z${hole}"/>`

export const KIND_DRAWINGS: Readonly<Record<PointKind, KindDrawing>> = {
  'edge-sharpness': {
    good: ink('M4 6h28v36H4z') + look('M32 2v44'),
    bad: `${ink('M4 6h20v36H4z')}${soft(24, 42)}${look('M24 2v44M42 2v44')}`,
  },
  'stroke-width': {
    good: ink('M29 6h6v36h-6z') + look('M22 24h7M35 24h7'),
    bad: ink('M25 6h14v36H25z') + look('M18 24h7M39 24h7'),
  },
  'corner-roundness': {
    good: ink('M12 8h40v34H12z') + look('M46 14a8 8 0 1 1 .1 0'),
    bad: ink('M12 8h26a14 14 0 0 1 14 14v20H12z') + look('M46 14a8 8 0 1 1 .1 0'),
  },
  'counters-open': {
    good: letter('M32 14c-6 0-9 4-9 10s3 10 9 10 9-4 9-10-3-10-9-10z'),
    bad: letter('M32 22c-2 0-3 1-3 2s1 2 3 2 3-1 3-2-1-2-3-2z'),
  },
  'solid-or-screen': { good: ink('M4 8h56v32H4z'), bad: dots(2.3, 6) },
  tint: {
    good: '<rect x="8" y="8" width="48" height="32" fill="#557a82"/>',
    bad: '<rect x="8" y="8" width="48" height="32" fill="#7b8a6a"/>',
  },
  'tint-order': {
    good: '<rect x="6" y="8" width="26" height="32" fill="#46646b"/><rect x="32" y="8" width="26" height="32" fill="#8fb0b6"/>',
    bad: '<rect x="6" y="8" width="26" height="32" fill="#8aa9af"/><rect x="32" y="8" width="26" height="32" fill="#83a2a8"/>',
  },
  seam: {
    good: '<rect x="4" y="8" width="28" height="32" fill="#557a82"/><rect x="32" y="8" width="28" height="32" fill="#a6533c"/>',
    bad: '<rect x="4" y="8" width="28" height="32" fill="#557a82"/><rect x="36" y="8" width="24" height="32" fill="#a6533c"/><rect x="32" y="8" width="4" height="32" fill="#fff"/>',
  },
  flush: {
    good: `${ink('M16 6h12v16H16zM16 26h24v16H16z')}${look('M16 2v44')}`,
    bad: `${ink('M16 6h12v16H16zM21 26h24v16H21z')}${look('M16 2v22M21 24v22')}`,
  },
  gap: {
    good: `${ink('M8 8h18v32H8zM38 8h18v32H38z')}${look('M26 24h12')}`,
    bad: `${ink('M8 8h22v32H8zM34 8h22v32H34z')}${look('M30 24h4')}`,
  },
  'mark-present': {
    good: `<rect x="6" y="6" width="52" height="36" fill="none" stroke="currentColor"/>${ink('M40 28l2 5 5 .5-4 3 1 5-4-3-4 3 1-5-4-3 5-.5z')}${look('M51 34a11 11 0 1 1-.1-.5')}`,
    bad: `<rect x="6" y="6" width="52" height="36" fill="none" stroke="currentColor"/>${look('M51 34a11 11 0 1 1-.1-.5')}`,
  },
  'border-width': {
    good: `<rect x="12" y="2" width="40" height="44" fill="none" stroke="currentColor"/>${ink('M18 8h28v32H18z')}${look('M12 24h6M46 24h6')}`,
    bad: `<rect x="12" y="2" width="40" height="44" fill="none" stroke="currentColor"/>${ink('M15 8h28v32H15z')}${look('M12 24h3M43 24h9')}`,
  },
  'paper-tone': {
    good: '<rect x="8" y="6" width="48" height="36" fill="#e9dfc6" stroke="currentColor"/>',
    bad: '<rect x="8" y="6" width="48" height="36" fill="#f7f9fc" stroke="currentColor"/>',
  },
  'same-look': {
    good: '<path d="M8 38c8-24 16-24 24-8s14 12 24-18" fill="none" stroke="currentColor" stroke-width="2.5"/><path d="M8 42h48" stroke="currentColor"/>',
    bad: '<path d="M8 38c8-16 16-14 24-10s14 8 24-8" fill="none" stroke="currentColor" stroke-width="4" opacity=".7"/><path d="M8 42h30" stroke="currentColor"/>',
  },
  judged: {
    good: '<circle cx="28" cy="20" r="13" fill="none" stroke="currentColor" stroke-width="2"/><path d="M37 30l13 13" stroke="currentColor" stroke-width="4"/><path d="M21 20l5 5 9-10" fill="none" stroke="#b8904a" stroke-width="2"/>',
    bad: '<circle cx="28" cy="20" r="13" fill="none" stroke="currentColor" stroke-width="2"/><path d="M37 30l13 13" stroke="currentColor" stroke-width="4"/><path d="M23 15l10 10M33 15 23 25" fill="none" stroke="#b8904a" stroke-width="2"/>',
  },
}

/** Markup of one drawing, for a page or a screen. Ours, from the table above: no words of anybody go in. */
export function drawKind(kind: PointKind, which: keyof KindDrawing): string {
  return `<svg viewBox="0 0 64 48" aria-hidden="true" focusable="false">${KIND_DRAWINGS[kind][which]}</svg>`
}
