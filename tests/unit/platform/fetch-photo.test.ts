import { describe, expect, it } from 'vitest'
import { fetchPhoto } from '../../../src/platform/fetch-photo.ts'

const PHOTO = 'https://photos.example/1.jpg'

function answering(body: BodyInit | null, init: ResponseInit = {}, url = PHOTO, redirected = false): typeof fetch {
  return async () => {
    const response = new Response(body, init)
    Object.defineProperties(response, { url: { value: url }, redirected: { value: redirected } })
    return response
  }
}

const faultOf = (result: { ok: boolean; fault?: string }) => (result.ok ? null : result.fault)

describe('a photo', () => {
  it('comes with its bytes and media type, asked for without cookies or referrer', async () => {
    let asked: RequestInit | undefined
    const fetched = await fetchPhoto(PHOTO, {
      fetch: async (_url, init) => {
        asked = init
        return new Response(new Uint8Array([1, 2, 3]), { headers: { 'content-type': 'image/JPEG; charset=binary' } })
      },
    })
    expect(fetched).toMatchObject({ ok: true, mediaType: 'image/jpeg', redirectedTo: null })
    expect(fetched.ok && [...fetched.bytes]).toEqual([1, 2, 3])
    expect(asked).toMatchObject({ credentials: 'omit', referrerPolicy: 'no-referrer' })
  })

  it.each(['javascript:alert(1)', 'data:image/png;base64,AA', 'file:///etc/passwd', 'no address'])(
    'is not fetched from %s',
    async (url) => {
      expect(faultOf(await fetchPhoto(url, { fetch: answering('x') }))).toBe('bad-address')
    },
  )

  it('is let go when larger than allowed, announced or not', async () => {
    const large = new Uint8Array(2000)
    expect(faultOf(await fetchPhoto(PHOTO, { largest: 1000, fetch: answering(large) }))).toBe('too-large')
    const announced = answering(null, { headers: { 'content-length': '2000' } })
    expect(faultOf(await fetchPhoto(PHOTO, { largest: 1000, fetch: announced }))).toBe('too-large')
    const lying = answering(large, { headers: { 'content-length': '10' } })
    expect(faultOf(await fetchPhoto(PHOTO, { largest: 1000, fetch: lying }))).toBe('too-large')
  })

  it('says where a redirect led', async () => {
    const fetched = await fetchPhoto(PHOTO, { fetch: answering('x', {}, 'https://elsewhere.example/1.jpg', true) })
    expect(fetched).toMatchObject({ ok: true, redirectedTo: 'https://elsewhere.example/1.jpg' })
  })

  it('that the server refuses, or that cannot be reached, says which', async () => {
    expect(await fetchPhoto(PHOTO, { fetch: answering(null, { status: 404 }) })).toMatchObject({
      fault: 'refused',
      detail: '404',
    })
    const down: typeof fetch = async () => {
      throw new TypeError('Failed to fetch')
    }
    expect(await fetchPhoto(PHOTO, { fetch: down })).toMatchObject({ fault: 'unreachable', detail: 'Failed to fetch' })
  })

  it('is given up in time, and by its signal', async () => {
    const never: typeof fetch = (_url, init) =>
      new Promise((_resolve, reject) => {
        init?.signal?.addEventListener('abort', () => reject(init.signal?.reason))
      })
    expect(faultOf(await fetchPhoto(PHOTO, { fetch: never, timeoutMs: 10 }))).toBe('time-out')
    const stop = new AbortController()
    const fetched = fetchPhoto(PHOTO, { fetch: never, signal: stop.signal })
    stop.abort()
    expect(faultOf(await fetched)).toBe('aborted')
  })
})
