/**
 * The packs of `rules/` and the texts of `assets/_locales/`, as the extension carries them. A fault in our own packs is no
 * bad input of the person's: it throws.
 */
import { readdir, readFile } from 'node:fs/promises'
import { join, relative, resolve } from 'node:path'
import type { Vocabulary } from '../domain/claim/vocabulary.ts'
import type { Grader } from '../domain/grader-book.ts'
import { type PackFault, type PackFile, type Packs, parsePacks } from '../domain/rules/packs.ts'
import { BadInput } from './bad-input.ts'
import { reasonOf } from './read-file.ts'

const ROOT = resolve(import.meta.dirname, '../..')
const OWN_RULES = join(ROOT, 'rules')
const TEXT_FILES = ['rules.json', 'views.json']

async function loadTexts(language: string): Promise<Record<string, string>> {
  const files = TEXT_FILES.map((file) => readFile(join(ROOT, 'assets/_locales', language, file), 'utf8'))
  return Object.assign({}, ...(await Promise.all(files)).map((text) => JSON.parse(text)))
}

/** Every pack under a folder, by its path from there. A file that is no JSON is a fault, not the end. */
async function readPackFiles(folder: string): Promise<{ files: PackFile[]; faults: PackFault[] }> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  const paths = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json') && !entry.name.endsWith('.schema.json'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
  const files: PackFile[] = []
  const faults: PackFault[] = []
  for (const path of paths) {
    const file = relative(folder, path).replaceAll('\\', '/')
    try {
      files.push({ file, pack: JSON.parse(await readFile(path, 'utf8')) })
    } catch (error) {
      faults.push({ file, path: '', fault: `is not JSON (${(error as Error).message})` })
    }
  }
  return { files, faults }
}

export async function loadPacks(language = 'en'): Promise<Packs> {
  const [{ files, faults }, texts] = await Promise.all([readPackFiles(OWN_RULES), loadTexts(language)])
  const parsed = parsePacks(files, texts, language)
  const [fault] = [...faults, ...parsed.faults]
  if (fault) throw new Error(`our own pack ${fault.file} has a fault at ${fault.path || 'its root'}: ${fault.fault}`)
  return parsed.packs
}

export async function loadKnowledge(
  graders: readonly Grader[],
): Promise<{ graders: readonly Grader[]; vocabulary: Vocabulary }> {
  return { graders, vocabulary: (await loadPacks()).vocabulary }
}

/**
 * Faults of the packs in a folder. Packs may build on ours: those of ours that the folder does not replace (by the same
 * path) are read with them, and only the folder's own faults are reported.
 */
export async function checkPacks(folder: string): Promise<{ files: number; faults: PackFault[] }> {
  let own: Awaited<ReturnType<typeof readPackFiles>>
  try {
    own = await readPackFiles(folder)
  } catch (error) {
    throw new BadInput(`${folder}: ${reasonOf(error)}.`)
  }
  if (own.files.length + own.faults.length === 0) throw new BadInput(`${folder}: no pack (*.json) is in this folder.`)
  const named = new Set([...own.files, ...own.faults].map(({ file }) => file))
  const ours = (await readPackFiles(OWN_RULES)).files.filter(({ file }) => !named.has(file))
  const parsed = parsePacks([...ours, ...own.files], await loadTexts('en'))
  const faults = [...own.faults, ...parsed.faults.filter(({ file }) => named.has(file))]
  return { files: named.size, faults }
}
