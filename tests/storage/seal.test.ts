import { createDecipheriv, pbkdf2Sync } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { BackupFault } from '../../src/storage/faults.ts'
import { createSealer, isSealed, unseal } from '../../src/storage/seal.ts'

const MIB = 2 ** 20
const noise = (size: number) => Uint8Array.from({ length: size }, (_, at) => (at * 31 + (at >> 8)) & 255)

async function seal(content: Uint8Array, passphrase: string, piece = 300_000): Promise<Blob> {
  const chunks: Uint8Array<ArrayBuffer>[] = []
  const sealer = await createSealer(passphrase, (chunk) => void chunks.push(chunk as Uint8Array<ArrayBuffer>))
  for (let at = 0; at < content.length; at += piece) await sealer.write(content.subarray(at, at + piece))
  await sealer.finish()
  return new Blob(chunks)
}
const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer())

describe('a file closed with a passphrase', () => {
  it.each([0, MIB, MIB + 1, 2 * MIB + 5])('of %d bytes opens to the same', async (size) => {
    const sealed = await seal(noise(size), 'mire beetle')
    expect(await isSealed(sealed)).toBe(true)
    expect(Buffer.from(await bytesOf(await unseal(sealed, 'mire beetle'))).equals(noise(size))).toBe(true)
  })

  // Node's own PBKDF2 and AES (OpenSSL) open what WebCrypto closed: the layout is what the header says.
  it('opens with another program by its description', async () => {
    const sealed = Buffer.from(await bytesOf(await seal(noise(1000), 'Möwe')))
    expect(sealed.subarray(0, 20).toString()).toBe('touchstone-sealed-1\n')
    const key = pbkdf2Sync('Möwe', sealed.subarray(24, 40), sealed.readUInt32BE(20), 32, 'sha256')
    expect(sealed.readUInt32BE(20)).toBeGreaterThanOrEqual(600_000)
    const nonce = Buffer.concat([sealed.subarray(40, 47), Buffer.from([0, 0, 0, 0, 1])])
    const opener = createDecipheriv('aes-256-gcm', key, nonce)
    opener.setAAD(sealed.subarray(0, 47))
    opener.setAuthTag(sealed.subarray(-16))
    expect(Buffer.concat([opener.update(sealed.subarray(47, -16)), opener.final()]).equals(noise(1000))).toBe(true)
  })

  it('takes the same passphrase in another Unicode form, and no other', async () => {
    const sealed = await seal(noise(10), 'M\u00f6we')
    expect((await unseal(sealed, 'Mo\u0308we')).size).toBe(10)
    await expect(unseal(sealed, 'Mowe')).rejects.toBeInstanceOf(BackupFault)
  })

  it('does not open once a byte was changed, a chunk moved or the end cut off', async () => {
    const whole = await bytesOf(await seal(noise(2 * MIB + 100), 'x'))
    const step = MIB + 16
    const swapped = whole.slice()
    swapped.set(whole.subarray(47 + step, 47 + 2 * step), 47)
    swapped.set(whole.subarray(47, 47 + step), 47 + step)
    for (const bad of [swapped, whole.slice(0, 47 + step), whole.slice(0, 47 + 2 * step), whole.slice(0, 30)])
      await expect(unseal(new Blob([bad]), 'x')).rejects.toBeInstanceOf(BackupFault)
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), async (at) => {
        // Another number of iterations takes minutes to refuse; it changes the key all the same.
        if (at >= 20 && at < 24) return
        const bad = whole.slice()
        bad[at]! ^= 1
        await expect(unseal(new Blob([bad]), 'x')).rejects.toBeInstanceOf(BackupFault)
      }),
      { numRuns: 4 },
    )
  })

  it('that is none is known as none', async () => expect(await isSealed(new Blob(['PK']))).toBe(false))
})
