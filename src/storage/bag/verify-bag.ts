/**
 * Checks a BagIt bag, ours or anybody's: version 1.0 (RFC 8493), and the drafts back to 0.93 that differ in little. Complete means every
 * listed file is there; valid, that every hash fits. Names each fault with its file. Reads through ports: no file system, no zip;
 * never follows a path out of the bag and never fetches.
 */
import { decodePath, leadsOut, linesOf, parseBagInfo, parseFetch, parseManifest } from './bag-text.ts'
import { verifySignature } from './sign-bag.ts'
import { PUBLIC_KEY_FILE, SIGNATURE_FILE, SIGNED_FILE } from './write-bag.ts'

export interface BagSource {
  /** From the bag's root, with `/`. */
  readonly paths: readonly string[]
  /** The bytes of one of `paths`, in pieces. Throws where they cannot be had. */
  read(path: string): AsyncIterable<Uint8Array>
}

export interface Hasher {
  update(chunk: Uint8Array): void
  /** Lower-case hex. */
  digest(): string
}

export interface BagFault {
  /** File inside the bag. */
  readonly file: string
  readonly fault:
    | 'missing'
    | 'changed'
    | 'not-listed'
    | 'not-listed-everywhere'
    | 'listed-twice'
    | 'leads-out'
    | 'not-readable'
    | 'not-understood'
    | 'unknown-algorithm'
    | 'to-be-fetched'
    | 'wrong-count'
    | 'bad-signature'
  readonly detail: string
}

export interface BagVerdict {
  readonly valid: boolean
  readonly faults: readonly BagFault[]
  readonly warnings: readonly string[]
  readonly version: string | null
  /** Payload files whose hashes fit. */
  readonly files: number
  readonly bytes: number
  readonly algorithms: readonly string[]
  /** `null`: the bag carries none. */
  readonly signature: { readonly algorithm: string; readonly fingerprint: string } | null
}

export interface VerifyOptions {
  /** `null` where the algorithm is not known. Names as in manifests: `sha256`, `md5`. */
  readonly createHasher: (algorithm: string) => Hasher | null
  readonly signal?: AbortSignal
  /** Share done, 0–1, by files. */
  readonly onProgress?: (share: number) => void
}

/** Tag files are lists of names and hashes: more than this is not read as text. Ours, no source. */
const LARGEST_TAG_FILE_BYTES = 64 * 2 ** 20
/** Left behind or taken away by systems without anybody's doing; the conformance suite asks for a warning. */
const SYSTEM_FILES: ReadonlySet<string> = new Set(['.DS_Store', 'Thumbs.db'])

type Listed = Map<string, Map<string, string>>

export async function verifyBag(source: BagSource, options: VerifyOptions): Promise<BagVerdict> {
  const { createHasher, signal, onProgress } = options
  const faults: BagFault[] = []
  const warnings: string[] = []
  const fail = (file: string, fault: BagFault['fault'], detail = '') => void faults.push({ file, fault, detail })
  const present = new Set(source.paths)
  for (const path of present) if (leadsOut(path)) fail(path, 'leads-out')

  const { version, decoder } = await readDeclaration()
  const strict = version !== null && Number(version) >= 1

  const payloadManifests = manifestsNamed(/^manifest-([a-z0-9-]+)\.txt$/i)
  const tagManifests = manifestsNamed(/^tagmanifest-([a-z0-9-]+)\.txt$/i)
  if (payloadManifests.length === 0) fail('manifest-*.txt', 'missing', 'a bag has at least one list of its payload')
  const payload = source.paths.filter((path) => path.startsWith('data/'))
  const listed: Listed = new Map()
  for (const { file, algorithm } of payloadManifests) {
    const paths = await readManifest(file, algorithm, true)
    if (strict) for (const path of payload) if (!paths.has(path)) fail(path, 'not-listed-everywhere', file)
  }
  if (payloadManifests.length > 0) for (const path of payload) if (!listed.has(path)) fail(path, 'not-listed')
  for (const { file, algorithm } of tagManifests) await readManifest(file, algorithm, false)
  await readFetchList()

  let files = 0
  let bytes = 0
  let done = 0
  for (const [path, hashes] of listed) {
    signal?.throwIfAborted()
    const size = await checkFile(path, hashes)
    if (path.startsWith('data/') && size !== null) {
      files++
      bytes += size
    }
    onProgress?.(++done / listed.size)
  }
  await checkInfo()
  const signature = await checkSignature()
  const algorithms = payloadManifests.map(({ algorithm }) => algorithm)
  return { valid: faults.length === 0, faults, warnings, version, files, bytes, algorithms, signature }

  async function readDeclaration(): Promise<{ version: string | null; decoder: TextDecoder }> {
    const utf8 = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true })
    const text = await readText('bagit.txt', utf8)
    if (text === null) return { version: null, decoder: utf8 }
    const lines = linesOf(text)
    const number = /^BagIt-Version: (\d+\.\d+)$/.exec(lines[0] ?? '')?.[1]
    const encoding = /^Tag-File-Character-Encoding: (\S+)$/.exec(lines[1] ?? '')?.[1]
    if (number === undefined || encoding === undefined || lines.length > 2) {
      fail('bagit.txt', 'not-understood', 'version and character encoding, one a line, nothing else')
      return { version: number ?? null, decoder: utf8 }
    }
    try {
      return { version: number, decoder: new TextDecoder(encoding, { fatal: true }) }
    } catch {
      fail('bagit.txt', 'not-understood', `no such character encoding: ${encoding}`)
      return { version: number, decoder: utf8 }
    }
  }

  function manifestsNamed(pattern: RegExp): { file: string; algorithm: string }[] {
    return source.paths.flatMap((file) => {
      const algorithm = pattern.exec(file)?.[1]?.toLowerCase()
      return algorithm === undefined ? [] : [{ file, algorithm }]
    })
  }

  async function readManifest(file: string, algorithm: string, ofPayload: boolean): Promise<Set<string>> {
    const paths = new Set<string>()
    if (createHasher(algorithm) === null) fail(file, 'unknown-algorithm', algorithm)
    const seen = new Map<string, string>()
    for (const line of parseManifest((await readText(file, decoder)) ?? '')) {
      if (line === null) {
        fail(file, 'not-understood', 'a line that is no hash and file name')
        continue
      }
      const written = decodePath(line.path)
      if (leadsOut(written)) {
        fail(file, 'leads-out', written)
        continue
      }
      if (line.starred) warnings.push(`${file}: “*” before ${written}`)
      if (written.startsWith('./')) warnings.push(`${file}: “./” before ${written.slice(2)}`)
      const plain = written.replace(/^(?:\.\/)+/, '')
      const path = findPresent(plain, file)
      if (ofPayload !== path.startsWith('data/')) {
        fail(file, 'not-understood', `${path} does not belong here`)
        continue
      }
      const before = seen.get(path)
      if (before !== undefined) {
        if (before !== line.hash || strict) fail(path, 'listed-twice', file)
        else warnings.push(`${file}: ${path} is listed twice`)
      }
      seen.set(path, line.hash)
      paths.add(path)
      const hashes = listed.get(path) ?? new Map<string, string>()
      listed.set(path, hashes.set(algorithm, line.hash))
    }
    return paths
  }

  /** The file itself, or the one that differs from it only in Unicode form or case: some systems keep no more than that. */
  function findPresent(path: string, manifest: string): string {
    if (present.has(path)) return path
    for (const fold of [
      (text: string) => text.normalize('NFC'),
      (text: string) => text.normalize('NFC').toLowerCase(),
    ]) {
      const other = source.paths.find((candidate) => fold(candidate) === fold(path))
      if (other === undefined) continue
      warnings.push(`${manifest}: ${path} is there as ${other}`)
      return other
    }
    return path
  }

  async function readFetchList(): Promise<void> {
    if (!present.has('fetch.txt')) return
    for (const line of parseFetch((await readText('fetch.txt', decoder)) ?? '')) {
      const path = line && decodePath(line.path)
      if (path === null) fail('fetch.txt', 'not-understood', 'a line that is no address, length and file name')
      else if (leadsOut(path)) fail('fetch.txt', 'leads-out', path)
      else if (!present.has(path)) fail(path, 'to-be-fetched', line!.url)
    }
  }

  /** Bytes of the file; `null` where it is not as listed. */
  async function checkFile(path: string, hashes: ReadonlyMap<string, string>): Promise<number | null> {
    if (!present.has(path)) {
      if (faults.some(({ file, fault }) => file === path && fault === 'to-be-fetched')) return null
      if (SYSTEM_FILES.has(path.split('/').at(-1)!)) warnings.push(`${path} is missing`)
      else fail(path, 'missing')
      return null
    }
    const hashers = [...hashes].flatMap(([algorithm, expected]) => {
      const hasher = createHasher(algorithm)
      return hasher === null ? [] : [{ algorithm, expected, hasher }]
    })
    let size = 0
    try {
      for await (const chunk of source.read(path)) {
        signal?.throwIfAborted()
        size += chunk.length
        for (const { hasher } of hashers) hasher.update(chunk)
      }
    } catch (error) {
      signal?.throwIfAborted()
      fail(path, 'not-readable', wordsOf(error))
      return null
    }
    const wrong = hashers.filter(({ hasher, expected }) => hasher.digest() !== expected)
    if (wrong.length > 0) fail(path, 'changed', wrong.map(({ algorithm }) => algorithm).join(', '))
    return wrong.length > 0 ? null : size
  }

  async function checkInfo(): Promise<void> {
    if (!present.has('bag-info.txt')) return
    const entries = parseBagInfo((await readText('bag-info.txt', decoder)) ?? '')
    if (entries.includes(null)) fail('bag-info.txt', 'not-understood', 'a line that is no label and value')
    const oxum = entries.find((entry) => entry?.[0].toLowerCase() === 'payload-oxum')?.[1]
    // Where files are missing or changed already, that their sum differs is no news.
    if (oxum !== undefined && faults.length === 0 && warnings.length === 0 && oxum !== `${bytes}.${files}`)
      fail('bag-info.txt', 'wrong-count', `${oxum}, found ${bytes}.${files}`)
  }

  async function checkSignature(): Promise<BagVerdict['signature']> {
    if (!present.has(SIGNATURE_FILE)) return null
    try {
      const [key, signed, signature] = await Promise.all(
        [PUBLIC_KEY_FILE, SIGNED_FILE, SIGNATURE_FILE].map((path) => readWhole(path)),
      )
      const checked = await verifySignature(new TextDecoder().decode(key), signed!, signature!)
      if (checked.fits) return { algorithm: checked.algorithm, fingerprint: checked.fingerprint }
      fail(SIGNATURE_FILE, 'bad-signature', checked.algorithm)
    } catch (error) {
      fail(SIGNATURE_FILE, 'bad-signature', wordsOf(error))
    }
    return null
  }

  async function readText(path: string, into: TextDecoder): Promise<string | null> {
    if (!present.has(path)) {
      fail(path, 'missing')
      return null
    }
    try {
      const bytes = await readWhole(path)
      // The platform takes UTF-16 for little-endian; the byte order mark knows better.
      const bigEndian = into.encoding === 'utf-16le' && bytes[0] === 0xfe && bytes[1] === 0xff
      return (bigEndian ? new TextDecoder('utf-16be', { fatal: true }) : into).decode(bytes)
    } catch (error) {
      fail(path, 'not-readable', wordsOf(error))
      return null
    }
  }

  async function readWhole(path: string): Promise<Uint8Array<ArrayBuffer>> {
    const chunks: Uint8Array[] = []
    let size = 0
    for await (const chunk of source.read(path)) {
      size += chunk.length
      if (size > LARGEST_TAG_FILE_BYTES) throw new Error('is larger than a list of files can be')
      chunks.push(chunk)
    }
    const whole = new Uint8Array(size)
    let at = 0
    for (const chunk of chunks) {
      whole.set(chunk, at)
      at += chunk.length
    }
    return whole
  }
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error)
}
