/** `compare`: an exemplar file and questioned photos in, each point judged out. */

import { comparePhotos, type QuestionedPhoto } from '../../imaging/compare-photos.ts'
import { decodeInNode } from '../../imaging/decode-node.ts'
import { examinePhoto } from '../../imaging/examine-photo.ts'
import { readExemplarFile } from '../../imaging/exemplar-file.ts'
import { type Corners, isConvex } from '../../imaging/homography.ts'
import type { Pixels } from '../../imaging/pixels.ts'
import { createPicture, type Picture } from '../../imaging/placed-picture.ts'
import { BadInput } from '../bad-input.ts'
import type { Answer, Arguments } from '../command.ts'
import { readBytes } from '../read-file.ts'
import { comparisonText } from '../text/comparison-text.ts'

const EXEMPLAR_LIMIT_BYTES = 256 * 2 ** 20
const PHOTO_LIMIT_BYTES = 64 * 2 ** 20

/** `"x,y x,y x,y x,y"`, clockwise from the card's top left, pixels of the upright photo. */
function parseCorners(text: string | null, photos: number): Corners | null {
  if (text === null) return null
  if (photos !== 1) throw new BadInput('--corners goes with one photo.')
  const points = text
    .trim()
    .split(/\s+/)
    .map((pair) => pair.split(',').map(Number))
  const corners = points as unknown as Corners
  if (
    points.length !== 4 ||
    points.some((point) => point.length !== 2 || !point.every(Number.isFinite)) ||
    !isConvex(corners)
  ) {
    throw new BadInput(
      `--corners: "${text}" is no card; write four corners as "x,y x,y x,y x,y", clockwise from the top left.`,
    )
  }
  return corners
}

/** Through the same caps and refusals as any photo, keeping the pixels. */
async function loadPicture(file: string, bytes: Uint8Array): Promise<{ picture: Picture } | { problem: string }> {
  let pixels: Pixels | null = null
  const decode = async (data: Uint8Array) => {
    pixels = await decodeInNode(data)
    return pixels
  }
  const facts = await examinePhoto(bytes, { file, decode })
  if (!facts.examined || !pixels) return { problem: facts.problems[0]?.detail ?? 'the photo could not be looked at' }
  return { picture: createPicture(pixels, facts.jpegQuality) }
}

export async function run(args: Arguments): Promise<Answer> {
  const [exemplarPath = '', ...photoPaths] = args.positionals
  const corners = parseCorners(args.text('corners'), photoPaths.length)
  const read = readExemplarFile(await readBytes(exemplarPath, EXEMPLAR_LIMIT_BYTES))
  if ('fault' in read) throw new BadInput(`${exemplarPath}: ${read.fault}.`)
  const pictures = new Map<string, Picture>()
  for (const [file, bytes] of read.pictures) {
    const loaded = await loadPicture(file, bytes)
    if ('problem' in loaded) throw new BadInput(`${exemplarPath}: ${file}: ${loaded.problem}.`)
    pictures.set(file, loaded.picture)
  }
  const photos: QuestionedPhoto[] = []
  for (const path of photoPaths) {
    const loaded = await loadPicture(path, await readBytes(path, PHOTO_LIMIT_BYTES))
    const picture = 'picture' in loaded ? loaded.picture : null
    photos.push({ file: path, picture, corners, problem: 'problem' in loaded ? loaded.problem : null })
  }
  const comparison = comparePhotos(read, pictures, photos)
  return { json: comparison, text: comparisonText(read.exemplar, comparison) }
}
