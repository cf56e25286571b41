/**
 * The checklist of views: for each its status in word and shape, the reason, and the photos that show it. A photo is given
 * to a view by dragging it there or by the choice below it; the person's word wins. Without `onAssign` it only shows. Every
 * photo at hand opens enlarged.
 */
import { useState } from 'preact/hooks'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import type { Translate } from '../../domain/translate.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../../domain/views.ts'
import { PhotoViewer } from '../parts/PhotoViewer.tsx'
import { Icon, StatusShape } from '../parts/shapes.tsx'
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
  /** `false` where the photos are shown elsewhere on the same screen. */
  readonly tray?: boolean
}

/** A photo with its place among all of the listing, by which people call it. */
interface NumberedPhoto extends ShownPhoto {
  readonly number: number
}

type Enlarge = (photo: NumberedPhoto) => void

const DRAG_TYPE = 'application/x-touchstone-photo'

/** What a photo shows as far as anybody said: the person first, then the examination. */
function shownBy(photo: ShownPhoto): ViewId | 'other' | null {
  if (photo.assigned !== null) return photo.assigned
  const view = photo.facts?.view
  return view === undefined || view === 'cannot-tell' ? null : view
}

/** The view that the words beside a photo give it, where nobody and nothing said more. */
function namedBy(photo: ShownPhoto, views: readonly ViewFinding[]): ViewId | null {
  return views.find((finding) => finding.status === 'shown' && finding.photo === photo.url)?.view ?? null
}

export function Views({ views, photos: all, requested, onAssign, tray = true }: ViewsProps) {
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
      {tray && photos.length > 0 && <PhotoTray photos={photos} views={views} onAssign={onAssign} onEnlarge={enlarge} />}
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

function sayFoundView(photo: ShownPhoto, views: readonly ViewFinding[], t: Translate): string {
  const { view = 'cannot-tell' } = photo.facts ?? {}
  const named = namedBy(photo, views)
  if (view !== 'cannot-tell' || named === null || photo.assigned !== null) {
    return t('photo.by-examination', { view: t(`view.${view}`) })
  }
  return t('photo.by-words', { view: t(`view.${named}`) })
}

function PhotoTray({
  photos,
  views,
  onAssign,
  onEnlarge,
}: {
  photos: readonly NumberedPhoto[]
  views: readonly ViewFinding[]
  onAssign?: ViewsProps['onAssign']
  onEnlarge: Enlarge
}) {
  const { t } = useWording()
  const asked = views.map(({ view }) => view)
  const others = VIEW_IDS.filter((view) => !asked.includes(view))
  return (
    <details
      class="photo-tray"
      open={photos.some(
        (photo) => photo.thumbnail !== null && shownBy(photo) === null && namedBy(photo, views) === null,
      )}
    >
      <summary>{t('photos.tray', { count: photos.length })}</summary>
      {onAssign && <p class="hint">{t('photos.tray.hint')}</p>}
      <ul>
        {photos.map((photo) => (
          <li key={photo.url}>
            {photo.thumbnail === null ? (
              <span class="photo-unseen">{t('photo.unseen')}</span>
            ) : (
              // Beside the button, not in it: Firefox drags nothing out of a button.
              <div class="tray-photo">
                {/* biome-ignore lint/a11y/useKeyWithClickEvents: the button beside it does the same by keyboard */}
                <img
                  src={photo.thumbnail}
                  alt={altOf(photo, t)}
                  draggable={onAssign !== undefined}
                  onDragStart={(event) => event.dataTransfer?.setData(DRAG_TYPE, photo.url)}
                  onClick={() => onEnlarge(photo)}
                />
                <button
                  type="button"
                  class="icon-button on-stone"
                  aria-label={t('photo.enlarge', { number: photo.number })}
                  title={t('photo.enlarge', { number: photo.number })}
                  onClick={() => onEnlarge(photo)}
                >
                  <Icon name="enlarge" />
                </button>
              </div>
            )}
            {onAssign ? (
              <select
                aria-label={t('photo.shows', { number: photo.number })}
                value={photo.assigned ?? ''}
                onChange={(event) => {
                  const { value } = event.currentTarget
                  onAssign(photo.url, value === '' ? null : (value as ViewId | 'other'))
                }}
              >
                <option value="">{sayFoundView(photo, views, t)}</option>
                {[...asked, ...others, 'other' as const].map((view) => (
                  <option key={view} value={view}>
                    {t(`view.${view}`)}
                  </option>
                ))}
              </select>
            ) : (
              <span class="photo-view">{t(`view.${shownBy(photo) ?? namedBy(photo, views) ?? 'cannot-tell'}`)}</span>
            )}
            <PhotoNotes photo={photo} />
          </li>
        ))}
      </ul>
    </details>
  )
}

/** What the examination measured, in a few words. */
export function PhotoNotes({ photo: { facts } }: { photo: Pick<ShownPhoto, 'facts'> }) {
  const { t, number } = useWording()
  if (facts === null) return null
  const label =
    facts.label === null
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
