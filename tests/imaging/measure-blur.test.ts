/** Blur against edges whose spread is known by formula. */
import { expect, it } from 'vitest'
import { measureBlur } from '../../src/imaging/measure-blur.ts'
import { addNoise, createRandom, stripes } from './scenes/edges.ts'

const scene = { width: 600, height: 400, dark: 40, light: 210, period: 48, slant: 0.05 }

it.each([0.7, 1, 1.5, 2, 3, 4.5])('finds a blur of %f px within a tenth', (sigma) => {
  const blur = measureBlur({ ...scene, data: stripes({ ...scene, sigma }) })
  expect(blur).toBeGreaterThan(sigma * 0.9)
  expect(blur).toBeLessThan(sigma * 1.1)
})

it.each([0.8, 1.5, 3])('finds a blur of %f px within a quarter under noise of 2 levels', (sigma) => {
  const data = addNoise(stripes({ ...scene, sigma }), 2, createRandom(7))
  const blur = measureBlur({ ...scene, data })
  expect(blur).toBeGreaterThan(sigma * 0.75)
  expect(blur).toBeLessThan(sigma * 1.25)
})

it('finds the same blur on edges that lean', () => {
  const data = stripes({ ...scene, sigma: 2, slant: 0.6 })
  const blur = measureBlur({ ...scene, data })
  expect(blur).toBeGreaterThan(1.8)
  expect(blur).toBeLessThan(2.2)
})

it('calls a hard edge hard', () => {
  expect(measureBlur({ ...scene, data: stripes({ ...scene, sigma: 0 }) })).toBeLessThan(0.35)
})

it('does not say where there are no edges', () => {
  const flat = new Float32Array(600 * 400).fill(120)
  expect(measureBlur({ width: 600, height: 400, data: flat })).toBeNull()
  expect(measureBlur({ width: 600, height: 400, data: addNoise(flat, 3, createRandom(3)) })).toBeNull()
})
