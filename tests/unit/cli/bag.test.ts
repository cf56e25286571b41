/** `bag`: a dossier in, a bag out; a bag in, its faults out. Exit 0 valid, 1 not, 2 bad input. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { runCommand } from '../../../src/cli/run-command.ts'
import { livedDossier } from '../../storage/bag/sample-bag.ts'

const folder = mkdtempSync(join(tmpdir(), 'touchstone-bag-cli-'))
const at = (name: string) => join(folder, name)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function run(...argv: string[]) {
  const out: string[] = []
  const error: string[] = []
  const code = await runCommand(argv, { out: (text) => void out.push(text), error: (text) => void error.push(text) })
  return { code, out: out.join('\n'), error: error.join('\n') }
}

beforeAll(async () => {
  const { dossier, dossiers } = await livedDossier()
  writeFileSync(at('dossier.json'), JSON.stringify(dossier))
  for (const [index, { sha256 }] of dossier.photos.entries())
    writeFileSync(at(`any-name-${index}`), new Uint8Array((await dossiers.readBlob(sha256!))!.bytes))
})

it('makes a bag that it accepts, finding photos by their hash and naming what it lacks', async () => {
  const made = await run('bag', at('dossier.json'), at('bag.zip'), '--lang', 'de')
  expect(made).toMatchObject({ code: 0, error: '' })
  expect(made.out.match(/not found/g)).toHaveLength(2)
  expect(existsSync(at('bag.zip.part'))).toBe(false)
  const verified = await run('bag', '--verify', at('bag.zip'))
  expect(verified).toMatchObject({ code: 0, error: '' })
  expect(verified.out).toContain('valid')
  expect(JSON.parse((await run('bag', '--verify', at('bag.zip'), '--json')).out)).toMatchObject({
    valid: true,
    version: '1.0',
  })
})

it('names a changed byte and answers 1', async () => {
  const bytes = readFileSync(at('bag.zip'))
  bytes[bytes.indexOf(Buffer.from([0xff, 0xd8, 0xff])) + 100]! ^= 1
  writeFileSync(at('bad.zip'), bytes)
  const { code, out, error } = await run('bag', '--verify', at('bad.zip'))
  expect(code).toBe(1)
  expect(out).toContain('data/photos/01.jpg was changed')
  expect(error.split('\n')).toHaveLength(1)
})

it('answers bad input with one line', async () => {
  writeFileSync(at('other.json'), '{}')
  for (const argv of [
    ['--verify', at('nowhere.zip')],
    ['--verify', at('dossier.json')],
    [at('other.json'), at('x.zip')],
    [at('dossier.json')],
    [at('dossier.json'), at('no/folder/x.zip')],
    [at('dossier.json'), at('x.zip'), '--lang', 'xx'],
  ]) {
    const { code, error } = await run('bag', ...argv)
    expect({ argv, code, lines: error.split('\n').length }).toEqual({ argv, code: 2, lines: 1 })
  }
})
