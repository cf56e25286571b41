/** The grader book: which grading companies this buyer knows, and on what terms. Nothing in it is built in. */
import { useState } from 'preact/hooks'
import type { Grader } from '../../domain/grader-book.ts'
import { acceptanceOf, GraderForm } from '../parts/GraderForm.tsx'
import { AcceptanceShape, Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import type { Stored } from './desk-ports.ts'
import { GraderPictures, PictureRow } from './GraderPictures.tsx'
import { Ready } from './Ready.tsx'
import { ShareList } from './ShareList.tsx'
import { useLoaded } from './use-loaded.ts'

/** Imported books may hold anything: an address that is none stands as it is. */
function hostOf(address: string): string {
  return URL.canParse(address) ? new URL(address).host : address
}

export function GraderBook() {
  const { t, list } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(() => ports.listGraders(), [ports, version.value])
  /** An id, `new`, or nothing. */
  const [editing, setEditing] = useState<string | null>(null)

  const save = (grader: Grader, id: string | null) =>
    actions
      .run(
        'save-grader',
        async () => {
          await ports.saveGrader(grader, id)
          model.refresh()
        },
        t('grader.saved', { name: grader.name }),
      )
      .then((done) => done && setEditing(null))

  const remove = ({ id, name }: Stored<Grader>) =>
    actions.run('delete-grader', async () => {
      await ports.deleteGrader(id)
      model.refresh()
      actions.say(t('grader.deleted', { name }), () =>
        actions.run('restore-grader', async () => {
          await ports.restoreGrader(id)
          model.refresh()
        }),
      )
    })

  return (
    <>
      <h1>{t('desk.graders')}</h1>
      <p class="lead">{t('graders.explained')}</p>
      {editing === 'new' ? (
        <div class="sheet">
          <GraderForm
            grader={{}}
            form="whole"
            Pictures={GraderPictures}
            onSave={(grader) => save(grader, null)}
            onCancel={() => setEditing(null)}
          />
        </div>
      ) : (
        <p>
          <button type="button" class="button primary" onClick={() => setEditing('new')}>
            <Icon name="add" />
            {t('graders.add')}
          </button>
        </p>
      )}
      <Ready loaded={loaded}>
        {(graders) => (
          <>
            {graders.length === 0 && <p class="quiet">{t('graders.empty')}</p>}
            <ul class="records">
              {graders.map((grader) => (
                <li key={grader.id} class="record">
                  {editing === grader.id ? (
                    <GraderForm
                      grader={grader}
                      form="whole"
                      Pictures={GraderPictures}
                      onSave={(changed) => save(changed, grader.id)}
                      onCancel={() => setEditing(null)}
                    />
                  ) : (
                    <>
                      <div class="record-words">
                        <h2>
                          <bdi>{grader.name}</bdi>
                        </h2>
                        <p class="record-state">
                          <AcceptanceShape acceptance={acceptanceOf(grader)} />
                          <strong>{t(`grader.state.${acceptanceOf(grader)}`)}</strong>
                          {grader.conditions && <bdi>{grader.conditions}</bdi>}
                        </p>
                        <p class="quiet">
                          {list(grader.abbreviations)}
                          {(grader.certificateDigits?.length ?? 0) > 0 &&
                            ` · ${t('grader.digits-line', { digits: list(grader.certificateDigits!.map(String)) })}`}
                          {grader.lookUp && ` · ${hostOf(grader.lookUp)}`}
                        </p>
                        {grader.notes && <p>{grader.notes}</p>}
                        <PictureRow pictures={grader.pictures ?? []} />
                      </div>
                      <RecordActions
                        name={grader.name}
                        onEdit={() => setEditing(grader.id)}
                        onDelete={() => remove(grader)}
                      />
                    </>
                  )}
                </li>
              ))}
            </ul>
            <ShareList kind="graders" count={graders.length} />
          </>
        )}
      </Ready>
    </>
  )
}

export function RecordActions({ name, onEdit, onDelete }: { name: string; onEdit?: () => void; onDelete: () => void }) {
  const { t } = useWording()
  return (
    <div class="record-actions">
      {onEdit && (
        <button type="button" class="button small" onClick={onEdit} aria-label={`${t('action.edit')}: ${name}`}>
          {t('action.edit')}
        </button>
      )}
      <button type="button" class="icon-button" onClick={onDelete} aria-label={`${t('action.delete')}: ${name}`}>
        <Icon name="remove" />
      </button>
    </div>
  )
}
