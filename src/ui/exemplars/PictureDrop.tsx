/** Pictures by choosing, dropping or pasting, several at once. Hands on what is a picture and says what is none. */
import { useEffect, useId, useRef, useState } from 'preact/hooks'
import { Icon } from '../parts/shapes.tsx'
import { useFileDrop } from '../parts/use-file-drop.ts'
import { useWording } from '../wording.ts'

interface PictureDropProps {
  readonly label: string
  readonly hint?: string
  readonly large?: boolean
  readonly onPictures: (pictures: readonly File[]) => void
}

export function PictureDrop({ label, hint, large = false, onPictures }: PictureDropProps) {
  const { t } = useWording()
  const id = useId()
  const drop = useFileDrop((files) => take.current([...files]))
  const [refused, setRefused] = useState(0)
  const take = useRef((_files: readonly File[]) => {})
  take.current = (files) => {
    const pictures = files.filter(({ type }) => type.startsWith('image/'))
    setRefused(files.length - pictures.length)
    if (pictures.length > 0) onPictures(pictures)
  }
  useEffect(() => {
    const paste = (event: ClipboardEvent) => {
      // What is pasted into a field is meant for the field.
      if ((event.target as Element | null)?.closest?.('input, textarea')) return
      const files = [...(event.clipboardData?.files ?? [])]
      if (files.length === 0) return
      event.preventDefault()
      take.current(files)
    }
    document.addEventListener('paste', paste)
    return () => document.removeEventListener('paste', paste)
  }, [])
  return (
    <div class={`file-pick picture-drop${drop.over ? ' is-over' : ''}${large ? ' is-large' : ''}`} {...drop.handlers}>
      <input
        id={id}
        class="for-readers"
        type="file"
        accept="image/*"
        multiple
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])]
          event.currentTarget.value = ''
          take.current(files)
        }}
      />
      <label for={id} class="button">
        <Icon name="add" />
        {label}
      </label>
      <span class="hint">{hint ?? t('picture.drop')}</span>
      {refused > 0 && (
        <p class="field-fault" role="alert">
          {t('picture.refused', { count: refused })}
        </p>
      )}
    </div>
  )
}
