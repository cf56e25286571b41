/** The built-in packs and texts from the file system, for tests. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { type PackFile, type Packs, parsePacks } from '../../../src/domain/rules/packs.ts'

export const RULES_DIRECTORY = new URL('../../../rules/', import.meta.url).pathname

export function readPackFiles(): PackFile[] {
  return readdirSync(RULES_DIRECTORY, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => ({ file: relative(RULES_DIRECTORY, path), pack: JSON.parse(readFileSync(path, 'utf8')) }))
}

export function readTexts(language: string): Record<string, string> {
  const read = (name: string) =>
    JSON.parse(readFileSync(new URL(`../../../assets/_locales/${language}/${name}.json`, import.meta.url), 'utf8'))
  return { ...read('rules'), ...read('views') }
}

const loaded = new Map<string, Packs>()

export function loadPacks(language = 'en'): Packs {
  const before = loaded.get(language)
  if (before) return before
  const { packs, faults } = parsePacks(readPackFiles(), readTexts(language), language)
  if (faults.length > 0) throw new Error(`the built-in packs have faults:\n${JSON.stringify(faults, null, 2)}`)
  loaded.set(language, packs)
  return packs
}
