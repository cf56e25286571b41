/** Hashes of whole files through WebCrypto, as lower-case hex. */
export async function digest(algorithm: 'SHA-256' | 'SHA-512', bytes: BufferSource): Promise<string> {
  const hash = await crypto.subtle.digest(algorithm, bytes)
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, '0')).join('')
}
