/**
 * A file's bytes as a picture that can be compared: through the same caps and refusals as any photo, keeping the pixels.
 * Opens one picture; which card is in it is found elsewhere.
 */
import { examinePhoto } from './examine-photo.ts'
import type { Decode, Pixels } from './pixels.ts'
import { createPicture, type Picture } from './placed-picture.ts'

/** `problem` says in words why there is no picture. */
export async function openPicture(
  bytes: Uint8Array,
  options: { readonly file: string; readonly decode: Decode },
): Promise<{ picture: Picture } | { problem: string }> {
  let pixels: Pixels | null = null
  const decode: Decode = async (data, mediaType) => {
    pixels = await options.decode(data, mediaType)
    return pixels
  }
  const facts = await examinePhoto(bytes, { file: options.file, decode })
  if (!facts.examined || pixels === null)
    return { problem: facts.problems[0]?.detail ?? 'the photo could not be looked at' }
  return { picture: createPicture(pixels, facts.jpegQuality) }
}
