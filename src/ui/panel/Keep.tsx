/** Keeping the listing, with notes, and what is kept already. */
import { TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { ListingState } from './panel-state.ts'

export function Keep({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t, dateTime } = useWording()
  const { actions, ports, draftNotes } = model
  const { kept } = state
  const notes = draftNotes.value
  const busy = actions.busy.value
  return (
    <section class="keep" aria-labelledby="keep-heading">
      <h2 id="keep-heading">{t('keep.heading')}</h2>
      <p class="quiet">
        {kept === null ? t('keep.what') : t('keep.kept-at', { time: dateTime(kept.at) })}
        {kept?.differs && <strong class="keep-differs"> {t('keep.differs')}</strong>}
      </p>
      <TextField label={t('keep.notes')} value={notes} onChange={(value) => (draftNotes.value = value)} lines={2} />
      <div class="form-actions">
        {kept === null || kept.differs ? (
          <button
            type="button"
            class="button primary"
            disabled={busy.has('save')}
            onClick={() => actions.run('save', () => ports.save(notes), t('keep.done'))}
          >
            <Icon name="keep" />
            {t(kept === null ? 'keep.save' : 'keep.save-again')}
          </button>
        ) : (
          <button
            type="button"
            class="button primary"
            disabled={notes === kept.notes || busy.has('notes')}
            onClick={() => actions.run('notes', () => ports.saveNotes(notes), t('keep.notes-done'))}
          >
            {t('keep.save-notes')}
          </button>
        )}
        {kept !== null && (
          <button
            type="button"
            class="button"
            onClick={() => actions.run('desk', () => ports.openDesk(`dossiers/${kept.dossierId}`))}
          >
            <Icon name="out" />
            {t('keep.open')}
          </button>
        )}
      </div>
    </section>
  )
}
