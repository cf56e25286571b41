/** What came back: words, photos, and what the seller will not show. A refusal is noted as a refusal, not as a motive. */
import { useState } from 'preact/hooks'
import type { DossierState } from '../../domain/dossier/derive-state.ts'
import type { ViewId } from '../../domain/views.ts'
import { useDesk } from '../desk/desk-context.ts'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import type { Reply } from './dossier-ports.ts'
import { PhotoPick } from './PhotoPick.tsx'
import { PhotoProgress } from './PhotoProgress.tsx'
import { useCancellable } from './use-cancellable.ts'

const EMPTY: Reply = { words: '', photos: [], refused: [] }

interface ReplyFormProps {
  readonly id: string
  readonly state: DossierState
  readonly onDone: () => void
}

export function ReplyForm({ id, state, onDone }: ReplyFormProps) {
  const { t } = useWording()
  const { ports, refresh } = useDesk()
  const work = useCancellable()
  const [reply, setReply] = useState<Reply>(EMPTY)
  const set = (part: Partial<Reply>) => setReply({ ...reply, ...part })
  const toggle = (view: ViewId) =>
    set({
      refused: reply.refused.includes(view)
        ? reply.refused.filter((other) => other !== view)
        : [...reply.refused, view],
    })
  const nothing = reply.words.trim() === '' && reply.photos.length === 0 && reply.refused.length === 0

  async function save() {
    const done = await work.run(
      'reply',
      async (progress) => {
        await ports.life.addReply(id, reply, progress)
        refresh()
      },
      t('reply.done'),
    )
    if (done) onDone()
  }

  return (
    <form
      class="form reply-form"
      onSubmit={(event) => {
        event.preventDefault()
        void save()
      }}
    >
      <TextField label={t('reply.words')} value={reply.words} onChange={(words) => set({ words })} lines={4} />
      <PhotoPick label={t('reply.photos')} photos={reply.photos} onChange={(photos) => set({ photos })} />
      {state.openViews.length > 0 && (
        <fieldset>
          <legend>{t('reply.refused')}</legend>
          <p class="hint">{t('reply.refused.hint')}</p>
          {state.openViews.map((view) => (
            <label key={view} class="choice">
              <input type="checkbox" checked={reply.refused.includes(view)} onChange={() => toggle(view)} />
              {t(`view.${view}`)}
            </label>
          ))}
        </fieldset>
      )}
      <PhotoProgress work={work} />
      <div class="form-actions">
        <button type="submit" class="button primary" disabled={nothing || work.progress !== null}>
          {t('reply.save')}
        </button>
        <button type="button" class="button" onClick={onDone} disabled={work.progress !== null}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
