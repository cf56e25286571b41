/** A file by choice or by dropping it. One file at a time; more than one dropped: the first counts. */
import { useId, useState } from 'preact/hooks'
import { useWording } from '../wording.ts'
import { Icon } from './shapes.tsx'

interface FilePickProps {
  readonly label: string
  readonly accept: string
  readonly onFile: (file: File) => void
}

export function FilePick({ label, accept, onFile }: FilePickProps) {
  const { t } = useWording()
  const id = useId()
  const [over, setOver] = useState(false)
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the field inside is the first
    <div
      class={`file-pick${over ? ' is-over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        const file = event.dataTransfer?.files[0]
        if (file) onFile(file)
      }}
    >
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
