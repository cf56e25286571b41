/** `compare`: an exemplar file and questioned photos in, each point judged out. */

import { comparePhotos, type QuestionedPhoto } from '../../imaging/compare-photos.ts'
import { decodeInNode } from '../../imaging/decode-node.ts'
import { readExemplarFile } from '../../imaging/exemplar-file.ts'
import { type Corners, isConvex } from '../../imaging/homography.ts'
import { openPicture } from '../../imaging/open-picture.ts'
import type { Picture } from '../../imaging/placed-picture.ts'
import { comparePieces } from '../../imaging/same-piece/compare-pieces.ts'
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

async function openPhoto(path: string, corners: Corners | null): Promise<QuestionedPhoto> {
  const loaded = await openPicture(await readBytes(path, PHOTO_LIMIT_BYTES), { file: path, decode: decodeInNode })
  const picture = 'picture' in loaded ? loaded.picture : null
  return { file: path, picture, corners, problem: 'problem' in loaded ? loaded.problem : null }
}

export async function run(args: Arguments): Promise<Answer> {
  const [exemplarPath = '', ...photoPaths] = args.positionals
  const corners = parseCorners(args.text('corners'), photoPaths.length)
  const read = readExemplarFile(await readBytes(exemplarPath, EXEMPLAR_LIMIT_BYTES))
  if ('fault' in read) throw new BadInput(`${exemplarPath}: ${read.fault}.`)
  const pictures = new Map<string, Picture>()
  for (const [file, bytes] of read.pictures) {
    const loaded = await openPicture(bytes, { file, decode: decodeInNode })
    if ('problem' in loaded) throw new BadInput(`${exemplarPath}: ${file}: ${loaded.problem}.`)
    pictures.set(file, loaded.picture)
  }
  const photos: QuestionedPhoto[] = []
  for (const path of photoPaths) photos.push(await openPhoto(path, corners))
  const comparison = comparePhotos(read, pictures, photos)
  const earlierPath = args.text('earlier')
  if (earlierPath === null) return { json: comparison, text: comparisonText(read.exemplar, comparison, null) }
  const earlier = await openPhoto(earlierPath, null)
  const same = comparePieces(photos, [earlier], read.exemplar.nominalSize)
  return { json: { ...comparison, same }, text: comparisonText(read.exemplar, comparison, same) }
}
