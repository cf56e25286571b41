/** The rows of a CSV file as it streams from the disk, a batch at a time: no more of it is in memory than one piece. */
import Papa from 'papaparse'
import { DELIMITERS } from '../../domain/pricing/parse-sales-csv.ts'
import type { Working } from '../../ui/ledger/ledger-ports.ts'

/** Bytes read at a time. A thousand lines or so: cancel answers at once, and progress moves. */
const CHUNK_BYTES = 256 * 1024

/** What spreadsheets write where it is not Unicode. */
async function encodingOf(file: File): Promise<string> {
  const head = new Uint8Array(await file.slice(0, CHUNK_BYTES).arrayBuffer())
  try {
    // The last letter may be cut in two: `stream` does not mind.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true })
    return 'utf-8'
  } catch {
    return 'windows-1252'
  }
}

export async function* readCsvFile(file: File, { signal, onProgress }: Working): AsyncGenerator<string[][]> {
  const encoding = await encodingOf(file)
  const waiting: string[][][] = []
  let ended = false
  let failure: unknown = null
  let wake: () => void = () => {}
  let resume: () => void = () => {}
  // The published types mix up the file and the text parser's callbacks.
  const parse = Papa.parse as unknown as (file: File, options: Record<string, unknown>) => void
  parse(file, {
    encoding,
    chunkSize: CHUNK_BYTES,
    delimitersToGuess: DELIMITERS,
    chunk(
      result: { data: string[][]; meta: { cursor: number } },
      parser: { pause(): void; resume(): void; abort(): void },
    ) {
      if (signal.aborted) return parser.abort()
      waiting.push(result.data)
      onProgress(Math.min(1, result.meta.cursor / Math.max(1, file.size)))
      parser.pause()
      resume = () => parser.resume()
      wake()
    },
    complete() {
      ended = true
      wake()
    },
    error(error: unknown) {
      failure = error
      wake()
    },
  })
  while (true) {
    signal.throwIfAborted()
    if (failure !== null) throw failure
    const rows = waiting.shift()
    if (rows !== undefined) {
      yield rows
      resume()
      continue
    }
    if (ended) return
    await new Promise<void>((resolve) => {
      wake = resolve
      signal.addEventListener('abort', () => resolve(), { once: true })
    })
  }
}

/** A sum of the file's content, by which it is known again. */
export function createContentSum(): { add(rows: readonly (readonly string[])[]): void; result(): string } {
  let low = 0x811c9dc5
  let high = 0x9747b28c
  let length = 0
  return {
    add(rows) {
      for (const row of rows) {
        for (const cell of row) {
          for (let i = 0; i < cell.length; i++) {
            const code = cell.charCodeAt(i)
            low = Math.imul(low ^ code, 0x01000193)
            high = Math.imul(high ^ code, 0x01000193)
          }
          low = Math.imul(low ^ 0x1f, 0x01000193)
          length += cell.length + 1
        }
        high = Math.imul(high ^ 0x1e, 0x01000193)
      }
    },
    result: () => `${(low >>> 0).toString(16)}-${(high >>> 0).toString(16)}-${length}`,
  }
}
