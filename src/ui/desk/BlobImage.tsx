/** A kept picture by its hash, and a way to see it whole. The object URL is given back when the picture leaves the screen. */
import { useEffect, useState } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'

/** `undefined` while it is fetched, `null` where the bytes are gone. */
export function useBlobUrl(sha256: string | null): string | null | undefined {
  const { ports } = useDesk()
  const [url, setUrl] = useState<string | null | undefined>(sha256 === null ? null : undefined)
  useEffect(() => {
    if (sha256 === null) {
      setUrl(null)
      return
    }
    let left = false
    let made: string | null = null
    ports.openBlob(sha256).then(
      (blob) => {
        if (left) return
        made = blob === null ? null : URL.createObjectURL(blob)
        setUrl(made)
      },
      () => {
        if (!left) setUrl(null)
      },
    )
    return () => {
      left = true
      if (made !== null) URL.revokeObjectURL(made)
    }
  }, [sha256, ports])
  return url
}

export function BlobImage({ sha256, alt }: { sha256: string | null; alt: string }) {
  const { t } = useWording()
  const url = useBlobUrl(sha256)
  if (url === undefined) return <span class="picture-space" />
  if (url === null) return <span class="picture-space picture-gone">{alt === '' ? '' : t('picture.gone')}</span>
  return <img src={url} alt={alt} />
}
