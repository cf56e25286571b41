/** Kept pictures by their hash. An object URL is given back when its picture leaves the screen. */
import { useEffect, useState } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'

/** By hash: `undefined` while it is fetched, `null` where the bytes are gone. */
export type BlobUrls = Readonly<Record<string, string | null | undefined>>

export function useBlobUrls(hashes: readonly string[]): BlobUrls {
  const { ports } = useDesk()
  const [urls, setUrls] = useState<BlobUrls>({})
  useEffect(() => {
    let left = false
    const made: string[] = []
    const put = (sha256: string, blob: Blob | null) => {
      if (left) return
      const url = blob === null ? null : URL.createObjectURL(blob)
      if (url !== null) made.push(url)
      setUrls((before) => ({ ...before, [sha256]: url }))
    }
    for (const sha256 of new Set(hashes)) {
      ports.openBlob(sha256).then(
        (blob) => put(sha256, blob),
        () => put(sha256, null),
      )
    }
    return () => {
      left = true
      for (const url of made) URL.revokeObjectURL(url)
      setUrls({})
    }
  }, [hashes.join(' '), ports])
  return urls
}

/** `undefined` while it is fetched, `null` where there are no bytes. */
export function useBlobUrl(sha256: string | null): string | null | undefined {
  const urls = useBlobUrls(sha256 === null ? [] : [sha256])
  return sha256 === null ? null : urls[sha256]
}

export function BlobImage({ sha256, alt }: { sha256: string | null; alt: string }) {
  return <Picture url={useBlobUrl(sha256)} alt={alt} />
}

export function Picture({ url, alt }: { url: string | null | undefined; alt: string }) {
  const { t } = useWording()
  if (url === undefined) return <span class="picture-space" />
  if (url === null) return <span class="picture-space picture-gone">{alt === '' ? '' : t('picture.gone')}</span>
  return <img src={url} alt={alt} />
}
