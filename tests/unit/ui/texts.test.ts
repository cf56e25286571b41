/** Every text that the interface asks for is there in both languages, with the same parameters, and none is left over. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { UI_CATALOGUES } from '../../../src/ui/catalogues.ts'

const { en, de } = UI_CATALOGUES
const SOURCES = ['src/ui', 'src/contexts', 'src/marking', 'src/domain/pricing']

const source = SOURCES.flatMap((room) =>
  readdirSync(room, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(join(room, name), 'utf8')),
).join('\n')

const keys = Object.keys(en)
const stem = (key: string) => key.replace(/_(zero|one|two|few|many|other)$/, '')
const parameters = (text: string) => [...text.matchAll(/\{\w+\}/g)].map(([whole]) => whole).sort()
const literals = new Set([...source.matchAll(/['`]([a-z][\w-]*(?:\.[\w-]+)+)['`]/g)].map(([, key]) => key!))
const prefixes = [...source.matchAll(/`([a-z][\w.-]*\.)\$\{[^}]*\}((?:\.[\w-]+)*)`/g)].map(
  ([, start, end]) => [start!, end!] as const,
)

it('has the same texts in both languages', () => {
  expect(Object.keys(de).sort()).toEqual([...keys].sort())
})

it('has words and the same parameters in both languages', () => {
  const faults = keys.filter((key) => {
    const [english, german] = [en[key]!, de[key]!]
    return english.trim() === '' || german.trim() === '' || String(parameters(german)) !== String(parameters(english))
  })
  expect(faults).toEqual([])
})

it('has both plural forms wherever it has one', () => {
  const stems = keys.filter((key) => /_(one|other)$/.test(key)).map(stem)
  for (const name of new Set(stems)) {
    expect(keys).toContain(`${name}_one`)
    expect(keys).toContain(`${name}_other`)
  }
})

it('has every text that is asked for by name', () => {
  const present = new Set(keys.map(stem))
  const asked = [...source.matchAll(/\bt\(\s*'([^']+)'/g)].map(([, key]) => key!)
  expect(asked.length).toBeGreaterThan(100)
  expect(asked.filter((key) => !present.has(key))).toEqual([])
})

it('has no text that nobody asks for', () => {
  const used = (key: string) =>
    literals.has(stem(key)) || prefixes.some(([start, end]) => key.startsWith(start) && stem(key).endsWith(end))
  expect(keys.filter((key) => !used(key))).toEqual([])
})
