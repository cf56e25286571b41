/** Files that the person names. Every failure is one line that says which file and what about it. */
import { readFile, stat } from 'node:fs/promises'
import { BadInput } from './bad-input.ts'

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
  ENOTDIR: 'there is no such file',
}

export function reasonOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code
  return (code !== undefined && REASONS[code]) || (error instanceof Error ? error.message : String(error))
}

/** @param limit in bytes; a larger file is bad input, not a reason to run out of memory. */
export async function readBytes(path: string, limit: number): Promise<Buffer> {
  try {
    const { size } = await stat(path)
    if (size > limit) throw new BadInput(`${path}: ${size} bytes; at most ${limit} are read.`)
    return await readFile(path)
  } catch (error) {
    if (error instanceof BadInput) throw error
    throw new BadInput(`${path}: ${reasonOf(error)}.`)
  }
}

/** A text file in UTF-8, its byte order mark removed. */
export async function readText(path: string, limit: number): Promise<string> {
  const bytes = await readBytes(path, limit)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw new BadInput(`${path}: is not text in UTF-8.`)
  }
}

export async function readJson(path: string, limit: number): Promise<unknown> {
  const text = await readText(path, limit)
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new BadInput(`${path}: is not JSON (${(error as Error).message}).`)
  }
}
