/** The buyer's own pictures of a genuine holder and label of one grader, to hold others against. */
import type { GraderPicture } from '../../domain/grader-book.ts'
import { FilePick } from '../parts/FilePick.tsx'
import type { PicturesProps } from '../parts/GraderForm.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { Picture, useBlobUrls } from './BlobImage.tsx'
import { useDesk } from './desk-context.ts'

const KINDS: readonly GraderPicture['of'][] = ['holder', 'label']

export function GraderPictures({ pictures, onChange }: PicturesProps) {
  const { t } = useWording()
  const { actions, ports } = useDesk()
  const keep = (of: GraderPicture['of'], file: File) =>
    actions.run('keep-picture', async () => {
      const { sha256 } = await ports.keepPicture(file)
      onChange([...pictures.filter((one) => one.sha256 !== sha256), { of, sha256 }])
    })
  return (
    <fieldset class="choices">
      <legend>{t('grader.pictures')}</legend>
      <p class="hint">{t('grader.pictures.hint')}</p>
      <PictureRow
        pictures={pictures}
        onRemove={(gone) => onChange(pictures.filter(({ sha256 }) => sha256 !== gone.sha256))}
      />
      {KINDS.map((of) => (
        <FilePick
          key={of}
          label={t(`grader.picture.add-${of}`)}
          accept="image/jpeg,image/png,image/webp"
          onFile={(file) => keep(of, file)}
        />
      ))}
    </fieldset>
  )
}

export function PictureRow({
  pictures,
  onRemove,
}: {
  pictures: readonly GraderPicture[]
  onRemove?: (picture: GraderPicture) => void
}) {
  const { t } = useWording()
  const urls = useBlobUrls(pictures.map(({ sha256 }) => sha256))
  if (pictures.length === 0) return null
  return (
    <div class="grader-pictures">
      {pictures.map((picture, at) => {
        const of = t(`grader.picture.${picture.of}`)
        return (
          <figure key={picture.sha256}>
            <Picture url={urls[picture.sha256]} alt={t('grader.picture.alt', { number: at + 1, of })} />
            <figcaption>
              {of}
              {onRemove && (
                <button
                  type="button"
                  class="icon-button"
                  aria-label={t('grader.picture.remove', { number: at + 1 })}
                  onClick={() => onRemove(picture)}
                >
                  <Icon name="remove" />
                </button>
              )}
            </figcaption>
          </figure>
        )
      })}
    </div>
  )
}
