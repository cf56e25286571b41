/** A file by choice or by dropping it. One file at a time; more than one dropped: the first counts. */
import { useId } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { Icon } from './shapes.tsx'
import { useFileDrop } from './use-file-drop.ts'

interface FilePickProps {
  readonly label: string
  readonly accept: string
  readonly onFile: (file: File) => void
}

export function FilePick({ label, accept, onFile }: FilePickProps) {
  const { t } = useWording()
  const id = useId()
  const drop = useFileDrop(([file]) => file && onFile(file))
  return (
    <div class={`file-pick${drop.over ? ' is-over' : ''}`} {...drop.handlers}>
      <input
        id={id}
        class="for-readers"
        type="file"
        accept={accept}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0]
          event.currentTarget.value = ''
          if (file) onFile(file)
        }}
      />
      <label for={id} class="button">
        <Icon name="add" />
        {label}
      </label>
      <span class="hint">{t('file.drop')}</span>
    </div>
  )
}
