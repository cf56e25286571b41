/**
 * The checklist of views: for each its status in word and shape, the reason, and the photos that show it. A photo is given
 * to a view by dragging it there; the person's word wins. Without `onAssign` it only shows. Every photo at hand opens enlarged.
 */
import { useState } from 'preact/hooks'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import type { Translate } from '../../domain/translate.ts'
import type { ViewFinding, ViewId } from '../../domain/views.ts'
import { PhotoViewer } from '../parts/PhotoViewer.tsx'
import { StatusShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

export interface ShownPhoto {
  /** As the view findings name it. */
  readonly url: string
  readonly alt: string | null
  readonly thumbnail: string | null
  readonly facts: PhotoFacts | null
  readonly assigned: ViewId | 'other' | null
}

interface ViewsProps {
  readonly views: readonly ViewFinding[]
  readonly photos: readonly ShownPhoto[]
  /** Views that the message asks for. */
  readonly requested: readonly ViewId[]
  readonly onAssign?: (photoUrl: string, view: ViewId | 'other' | null) => void
}

/** A photo with its place among all of the listing, by which people call it. */
interface NumberedPhoto extends ShownPhoto {
  readonly number: number
}

type Enlarge = (photo: NumberedPhoto) => void

export const DRAG_TYPE = 'application/x-touchstone-photo'

/** What a photo shows as far as anybody said: the person first, then the examination. */
export function shownBy(photo: Pick<ShownPhoto, 'assigned' | 'facts'>): ViewId | 'other' | null {
  if (photo.assigned !== null) return photo.assigned
  const view = photo.facts?.view
  return view === undefined || view === 'cannot-tell' ? null : view
}

/** The view that the words beside a photo give it, where nobody and nothing said more. */
export function namedBy(photo: Pick<ShownPhoto, 'url'>, views: readonly ViewFinding[]): ViewId | null {
  return views.find((finding) => finding.status === 'shown' && finding.photo === photo.url)?.view ?? null
}

export function Views({ views, photos: all, requested, onAssign }: ViewsProps) {
  const { t } = useWording()
  const [enlarged, setEnlarged] = useState<number | null>(null)
  const photos = all.map((photo, index): NumberedPhoto => ({ ...photo, number: index + 1 }))
  const seen = photos.flatMap((photo) => (photo.thumbnail === null ? [] : [{ ...photo, src: photo.thumbnail }]))
  const enlarge: Enlarge = ({ url }) => setEnlarged(seen.findIndex((photo) => photo.url === url))
  const shown = views.filter(({ status }) => status === 'shown').length
  return (
    <section class="views" aria-labelledby="views-heading">
      <h2 id="views-heading">
        {t('views.heading')} <span class="count">{t('views.shown', { shown, total: views.length })}</span>
      </h2>
      <ul class="view-list">
        {views.map((finding) => (
          <ViewRow
            key={finding.view}
            finding={finding}
            requested={requested.includes(finding.view)}
            photos={photos.filter((photo) => photo.url === finding.photo || shownBy(photo) === finding.view)}
            onAssign={onAssign}
            onEnlarge={enlarge}
          />
        ))}
      </ul>
      {enlarged !== null && (
        <PhotoViewer
          photos={seen.map((photo) => ({ src: photo.src, alt: altOf(photo, t) }))}
          index={enlarged}
          onMove={setEnlarged}
          onClose={() => setEnlarged(null)}
        />
      )}
    </section>
  )
}

function altOf({ alt, number }: NumberedPhoto, t: Translate): string {
  return alt ?? t('photo.number', { number })
}

function ViewRow({
  finding,
  requested,
  photos,
  onAssign,
  onEnlarge,
}: {
  finding: ViewFinding
  requested: boolean
  photos: readonly NumberedPhoto[]
  onAssign?: ViewsProps['onAssign']
  onEnlarge: Enlarge
}) {
  const { t } = useWording()
  const [over, setOver] = useState(false)
  const pictured = photos.filter(({ thumbnail }) => thumbnail !== null)
  const carriesPhoto = (event: DragEvent) => event.dataTransfer?.types.includes(DRAG_TYPE) ?? false
  return (
    <li
      class={`view-row${over ? ' is-over' : ''}`}
      onDragOver={(event) => {
        if (!onAssign || !carriesPhoto(event)) return
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        setOver(false)
        const url = event.dataTransfer?.getData(DRAG_TYPE)
        if (!onAssign || !url) return
        event.preventDefault()
        onAssign(url, finding.view)
      }}
    >
      <StatusShape status={finding.status} />
      <div class="view-words">
        <p class="view-name">
          {t(`view.${finding.view}`)} <span class="view-status">{t(`status.${finding.status}`)}</span>
          {requested && <span class="view-asked">{t('views.asked')}</span>}
        </p>
        {finding.reason !== '' && <p class="view-reason">{finding.reason}</p>}
      </div>
      {pictured.length > 0 && (
        <div class="view-photos">
          {pictured.slice(0, 3).map((photo) => (
            <button
              key={photo.url}
              type="button"
              class="enlarge"
              aria-label={t('photo.enlarge', { number: photo.number })}
              onClick={() => onEnlarge(photo)}
            >
              <img src={photo.thumbnail!} alt="" loading="lazy" />
            </button>
          ))}
        </div>
      )}
    </li>
  )
}

interface PhotoNotesProps {
  readonly photo: Pick<ShownPhoto, 'facts'>
  /** `false` where the label's words stand beside it. */
  readonly withLabel?: boolean
}

/** What the examination measured, in a few words. */
export function PhotoNotes({ photo: { facts }, withLabel = true }: PhotoNotesProps) {
  const { t, number } = useWording()
  if (facts === null) return null
  const label =
    facts.label === null || !withLabel
      ? ''
      : [facts.label.grader, facts.label.grade, facts.label.certificate].filter(Boolean).join(' · ')
  return (
    <p class="photo-notes">
      {facts.width !== null && facts.height !== null && (
        <span>{t('photo.size', { width: facts.width, height: facts.height })}</span>
      )}
      {facts.pxPerMm !== null && (
        <span>{t('photo.scale', { scale: number(facts.pxPerMm, { maximumFractionDigits: 1 }) })}</span>
      )}
      {label !== '' && <span>{t('photo.label', { label })}</span>}
      {facts.problems.map(({ problem }) => (
        <span key={problem}>{t(`problem.${problem}`)}</span>
      ))}
    </p>
  )
}
