/**
 * Fetches one photo of a listing, at the buyer's click or on a site that they switched on. Without cookies, without a
 * referrer, capped in size and time. A redirect is followed where the buyer's permission reaches, and reported.
 */

export type PhotoFetch =
  | {
      readonly ok: true
      readonly bytes: Uint8Array<ArrayBuffer>
      readonly mediaType: string | null
      /** Where the bytes came from, when a redirect led there. */
      readonly redirectedTo: string | null
    }
  | {
      readonly ok: false
      readonly fault: 'bad-address' | 'unreachable' | 'refused' | 'too-large' | 'time-out' | 'aborted'
      readonly detail: string
    }

export interface FetchPhotoOptions {
  readonly signal?: AbortSignal
  /** Bytes; absent: `LARGEST_PHOTO_BYTES`. */
  readonly largest?: number
  /** Milliseconds; absent: `TIMEOUT_MS`. */
  readonly timeoutMs?: number
  readonly fetch?: typeof fetch
}

/** 40 MB: above what a 100-megapixel camera's JPEG takes, and below what would fill a browser's memory. Ours, no source. */
const LARGEST_PHOTO_BYTES = 40_000_000
/** A photo of 5 MB at 2 Mbit/s takes 20 s. Ours, no source. */
const TIMEOUT_MS = 30_000

const failed = (fault: Extract<PhotoFetch, { ok: false }>['fault'], detail: string): PhotoFetch => ({
  ok: false,
  fault,
  detail,
})

export async function fetchPhoto(url: string, options: FetchPhotoOptions = {}): Promise<PhotoFetch> {
  const { largest = LARGEST_PHOTO_BYTES, timeoutMs = TIMEOUT_MS, fetch: send = fetch } = options
  const address = URL.canParse(url) ? new URL(url) : null
  if (address === null || !/^https?:$/.test(address.protocol)) return failed('bad-address', url)
  const timeUp = AbortSignal.timeout(timeoutMs)
  const signal = options.signal ? AbortSignal.any([options.signal, timeUp]) : timeUp
  try {
    const response = await send(address.href, {
      signal,
      credentials: 'omit',
      referrerPolicy: 'no-referrer',
      headers: { accept: 'image/*' },
    })
    if (!response.ok) {
      await response.body?.cancel()
      return failed('refused', String(response.status))
    }
    const bytes = await readCapped(response, largest)
    if (bytes === null) return failed('too-large', String(largest))
    const mediaType = response.headers.get('content-type')?.split(';')[0]?.trim().toLowerCase() || null
    return { ok: true, bytes, mediaType, redirectedTo: response.redirected ? response.url : null }
  } catch (error) {
    if (options.signal?.aborted) return failed('aborted', url)
    if (timeUp.aborted) return failed('time-out', String(timeoutMs))
    return failed('unreachable', error instanceof Error ? error.message : String(error))
  }
}

/** `null` as soon as more than `largest` bytes came, whatever length was announced. */
async function readCapped(response: Response, largest: number): Promise<Uint8Array<ArrayBuffer> | null> {
  if (Number(response.headers.get('content-length') ?? 0) > largest) {
    await response.body?.cancel()
    return null
  }
  const reader = response.body?.getReader()
  if (!reader) return new Uint8Array(0)
  const chunks: Uint8Array[] = []
  let size = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) break
    size += value.byteLength
    if (size > largest) {
      await reader.cancel()
      return null
    }
    chunks.push(value)
  }
  const bytes = new Uint8Array(size)
  let at = 0
  for (const chunk of chunks) {
    bytes.set(chunk, at)
    at += chunk.byteLength
  }
  return bytes
}
