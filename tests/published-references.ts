/**
 * Published reference data that lies beside the repository and is never copied into it. Where the folder is missing a suite
 * is left out and says so in one line; in CI a missing folder fails.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { describe } from 'vitest'

const FOLDER = resolve(import.meta.dirname, '../../shared/refs')

/** `describe` for a suite over reference data; `folder` is where the data lies. */
export function describeWithReferences(name: string, suite: (folder: string) => void): void {
  const present = existsSync(FOLDER)
  if (!present && process.env.CI)
    throw new Error(`${name}: the reference data is missing, and CI does not leave it out`)
  if (!present) console.log(`left out: ${name} (no reference data beside the repository)`)
  describe.skipIf(!present)(name, () => {
    if (present) suite(FOLDER)
  })
}

export function readReference<T>(folder: string, file: string): T {
  return JSON.parse(readFileSync(join(folder, file), 'utf8')) as T
}
