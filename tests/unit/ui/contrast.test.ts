/**
 * Contrast of every pair of tokens that carries text or a shape, light and dark: WCAG 2.2, 1.4.3 (4.5:1) and 1.4.11 (3:1).
 * The ratio is computed by culori, not by us.
 */
import { readFileSync } from 'node:fs'
import { wcagContrast } from 'culori'
import { describe, expect, it } from 'vitest'

const css = readFileSync('src/ui/style/tokens.css', 'utf8')

function token(name: string, theme: 'light' | 'dark'): string {
  const both = new RegExp(`--${name}: light-dark\\((#\\w+), (#\\w+)\\)`).exec(css)
  const alone = new RegExp(`--${name}: (#\\w+)`).exec(css)
  const colour = both === null ? alone?.[1] : both[theme === 'light' ? 1 : 2]
  if (colour === undefined) throw new Error(`no token ${name}`)
  return colour
}

const GROUNDS = ['paper', 'paper-raised', 'paper-sunk', 'streak-wash']
const TEXT_PAIRS: [string, string][] = [
  ...GROUNDS.flatMap((ground): [string, string][] => [
    ['ink', ground],
    ['ink-soft', ground],
    ['streak', ground],
  ]),
  ...['stone', 'stone-deep'].flatMap((ground): [string, string][] => [
    ['on-stone', ground],
    ['on-stone-soft', ground],
  ]),
]
const SHAPE_PAIRS: [string, string][] = [
  ['rule-firm', 'paper'],
  ['rule-firm', 'paper-raised'],
  ['streak-on-stone', 'stone'],
  ['streak-on-stone', 'stone-deep'],
]

describe.each(['light', 'dark'] as const)('%s', (theme) => {
  it.each(TEXT_PAIRS)('%s on %s carries text', (front, ground) => {
    expect(wcagContrast(token(front, theme), token(ground, theme))).toBeGreaterThanOrEqual(4.5)
  })
  it.each(SHAPE_PAIRS)('%s on %s carries a shape', (front, ground) => {
    expect(wcagContrast(token(front, theme), token(ground, theme))).toBeGreaterThanOrEqual(3)
  })
})
