/**
 * The checklist of views: for each its status in word and shape, the reason, and the photos that show it. A photo is given
 * to a view by dragging it there or by the choice below it; the person's word wins. Without `onAssign` it only shows.
 */
import { useState } from 'preact/hooks'
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../../domain/views.ts'
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

const DRAG_TYPE = 'application/x-touchstone-photo'

/** What a photo shows as far as anybody said: the person first, then the examination. */
function shownBy(photo: ShownPhoto): ViewId | 'other' | null {
  if (photo.assigned !== null) return photo.assigned
  const view = photo.facts?.view
  return view === undefined || view === 'cannot-tell' ? null : view
}

export function Views({ views, photos, requested, onAssign }: ViewsProps) {
  const { t } = useWording()
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
          />
        ))}
      </ul>
      {photos.length > 0 && <PhotoTray photos={photos} views={views} onAssign={onAssign} />}
    </section>
  )
}

function ViewRow({
  finding,
  requested,
  photos,
  onAssign,
}: {
  finding: ViewFinding
  requested: boolean
  photos: readonly ShownPhoto[]
  onAssign?: ViewsProps['onAssign']
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
            <img key={photo.url} src={photo.thumbnail!} alt={photo.alt ?? ''} loading="lazy" />
          ))}
        </div>
      )}
    </li>
  )
}

function PhotoTray({
  photos,
  views,
  onAssign,
}: {
  photos: readonly ShownPhoto[]
  views: readonly ViewFinding[]
  onAssign?: ViewsProps['onAssign']
}) {
  const { t } = useWording()
  const asked = views.map(({ view }) => view)
  const others = VIEW_IDS.filter((view) => !asked.includes(view))
  return (
    <details class="photo-tray" open={photos.some((photo) => photo.thumbnail !== null && shownBy(photo) === null)}>
      <summary>{t('photos.tray', { count: photos.length })}</summary>
      {onAssign && <p class="hint">{t('photos.tray.hint')}</p>}
      <ul>
        {photos.map((photo, index) => (
          <li key={photo.url}>
            {photo.thumbnail === null ? (
              <span class="photo-unseen">{t('photo.unseen')}</span>
            ) : (
              <img
                src={photo.thumbnail}
                alt={photo.alt ?? t('photo.number', { number: index + 1 })}
                draggable={onAssign !== undefined}
                onDragStart={(event) => event.dataTransfer?.setData(DRAG_TYPE, photo.url)}
              />
            )}
            {onAssign ? (
              <select
                aria-label={t('photo.shows', { number: index + 1 })}
                value={photo.assigned ?? ''}
                onChange={(event) => {
                  const { value } = event.currentTarget
                  onAssign(photo.url, value === '' ? null : (value as ViewId | 'other'))
                }}
              >
                <option value="">
                  {t('photo.by-examination', { view: t(`view.${photo.facts?.view ?? 'cannot-tell'}`) })}
                </option>
                {[...asked, ...others, 'other' as const].map((view) => (
                  <option key={view} value={view}>
                    {t(`view.${view}`)}
                  </option>
                ))}
              </select>
            ) : (
              <span class="photo-view">{t(`view.${shownBy(photo) ?? 'cannot-tell'}`)}</span>
            )}
            <PhotoNotes photo={photo} />
          </li>
        ))}
      </ul>
    </details>
  )
}

function PhotoNotes({ photo: { facts } }: { photo: ShownPhoto }) {
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
