/** The photos of a dossier as kept: each with what was measured on it and its hash, and enlarged at a click. */
import { useState } from 'preact/hooks'
import type { KeptPhoto } from '../../domain/dossier.ts'
import { PhotoNotes } from '../inspection/Views.tsx'
import { PhotoViewer } from '../parts/PhotoViewer.tsx'
import { useWording } from '../wording.ts'
import { type BlobUrls, Picture } from './BlobImage.tsx'
import { Hash } from './Hash.tsx'

export function KeptPhotos({ photos, urls }: { photos: readonly KeptPhoto[]; urls: BlobUrls }) {
  const { t } = useWording()
  const [enlarged, setEnlarged] = useState<number | null>(null)
  const shown = photos.map((photo, index) => ({
    ...photo,
    number: index + 1,
    alt: photo.alt ?? t('photo.number', { number: index + 1 }),
    src: photo.sha256 === null ? null : urls[photo.sha256],
  }))
  const seen = shown.flatMap(({ src, alt, number }) => (src ? [{ src, alt, number }] : []))
  return (
    <section>
      <h2>{t('dossier.photos')}</h2>
      {photos.length === 0 && <p class="quiet">{t('dossier.no-photos')}</p>}
      <ul class="kept-photos">
        {shown.map(({ url, alt, number, src, sha256, facts }) => (
          <li key={url}>
            {src ? (
              <button
                type="button"
                class="enlarge"
                aria-label={t('photo.enlarge', { number })}
                onClick={() => setEnlarged(seen.findIndex((photo) => photo.number === number))}
              >
                <img src={src} alt="" />
              </button>
            ) : (
              <Picture url={src} alt={alt} />
            )}
            <PhotoNotes photo={{ facts }} />
            <Hash sha256={sha256} />
          </li>
        ))}
      </ul>
      {enlarged !== null && (
        <PhotoViewer photos={seen} index={enlarged} onMove={setEnlarged} onClose={() => setEnlarged(null)} />
      )}
    </section>
  )
}
