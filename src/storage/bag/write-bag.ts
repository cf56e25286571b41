/**
 * A BagIt bag (RFC 8493, version 1.0) as a zip, written file by file: no more than one payload file is in memory at once.
 * Knows nothing of dossiers.
 */
import { strToU8, Zip, ZipDeflate, ZipPassThrough } from 'fflate'
import { digest } from '../digest.ts'
import { encodePath, writeBagInfo } from './bag-text.ts'

export interface BagFile {
  /** Below `data/`. */
  readonly path: string
  /** Called once, when its turn has come. */
  readonly bytes: () => Promise<Uint8Array<ArrayBuffer>>
  /** Photos are compressed already. */
  readonly compress: boolean
}

/** What a signature is given back as: its own bytes and the key it is checked with. */
export interface Signature {
  readonly algorithm: string
  readonly bytes: Uint8Array<ArrayBuffer>
  /** SubjectPublicKeyInfo, PEM. */
  readonly publicKey: string
}

export interface BagOptions {
  /** Folder that all files lie in; ASCII. */
  readonly name: string
  /** ISO 8601 in UTC. */
  readonly createdAt: string
  /** Elements of `bag-info.txt` besides `Bagging-Date` and `Payload-Oxum`. */
  readonly info: readonly (readonly [string, string])[]
  readonly sink: (chunk: Uint8Array) => void | Promise<void>
  readonly sign?: (bytes: Uint8Array<ArrayBuffer>) => Promise<Signature>
  readonly signal?: AbortSignal
  /** Files done. */
  readonly onFile?: (done: number) => void
}

/** A zip without its 64-bit extension ends at 4 GiB; readers in the field stumble before. */
const LARGEST_BAG_BYTES = 2 ** 32 - 2 ** 24

export class BagTooLarge extends Error {
  override readonly name = 'BagTooLarge'
}

const ALGORITHMS = [
  ['sha256', 'SHA-256'],
  ['sha512', 'SHA-512'],
] as const

/** The signed file, and where its signature and key lie. A signature cannot be among what it signs. */
export const SIGNED_FILE = 'tagmanifest-sha512.txt'
export const SIGNATURE_FILE = 'signature/tagmanifest-sha512.sig'
export const PUBLIC_KEY_FILE = 'signature/public-key.pem'

/** Rejects with the signal's reason when cancelled, with `BagTooLarge` where a zip cannot hold it. */
export async function writeBag(files: Iterable<BagFile> | AsyncIterable<BagFile>, options: BagOptions): Promise<void> {
  const { name, createdAt, signal, onFile } = options
  let pending: Promise<void> = Promise.resolve()
  let failure: unknown = null
  let written = 0
  const zip = new Zip((error, chunk) => {
    if (error) failure = error
    written += chunk?.length ?? 0
    pending = pending.then(() => options.sink(chunk))
  })
  const manifests = ALGORITHMS.map(() => '')
  const tagManifests = ALGORITHMS.map(() => '')

  async function put(path: string, bytes: Uint8Array<ArrayBuffer>, compress: boolean): Promise<void> {
    signal?.throwIfAborted()
    if (written + bytes.length > LARGEST_BAG_BYTES) throw new BagTooLarge(path)
    const entry = compress ? new ZipDeflate(`${name}/${path}`, { level: 6 }) : new ZipPassThrough(`${name}/${path}`)
    entry.mtime = new Date(createdAt)
    zip.add(entry)
    entry.push(bytes, true)
    await pending
    if (failure !== null) throw failure
  }
  async function list(lines: string[], path: string, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    for (const [index, [, algorithm]] of ALGORITHMS.entries())
      lines[index] += `${await digest(algorithm, bytes)}  ${encodePath(path)}\n`
  }
  async function putTag(path: string, text: string): Promise<void> {
    const bytes = strToU8(text) as Uint8Array<ArrayBuffer>
    await list(tagManifests, path, bytes)
    await put(path, bytes, true)
  }

  let octets = 0
  let count = 0
  for await (const file of files) {
    signal?.throwIfAborted()
    const path = `data/${file.path}`
    const bytes = await file.bytes()
    octets += bytes.length
    count++
    await list(manifests, path, bytes)
    await put(path, bytes, file.compress)
    onFile?.(count)
  }

  await putTag('bagit.txt', 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n')
  const oxum = `${octets}.${count}`
  await putTag(
    'bag-info.txt',
    writeBagInfo([['Bagging-Date', createdAt.slice(0, 10)], ['Payload-Oxum', oxum], ...options.info]),
  )
  for (const [index, [file]] of ALGORITHMS.entries()) await putTag(`manifest-${file}.txt`, manifests[index]!)
  let signature: Signature | null = null
  if (options.sign) {
    // The key must be listed before the list that is signed is closed, so it is asked for with an empty message.
    const { publicKey } = await options.sign(new Uint8Array())
    await putTag(PUBLIC_KEY_FILE, publicKey)
    signature = await options.sign(strToU8(tagManifests[1]!) as Uint8Array<ArrayBuffer>)
  }
  for (const [index, [file]] of ALGORITHMS.entries())
    await put(`tagmanifest-${file}.txt`, strToU8(tagManifests[index]!) as Uint8Array<ArrayBuffer>, true)
  if (signature !== null) await put(SIGNATURE_FILE, signature.bytes, false)
  zip.end()
  await pending
  if (failure !== null) throw failure
}
