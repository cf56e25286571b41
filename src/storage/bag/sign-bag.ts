/**
 * Signing what a bag lists, and checking it, by WebCrypto: Ed25519 (RFC 8032) where the browser has it, else ECDSA over P-256 with
 * SHA-256. Signatures and keys are in the forms that OpenSSL reads. A signature says which key signed, never who holds it.
 */
import { digest } from '../digest.ts'
import type { Signature } from './write-bag.ts'

const ED25519 = { name: 'Ed25519' } as const
const P256 = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGN_P256 = { name: 'ECDSA', hash: 'SHA-256' } as const

/** The private key cannot be taken out: it may be kept in the browser's database, and no backup holds it. */
export async function createSigningKey(): Promise<CryptoKeyPair> {
  try {
    return (await crypto.subtle.generateKey(ED25519, false, ['sign', 'verify'])) as CryptoKeyPair
  } catch {
    return crypto.subtle.generateKey(P256, false, ['sign', 'verify'])
  }
}

export async function signBytes(keys: CryptoKeyPair, bytes: Uint8Array<ArrayBuffer>): Promise<Signature> {
  const spki = await crypto.subtle.exportKey('spki', keys.publicKey)
  const publicKey = writePem(new Uint8Array(spki))
  if (keys.privateKey.algorithm.name === 'Ed25519')
    return {
      algorithm: 'Ed25519',
      bytes: new Uint8Array(await crypto.subtle.sign(ED25519, keys.privateKey, bytes)),
      publicKey,
    }
  const raw = new Uint8Array(await crypto.subtle.sign(SIGN_P256, keys.privateKey, bytes))
  return { algorithm: 'ECDSA P-256, SHA-256', bytes: toDer(raw), publicKey }
}

export async function verifySignature(
  pem: string,
  bytes: Uint8Array<ArrayBuffer>,
  signature: Uint8Array<ArrayBuffer>,
): Promise<{ fits: boolean; algorithm: string; fingerprint: string }> {
  const spki = readPem(pem)
  const fingerprint = await digest('SHA-256', spki)
  // The key's own bytes say of which kind it is; one of neither kind throws.
  const edwards = await crypto.subtle.importKey('spki', spki, ED25519, true, ['verify']).catch(() => null)
  if (edwards !== null)
    return { fits: await crypto.subtle.verify(ED25519, edwards, signature, bytes), algorithm: 'Ed25519', fingerprint }
  const key = await crypto.subtle.importKey('spki', spki, P256, true, ['verify'])
  const fits = await crypto.subtle.verify(SIGN_P256, key, fromDer(signature), bytes)
  return { fits, algorithm: 'ECDSA P-256, SHA-256', fingerprint }
}

function writePem(bytes: Uint8Array): string {
  const base64 = btoa(String.fromCharCode(...bytes))
  return `-----BEGIN PUBLIC KEY-----\n${base64.replace(/.{1,64}/g, '$&\n')}-----END PUBLIC KEY-----\n`
}

function readPem(pem: string): Uint8Array<ArrayBuffer> {
  const body = /-----BEGIN PUBLIC KEY-----([\s\S]+?)-----END PUBLIC KEY-----/.exec(pem)?.[1]
  if (body === undefined) throw new Error('is no public key in PEM')
  return Uint8Array.from(atob(body.replace(/\s/g, '')), (sign) => sign.charCodeAt(0))
}

/** WebCrypto gives r and s of 32 bytes each side by side; OpenSSL wants a DER sequence of two integers (RFC 3279, 2.2.3). */
function toDer(raw: Uint8Array): Uint8Array<ArrayBuffer> {
  const integers = [raw.subarray(0, 32), raw.subarray(32)].flatMap((half) => {
    const digits = [...half.subarray(half.findIndex((byte) => byte !== 0))]
    if ((digits[0] ?? 0) >= 0x80) digits.unshift(0)
    return [0x02, digits.length, ...digits]
  })
  return new Uint8Array([0x30, integers.length, ...integers])
}

function fromDer(der: Uint8Array): Uint8Array<ArrayBuffer> {
  const raw = new Uint8Array(64)
  let at = 2
  if (der[0] !== 0x30 || der[1] !== der.length - 2) throw new Error('is no DER signature')
  for (const end of [32, 64]) {
    const length = der[at + 1] ?? 0
    const digits = der.subarray(at + 2, at + 2 + length)
    if (der[at] !== 0x02 || digits.length !== length) throw new Error('is no DER signature')
    const plain = digits.subarray(digits.findIndex((byte) => byte !== 0))
    if (plain.length > 32) throw new Error('is no signature of P-256')
    raw.set(plain, end - plain.length)
    at += 2 + length
  }
  return raw
}
