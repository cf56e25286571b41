/** Photos from elsewhere: chosen or dropped files, and frames of a video. What becomes of them is the context's business. */
import { useId, useState } from 'preact/hooks'
import { Icon } from '../parts/shapes.tsx'
import { useFileDrop } from '../parts/use-file-drop.ts'
import { useWording } from '../wording.ts'
import { VideoFrames } from './PhotoVideo.tsx'
import type { PanelModel } from './panel-model.ts'

const isVideo = (file: File) => file.type.startsWith('video/')

export function PhotoIntake({ model }: { model: PanelModel }) {
  const { t } = useWording()
  const { actions, ports } = model
  const id = useId()
  const [video, setVideo] = useState<File | null>(null)
  const add = (files: readonly File[]) =>
    actions.run('add-photos', async () => {
      const count = await ports.addPhotos(files)
      actions.say(count === 0 ? t('photos.add.known') : t('photos.add.done', { count }))
    })
  const take = (files: readonly File[]) => {
    const photos = files.filter((file) => !isVideo(file))
    if (photos.length > 0) add(photos)
    setVideo(files.find(isVideo) ?? null)
  }
  const drop = useFileDrop(take)
  return (
    <div class={`photo-intake${drop.over ? ' is-over' : ''}`} {...drop.handlers}>
      <input
        id={id}
        class="for-readers"
        type="file"
        multiple
        accept="image/*,video/*"
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])]
          event.currentTarget.value = ''
          take(files)
        }}
      />
      <label for={id} class="button small">
        <Icon name="add" />
        {t('photos.add')}
      </label>
      <span class="hint">{t('photos.add.hint')}</span>
      {video !== null && <VideoFrames video={video} onFrame={(frame) => add([frame])} onClose={() => setVideo(null)} />}
    </div>
  )
}
