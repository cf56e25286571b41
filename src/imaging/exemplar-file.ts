/**
 * Exemplar files: a zip with `exemplar.json` and its pictures. Reading is capped, so that a small file cannot unfold into a
 * large one, and answers a fault in one sentence instead of half an exemplar.
 */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { type Exemplar, parseExemplar } from '../domain/exemplar.ts'

export interface ExemplarFile {
  readonly exemplar: Exemplar
  /** Bytes of each picture by its file name. */
  readonly pictures: ReadonlyMap<string, Uint8Array>
}

const DESCRIPTION = 'exemplar.json'
// Scans at 1200 dpi of a few sides stay far below. Ours, no source.
const LARGEST_UNPACKED_BYTES = 256 * 2 ** 20
const MOST_ENTRIES = 200

class Refused extends Error {}

export function readExemplarFile(bytes: Uint8Array): ExemplarFile | { fault: string } {
  let files: Record<string, Uint8Array>
  try {
    let unpacked = 0
    let entries = 0
    files = unzipSync(bytes, {
      filter: ({ originalSize }) => {
        unpacked += originalSize
        entries += 1
        if (entries > MOST_ENTRIES) throw new Refused(`it holds more than ${MOST_ENTRIES} files`)
        if (unpacked > LARGEST_UNPACKED_BYTES) throw new Refused('it unpacks to more than 256 MB')
        return true
      },
    })
  } catch (error) {
    return { fault: error instanceof Refused ? error.message : 'it is no zip file, or a damaged one' }
  }
  const description = files[DESCRIPTION]
  if (!description) return { fault: `it holds no ${DESCRIPTION}` }
  let raw: unknown
  try {
    raw = JSON.parse(strFromU8(description))
  } catch {
    return { fault: `its ${DESCRIPTION} is not JSON` }
  }
  const parsed = parseExemplar(raw)
  if ('fault' in parsed) return parsed
  const pictures = new Map<string, Uint8Array>()
  for (const { file } of parsed.exemplar.pictures) {
    const picture = files[file]
    if (!picture) return { fault: `the picture ${file} is missing` }
    pictures.set(file, picture)
  }
  return { exemplar: parsed.exemplar, pictures }
}

export function writeExemplarFile({ exemplar, pictures }: ExemplarFile): Uint8Array {
  const files: Record<string, [Uint8Array, { level: 0 | 6 }]> = {
    [DESCRIPTION]: [strToU8(JSON.stringify(exemplar, null, 2)), { level: 6 }],
  }
  // Pictures are compressed already.
  for (const [file, bytes] of pictures) files[file] = [bytes, { level: 0 }]
  return zipSync(files)
}
