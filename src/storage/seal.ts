/**
 * A file closed with a passphrase, written and read in pieces, by WebCrypto alone: the key by PBKDF2-HMAC-SHA-256, the content by
 * AES-256-GCM in chunks whose nonces count up and mark the last one, so that no chunk can be left out, moved or cut off unseen (the
 * STREAM construction of Hoang, Reyhanitabar, Rogaway and Vizár, 2015). Layout:
 *   "touchstone-sealed-1\n" · iterations (4 bytes, big-endian) · salt (16) · nonce prefix (7) · chunks of CHUNK_BYTES + 16, the last shorter
 */
import { BackupFault } from './faults.ts'

const MAGIC = new TextEncoder().encode('touchstone-sealed-1\n')
/** OWASP Password Storage Cheat Sheet, PBKDF2-HMAC-SHA256: 600,000 iterations (in force since December 2022, looked up 2026-11). */
const ITERATIONS = 600_000
/** More than this in a file is an attack on the reader's time. Ours, no source. */
const MOST_ITERATIONS = 20_000_000
const SALT_BYTES = 16
const PREFIX_BYTES = 7
const TAG_BYTES = 16
const CHUNK_BYTES = 2 ** 20
const HEADER_BYTES = MAGIC.length + 4 + SALT_BYTES + PREFIX_BYTES

type Sink = (chunk: Uint8Array) => void | Promise<void>

export interface Sealer {
  write(chunk: Uint8Array): Promise<void>
  finish(): Promise<void>
}

export async function createSealer(passphrase: string, sink: Sink): Promise<Sealer> {
  const header = new Uint8Array(HEADER_BYTES)
  header.set(MAGIC)
  new DataView(header.buffer).setUint32(MAGIC.length, ITERATIONS)
  crypto.getRandomValues(header.subarray(MAGIC.length + 4))
  const { key, prefix } = await readHeader(header, passphrase)
  await sink(header)
  const held = new Uint8Array(CHUNK_BYTES)
  let length = 0
  let count = 0
  async function seal(last: boolean): Promise<void> {
    const options = { name: 'AES-GCM', iv: nonceOf(prefix, count++, last), additionalData: header }
    await sink(new Uint8Array(await crypto.subtle.encrypt(options, key, held.subarray(0, length))))
    length = 0
  }
  return {
    async write(chunk) {
      for (let at = 0; at < chunk.length; ) {
        // A full chunk waits for what follows: only then is it known not to be the last.
        if (length === CHUNK_BYTES) await seal(false)
        const some = chunk.subarray(at, at + CHUNK_BYTES - length)
        held.set(some, length)
        length += some.length
        at += some.length
      }
    },
    finish: () => seal(true),
  }
}

export async function isSealed(file: Blob): Promise<boolean> {
  const start = new Uint8Array(await file.slice(0, MAGIC.length).arrayBuffer())
  return start.length === MAGIC.length && start.every((byte, at) => byte === MAGIC[at])
}

/** Throws `BackupFault` for another passphrase, and for a file that was changed or cut: the two cannot be told apart. */
export async function unseal(file: Blob, passphrase: string, signal?: AbortSignal): Promise<Blob> {
  const header = new Uint8Array(await file.slice(0, HEADER_BYTES).arrayBuffer())
  if (header.length < HEADER_BYTES) throw new BackupFault('the file', 'ends in its first lines')
  const { key, prefix } = await readHeader(header, passphrase)
  const opened: Blob[] = []
  const step = CHUNK_BYTES + TAG_BYTES
  for (let at = HEADER_BYTES, count = 0; ; at += step, count++) {
    signal?.throwIfAborted()
    const last = at + step >= file.size
    const chunk = await file.slice(at, at + step).arrayBuffer()
    const options = { name: 'AES-GCM', iv: nonceOf(prefix, count, last), additionalData: header }
    const plain = await crypto.subtle.decrypt(options, key, chunk).catch(() => null)
    if (plain === null) throw new BackupFault('the file', 'does not open with this passphrase, or was changed')
    opened.push(new Blob([plain]))
    if (last) return new Blob(opened)
  }
}

async function readHeader(header: Uint8Array<ArrayBuffer>, passphrase: string) {
  const iterations = new DataView(header.buffer).getUint32(MAGIC.length)
  if (iterations < 1 || iterations > MOST_ITERATIONS) throw new BackupFault('the file', 'asks for a key of no use')
  const salt = header.subarray(MAGIC.length + 4, MAGIC.length + 4 + SALT_BYTES)
  // The same passphrase typed on another keyboard may come in another Unicode form.
  const words = new TextEncoder().encode(passphrase.normalize('NFC'))
  const material = await crypto.subtle.importKey('raw', words, 'PBKDF2', false, ['deriveKey'])
  const key = await crypto.subtle.deriveKey(
    { name: 'PBKDF2', hash: 'SHA-256', salt, iterations },
    material,
    { name: 'AES-GCM', length: 256 },
    false,
    ['encrypt', 'decrypt'],
  )
  return { key, prefix: header.subarray(HEADER_BYTES - PREFIX_BYTES) }
}

function nonceOf(prefix: Uint8Array, count: number, last: boolean): Uint8Array<ArrayBuffer> {
  const nonce = new Uint8Array(PREFIX_BYTES + 5)
  nonce.set(prefix)
  new DataView(nonce.buffer).setUint32(PREFIX_BYTES, count)
  nonce[PREFIX_BYTES + 4] = last ? 1 : 0
  return nonce
}
