/**
 * The photos of a listing, by the view that each shows, with what was read on their labels, how far the examination is with each, and
 * where each was seen before. A photo is moved to another view by dragging it or by the choice below it; the person's word wins.
 */
import { useState } from 'preact/hooks'
import type { Translate } from '../../domain/translate.ts'
import { VIEW_IDS, type ViewFinding, type ViewId, type ViewStatus } from '../../domain/views.ts'
import { DRAG_TYPE, namedBy, PhotoNotes, shownBy } from '../inspection/Views.tsx'
import { PhotoViewer } from '../parts/PhotoViewer.tsx'
import { Icon, StatusShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { PhotoCorners } from './PhotoCorners.tsx'
import { PhotoIntake } from './PhotoIntake.tsx'
import { PhotoLabelRead } from './PhotoLabelRead.tsx'
import { PhotoSeen } from './PhotoSeen.tsx'
import type { PanelModel } from './panel-model.ts'
import type { ListingState, PanelPhoto } from './panel-state.ts'

type Shown = ViewId | 'other' | 'cannot-tell'
type Assign = (photoUrl: string, view: ViewId | 'other' | null) => void

/** A photo with its place among all, by which people call it. */
interface Numbered extends PanelPhoto {
  readonly number: number
}

interface PhotoGroupsProps {
  readonly model: PanelModel
  readonly state: ListingState
  /** Absent while no photo is at hand. */
  readonly onAssign?: Assign
}

export function PhotoGroups({ model, state, onAssign }: PhotoGroupsProps) {
  const { t } = useWording()
  const { views } = state.inspection
  const [enlarged, setEnlarged] = useState<number | null>(null)
  // Once open, it stays open until the person closes it: nothing that was being read may fold away.
  const [opened, setOpened] = useState<boolean | null>(null)
  const [outlined, setOutlined] = useState<string | null>(null)
  const photos = state.photos.map((photo, index): Numbered => ({ ...photo, number: index + 1 }))
  const seen = photos.filter(({ thumbnail }) => thumbnail !== null)
  const groups = groupByView(photos, views)
  const wanting = state.photoProgress !== null || groups.some(({ view }) => view === 'cannot-tell')
  const framed = photos.find(({ url }) => url === outlined)
  const { actions, ports } = model
  const handlers = {
    onAssign,
    onEnlarge: ({ url }: Numbered) => setEnlarged(seen.findIndex((photo) => photo.url === url)),
    onOutline: ({ url }: Numbered) => setOutlined(url),
    onRemove: ({ url }: Numbered) =>
      actions.run('remove-photo', async () => {
        await ports.removePhoto(url)
        actions.say(t('photo.removed'), () => actions.run('add-photos', () => ports.restorePhoto(url)))
      }),
  }
  return (
    <section class="photo-groups" aria-label={t('photos.tray', { count: photos.length })}>
      <details open={opened ?? wanting} onToggle={(event) => setOpened(event.currentTarget.open)}>
        <summary>{t('photos.tray', { count: photos.length })}</summary>
        {onAssign && <p class="hint">{t('photos.tray.hint')}</p>}
        {groups.map((group) => (
          <Group key={group.view} group={group} views={views} {...handlers} />
        ))}
        <PhotoIntake model={model} />
      </details>
      <PhotoSeen model={model} photos={state.photos} />
      {enlarged !== null && (
        <PhotoViewer
          photos={seen.map((photo) => ({ src: photo.thumbnail!, alt: nameOf(photo, t) }))}
          index={enlarged}
          onMove={setEnlarged}
          onClose={() => setEnlarged(null)}
        />
      )}
      {framed?.thumbnail && framed.facts && (
        <PhotoCorners
          src={framed.thumbnail}
          facts={framed.facts}
          byHand={framed.cornersByHand ?? false}
          onSet={(corners) =>
            actions.run(
              'corners',
              () => ports.setCorners(framed.url, corners),
              t(corners ? 'corners.done' : 'corners.given-back'),
            )
          }
          onClose={() => setOutlined(null)}
        />
      )}
    </section>
  )
}

interface PhotoGroup {
  readonly view: Shown
  readonly status: ViewStatus
  readonly photos: readonly Numbered[]
}

/** In the order of the checklist; what is not told comes last, where it waits for a word. */
function groupByView(photos: readonly Numbered[], views: readonly ViewFinding[]): PhotoGroup[] {
  const groups = new Map<Shown, Numbered[]>()
  for (const photo of photos) {
    const view = shownBy(photo) ?? namedBy(photo, views) ?? 'cannot-tell'
    groups.set(view, [...(groups.get(view) ?? []), photo])
  }
  const order: Shown[] = [...views.map(({ view }) => view), ...VIEW_IDS, 'other', 'cannot-tell']
  const status = (view: Shown): ViewStatus =>
    view === 'cannot-tell' ? 'cannot-tell' : (views.find((finding) => finding.view === view)?.status ?? 'shown')
  return [...groups]
    .sort(([a], [b]) => order.indexOf(a) - order.indexOf(b))
    .map(([view, members]) => ({ view, status: status(view), photos: members }))
}

const nameOf = ({ alt, number }: Numbered, t: Translate) => alt || t('photo.number', { number })

interface Handlers {
  readonly onAssign?: Assign
  readonly onEnlarge: (photo: Numbered) => void
  readonly onOutline: (photo: Numbered) => void
  readonly onRemove: (photo: Numbered) => void
}

function Group({ group, views, ...handlers }: { group: PhotoGroup; views: readonly ViewFinding[] } & Handlers) {
  const { t } = useWording()
  const { onAssign } = handlers
  const [over, setOver] = useState(false)
  const target = group.view === 'cannot-tell' ? null : group.view
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the choice below each photo is the first
    <section
      class={`photo-group${over ? ' is-over' : ''}`}
      onDragOver={(event) => {
        if (!onAssign || !event.dataTransfer?.types.includes(DRAG_TYPE)) return
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        setOver(false)
        const url = event.dataTransfer?.getData(DRAG_TYPE)
        if (!onAssign || !url) return
        event.preventDefault()
        onAssign(url, target)
      }}
    >
      <h3>
        <StatusShape status={group.status} />
        {t(group.view === 'cannot-tell' ? 'photos.group.open' : `view.${group.view}`)}
        {group.view !== 'cannot-tell' && <span class="view-status">{t(`status.${group.status}`)}</span>}
      </h3>
      <ul>
        {group.photos.map((photo) => (
          <Photo key={photo.url} photo={photo} views={views} {...handlers} />
        ))}
      </ul>
    </section>
  )
}

function Photo({
  photo,
  views,
  onAssign,
  onEnlarge,
  onOutline,
  onRemove,
}: { photo: Numbered; views: readonly ViewFinding[] } & Handlers) {
  const { t } = useWording()
  const { number, step = 'none' } = photo
  const asked = views.map(({ view }) => view)
  const others = VIEW_IDS.filter((view) => !asked.includes(view))
  return (
    <li class="photo-card">
      {photo.thumbnail === null ? (
        <span class="photo-unseen">{t(step === 'none' ? 'photo.unseen' : `photo.step.${step}`)}</span>
      ) : (
        // Beside the buttons, not in one: Firefox drags nothing out of a button.
        <div class="tray-photo">
          {/* biome-ignore lint/a11y/useKeyWithClickEvents: the button beside it does the same by keyboard */}
          <img
            src={photo.thumbnail}
            alt={nameOf(photo, t)}
            loading="lazy"
            draggable={onAssign !== undefined}
            onDragStart={(event) => event.dataTransfer?.setData(DRAG_TYPE, photo.url)}
            onClick={() => onEnlarge(photo)}
          />
          <span class="photo-number" aria-hidden="true">
            {number}
          </span>
          {step !== 'none' && (
            <span class="photo-step">
              <span class={`step-shape is-${step}`} aria-hidden="true" />
              {t(`photo.step.${step}`)}
            </span>
          )}
          <span class="photo-tools">
            {photo.facts?.examined && (
              <ToolButton icon="point" label={t('photo.corners', { number })} onClick={() => onOutline(photo)} />
            )}
            {photo.added && (
              <ToolButton icon="remove" label={t('photo.remove', { number })} onClick={() => onRemove(photo)} />
            )}
            <ToolButton icon="enlarge" label={t('photo.enlarge', { number })} onClick={() => onEnlarge(photo)} />
          </span>
        </div>
      )}
      {onAssign ? (
        <select
          aria-label={t('photo.shows', { number })}
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
      <PhotoNotes photo={photo} withLabel={photo.thumbnail === null} />
      {photo.thumbnail !== null && photo.facts?.label && <PhotoLabelRead src={photo.thumbnail} facts={photo.facts} />}
    </li>
  )
}

function ToolButton({
  icon,
  label,
  onClick,
}: {
  icon: 'point' | 'remove' | 'enlarge'
  label: string
  onClick: () => void
}) {
  return (
    <button type="button" class="icon-button on-stone" aria-label={label} title={label} onClick={onClick}>
      <Icon name={icon} />
    </button>
  )
}

function sayFoundView(photo: Numbered, views: readonly ViewFinding[], t: Translate): string {
  const { view = 'cannot-tell' } = photo.facts ?? {}
  const named = namedBy(photo, views)
  if (view !== 'cannot-tell' || named === null || photo.assigned !== null) {
    return t('photo.by-examination', { view: t(`view.${view}`) })
  }
  return t('photo.by-words', { view: t(`view.${named}`) })
}
