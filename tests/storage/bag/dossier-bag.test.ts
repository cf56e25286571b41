import { spawnSync } from 'node:child_process'
import { createPublicKey, verify as verifyByNode } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { strFromU8, unzipSync, zipSync } from 'fflate'
import { JSDOM } from 'jsdom'
import { afterAll, describe, expect, it } from 'vitest'
import de from '../../../assets/_locales/de/bag.json' with { type: 'json' }
import en from '../../../assets/_locales/en/bag.json' with { type: 'json' }
import { createNodeHasher } from '../../../src/cli/bag-sources.ts'
import { ARRIVAL_STEPS } from '../../../src/domain/dossier/arrival.ts'
import { STAGES } from '../../../src/domain/dossier/derive-state.ts'
import { DEADLINE_KINDS } from '../../../src/domain/dossier.ts'
import { canonicalJson } from '../../../src/storage/bag/canonical-json.ts'
import { signBytes, verifySignature } from '../../../src/storage/bag/sign-bag.ts'
import { verifyBag } from '../../../src/storage/bag/verify-bag.ts'
import { NoBag, openZipSource } from '../../../src/storage/bag/zip-source.ts'
import { digest } from '../../../src/storage/digest.ts'
import { describeWithReferences, readReference } from '../../published-references.ts'
import { livedDossier, makeBag } from './sample-bag.ts'

const lived = await livedDossier()
const { zip, name, files, missing } = await makeBag(lived)
const parts = unzipSync(zip)
const verify = async (bytes: Uint8Array) =>
  verifyBag(await openZipSource(new Blob([bytes as Uint8Array<ArrayBuffer>])), { createHasher: createNodeHasher })

describe('the bag of a dossier', () => {
  it('is valid, and holds what was kept byte for byte', async () => {
    const verdict = await verify(zip)
    expect(verdict).toMatchObject({
      valid: true,
      faults: [],
      warnings: [],
      version: '1.0',
      files,
      algorithms: ['sha256', 'sha512'],
    })
    expect(missing).toEqual([])
    for (const { sha256, url } of lived.dossier.photos) {
      const number = String(lived.dossier.photos.findIndex((photo) => photo.url === url) + 1).padStart(2, '0')
      expect(await digest('SHA-256', parts[`${name}/data/photos/${number}.jpg`] as Uint8Array<ArrayBuffer>)).toBe(
        sha256,
      )
    }
    const before = lived.dossier.revisions?.[0]?.photos[0]?.sha256 ?? ''
    expect(parts[`${name}/data/revisions/1/photo-${before.slice(0, 12)}.jpg`]).toBeDefined()
    expect(strFromU8(parts[`${name}/data/dossier.json`]!)).toBe(canonicalJson(lived.dossier))
    expect(JSON.parse(strFromU8(parts[`${name}/data/dossier.json`]!))).toEqual(
      JSON.parse(JSON.stringify(lived.dossier)),
    )
    expect(strFromU8(parts[`${name}/data/messages/01-asked-2026-11-18.txt`]!)).toBe('The back, please.')
  })

  it('names every file whose byte was changed, and none else', async () => {
    for (const path of Object.keys(parts)) {
      const bytes = parts[path]!.slice()
      bytes[bytes.length >> 1]! ^= 1
      const file = path.slice(name.length + 1)
      const { valid, faults } = await verify(zipSync({ ...parts, [path]: bytes }))
      // No list covers the lists of tag files; a byte in one makes its line, or the file of that line, not fit.
      if (/^tagmanifest-/.test(file)) expect(valid).toBe(false)
      else expect(faults.filter(({ fault }) => fault === 'changed').map((fault) => fault.file)).toContain(file)
      if (file.startsWith('data/')) expect(faults.map((fault) => fault.file)).toEqual([file])
    }
  })

  it('names what is missing and what was put in', async () => {
    const { [`${name}/data/log.json`]: _gone, ...without } = parts
    expect((await verify(zipSync(without))).faults).toEqual([{ file: 'data/log.json', fault: 'missing', detail: '' }])
    const added = await verify(zipSync({ ...parts, [`${name}/data/more.txt`]: new Uint8Array([1]) }))
    expect(added.faults[0]).toMatchObject({ file: 'data/more.txt', fault: 'not-listed-everywhere' })
    await expect(openZipSource(new Blob(['<html>']))).rejects.toBeInstanceOf(NoBag)
    await expect(openZipSource(new Blob([zipSync({ 'a.txt': new Uint8Array([1]) })]))).rejects.toBeInstanceOf(NoBag)
  })

  it('says which bytes nobody had', async () => {
    const bag = await makeBag({ dossier: lived.dossier, dossiers: { readBlob: async () => null } })
    expect(bag.missing.length).toBe(4)
    expect(strFromU8(unzipSync(bag.zip)[`${name}/data/missing.txt`]!)).toContain(bag.missing[0])
    expect((await verify(bag.zip)).valid).toBe(true)
  })

  it('is the same, byte for byte, when it is made again of the same', async () => {
    expect(Buffer.from((await makeBag(lived)).zip).equals(Buffer.from(zip))).toBe(true)
  })

  it('reports progress up to the end and ends at once when cancelled', async () => {
    const shares: number[] = []
    await makeBag(lived, { onProgress: (share) => void shares.push(share) })
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    expect(shares.at(-1)).toBe(1)
    await expect(makeBag(lived, { signal: AbortSignal.abort(new Error('enough')) })).rejects.toThrow('enough')
  })
})

describe('the report', () => {
  const text = strFromU8(parts[`${name}/data/report.html`]!)
  const { document } = new JSDOM(text).window
  it('shows a seller’s markup as words, runs nothing and fetches nothing', () => {
    expect(document.querySelectorAll('script, link, iframe, b').length).toBe(0)
    expect(document.body.textContent).toContain('It is a <b>reprint</b> & „Möwe“.')
    for (const image of document.querySelectorAll('img')) expect(image.getAttribute('src')).toMatch(/^data:image\//)
    expect(text).not.toMatch(/\son\w+=|javascript:/i)
  })
  it('holds pictures, what changed, messages, hashes and what they do not prove', () => {
    expect(document.querySelectorAll('img').length).toBe(lived.dossier.photos.length + 1)
    expect(document.querySelector('del')?.textContent).toContain('120.00 EUR')
    expect([...document.querySelectorAll('del')].map((node) => node.textContent).join()).toContain('It is a reprint.')
    expect(document.body.textContent).toContain('The back, please.')
    expect(document.body.textContent).toContain(lived.dossier.photos[0]?.sha256)
    expect(document.body.textContent).toContain('do not prove')
  })
  it('has its words in both languages, for every state there is', () => {
    expect(Object.keys(de)).toEqual(Object.keys(en))
    for (const stage of STAGES) expect(en).toHaveProperty([`bag.stage.${stage}`])
    for (const kind of DEADLINE_KINDS) expect(en).toHaveProperty([`bag.deadline.${kind}`])
    for (const { id } of ARRIVAL_STEPS) expect(en).toHaveProperty([`bag.arrival.${id}`])
  })
})

/** What others' programs say of our bag. Debian's `unzip`, coreutils' sums, OpenSSL. */
describe('checked by programs that are not ours', () => {
  const folder = mkdtempSync(join(tmpdir(), 'touchstone-bag-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  const has = (program: string) => {
    const present = spawnSync(program, ['--help']).error === undefined
    if (!present) console.log(`left out: ${program} is not installed here`)
    return present
  }
  const run = (program: string, ...args: string[]) => {
    const { status, stdout, stderr } = spawnSync(program, args, { cwd: folder, encoding: 'utf8' })
    return { status, output: stdout + stderr }
  }
  writeFileSync(join(folder, 'bag.zip'), zip)
  for (const [path, bytes] of Object.entries(parts)) {
    const at = join(folder, 'by-us', path)
    spawnSync('mkdir', ['-p', join(at, '..')])
    writeFileSync(at, bytes)
  }

  it.skipIf(!has('unzip'))('unzip -t finds no error, and unpacks the same', () => {
    expect(run('unzip', '-t', 'bag.zip')).toMatchObject({
      status: 0,
      output: expect.stringContaining('No errors detected'),
    })
    expect(run('unzip', '-q', 'bag.zip').status).toBe(0)
    for (const [path, bytes] of Object.entries(parts))
      expect(readFileSync(join(folder, path)).equals(Buffer.from(bytes))).toBe(true)
  })

  it.skipIf(!has('sha256sum'))('sha256sum -c and sha512sum -c accept every list, and name a changed file', () => {
    const bag = join(folder, 'by-us', name)
    const check = (sum: string, list: string) => spawnSync(sum, ['-c', list], { cwd: bag, encoding: 'utf8' })
    for (const size of ['256', '512'])
      for (const list of [`manifest-sha${size}.txt`, `tagmanifest-sha${size}.txt`])
        expect(check(`sha${size}sum`, list)).toMatchObject({ status: 0, stdout: expect.stringContaining(': OK') })
    const photo = join(bag, 'data/photos/01.jpg')
    const bytes = readFileSync(photo)
    bytes[99]! ^= 1
    writeFileSync(photo, bytes)
    expect(check('sha512sum', 'manifest-sha512.txt')).toMatchObject({
      status: 1,
      stdout: expect.stringContaining('data/photos/01.jpg: FAILED'),
    })
  })

  it.each(['Ed25519', 'ECDSA'])(
    'an %s signature is accepted by Node’s OpenSSL and by ours, and by neither once a byte changed',
    async (algorithm) => {
      const keys = (await crypto.subtle.generateKey({ name: algorithm, namedCurve: 'P-256' } as EcKeyGenParams, false, [
        'sign',
        'verify',
      ])) as CryptoKeyPair
      const signed = await makeBag(lived, { sign: (bytes) => signBytes(keys, bytes) })
      const files = unzipSync(signed.zip)
      const of = (path: string) => files[`${name}/${path}`] as Uint8Array<ArrayBuffer>
      const key = createPublicKey(strFromU8(of('signature/public-key.pem')))
      const [list, signature] = [of('tagmanifest-sha512.txt'), of('signature/tagmanifest-sha512.sig')]
      const digestName = algorithm === 'Ed25519' ? null : 'sha256'
      expect(verifyByNode(digestName, list, key, signature)).toBe(true)
      expect((await verify(signed.zip)).signature).toMatchObject({
        fingerprint: expect.stringMatching(/^[0-9a-f]{64}$/),
      })
      expect(strFromU8(of('data/READ-ME.txt'))).toContain('pkeyutl')
      const forged = list.slice()
      forged[0]! ^= 1
      expect(verifyByNode(digestName, forged, key, signature)).toBe(false)
      const { faults } = await verify(zipSync({ ...files, [`${name}/tagmanifest-sha512.txt`]: forged }))
      expect(faults).toContainEqual(expect.objectContaining({ fault: 'bad-signature' }))
    },
  )

  it('a DER signature is read whatever the size of its integers', async () => {
    const keys = (await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, [
      'sign',
      'verify',
    ])) as CryptoKeyPair
    for (let round = 0; round < 300; round++) {
      const message = new Uint8Array([round, round >> 8])
      const { bytes, publicKey } = await signBytes(keys, message)
      expect((await verifySignature(publicKey, message, bytes)).fits).toBe(true)
    }
  })
})

// FIPS 180-4 through NIST's examples ("abc", the 896-bit message, the empty one) and a million times "a".
describe('hashes', () => {
  const bytes = (text: string) => new TextEncoder().encode(text)
  it.each([
    ['SHA-256', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'SHA-256',
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['SHA-256', 'a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
    [
      'SHA-512',
      'abc',
      'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
    ],
    [
      'SHA-512',
      'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
      '8e959b75dae313da8cf4f72814fc143f8f7779c6eb9f7fa17299aeadb6889018501d289e4900f7e4331b99dec4b5433ac7d329eeb6dd26545e96e55b874be909',
    ],
  ] as const)('%s of NIST’s example', async (algorithm, text, expected) =>
    expect(await digest(algorithm, bytes(text))).toBe(expected),
  )
})

describeWithReferences('canonical JSON', (folder) => {
  const cases = readReference<{ name: string; input: string; output: string }[]>(folder, 'jcs/cases.json')
  it.each(cases)('$name is written as RFC 8785’s own vectors are', ({ input, output }) => {
    const read = (file: string) => readFileSync(join(folder, 'jcs', file), 'utf8')
    expect(canonicalJson(JSON.parse(read(input)))).toBe(read(output))
  })
})
