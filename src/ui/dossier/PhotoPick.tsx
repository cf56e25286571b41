/** Photos from this machine: picked, dropped or pasted, each with the view that the person says it shows, or none. */
import { useEffect, useId, useMemo } from 'preact/hooks'
import { VIEW_IDS, type ViewId } from '../../domain/views.ts'
import { Icon } from '../parts/shapes.tsx'
import { useFileDrop } from '../parts/use-file-drop.ts'
import { useWording } from '../wording.ts'
import type { ReplyPhoto } from './dossier-ports.ts'

interface PhotoPickProps {
  readonly label: string
  readonly photos: readonly ReplyPhoto[]
  readonly onChange: (photos: readonly ReplyPhoto[]) => void
}

const picturesAmong = (files: Iterable<File>): File[] => [...files].filter(({ type }) => type.startsWith('image/'))

export function PhotoPick({ label, photos, onChange }: PhotoPickProps) {
  const { t } = useWording()
  const id = useId()
  const drop = useFileDrop((files) => add(files))
  const add = (files: Iterable<File>) =>
    onChange([...photos, ...picturesAmong(files).map((file) => ({ file, view: null }))])
  const change = (index: number, view: ReplyPhoto['view']) =>
    onChange(photos.map((photo, place) => (place === index ? { ...photo, view } : photo)))
  return (
    <div
      class={`photo-pick${drop.over ? ' is-over' : ''}`}
      {...drop.handlers}
      onPaste={(event) => {
        const files = picturesAmong(event.clipboardData?.files ?? [])
        if (files.length === 0) return
        event.preventDefault()
        add(files)
      }}
    >
      <input
        id={id}
        class="for-readers"
        type="file"
        accept="image/*"
        multiple
        onChange={(event) => {
          add(event.currentTarget.files ?? [])
          event.currentTarget.value = ''
        }}
      />
      <p class="photo-pick-line">
        <label for={id} class="button">
          <Icon name="add" />
          {label}
        </label>
        <span class="hint">{t('reply.photos.hint')}</span>
      </p>
      {photos.length > 0 && (
        <ul class="picked-photos">
          {photos.map((photo, index) => (
            <PickedPhoto
              key={`${photo.file.name}${photo.file.size}${index}`}
              photo={photo}
              onView={(view) => change(index, view)}
              onRemove={() => onChange(photos.filter((_, place) => place !== index))}
            />
          ))}
        </ul>
      )}
    </div>
  )
}

interface PickedPhotoProps {
  readonly photo: ReplyPhoto
  readonly onView: (view: ReplyPhoto['view']) => void
  readonly onRemove: () => void
}

function PickedPhoto({ photo: { file, view }, onView, onRemove }: PickedPhotoProps) {
  const { t } = useWording()
  const address = useMemo(() => URL.createObjectURL(file), [file])
  useEffect(() => () => URL.revokeObjectURL(address), [address])
  return (
    <li>
      <img src={address} alt={file.name} />
      <select
        aria-label={t('reply.photo.view', { name: file.name })}
        value={view ?? ''}
        onChange={({ currentTarget: { value } }) => onView(value === '' ? null : (value as ViewId | 'other'))}
      >
        <option value="">{t('reply.photo.look')}</option>
        {VIEW_IDS.map((known) => (
          <option key={known} value={known}>
            {t(`view.${known}`)}
          </option>
        ))}
        <option value="other">{t('view.other')}</option>
      </select>
      <button type="button" class="link-button" onClick={onRemove}>
        {t('reply.photo.leave-out')}
      </button>
    </li>
  )
}
