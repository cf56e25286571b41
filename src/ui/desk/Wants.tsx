/** The want list: cards that the buyer looks for, with condition, grades and the most to pay. */
import { useState } from 'preact/hooks'
import type { Want } from '../../domain/pricing/want.ts'
import { Icon } from '../parts/shapes.tsx'
import { WantForm } from '../wants/WantForm.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { Ready } from './Ready.tsx'
import { useLoaded } from './use-loaded.ts'

export function Wants() {
  const { t, money } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(
    async () => ({ wants: await ports.listWants(), settings: await ports.readSettings() }),
    [ports, version.value],
  )
  const [editing, setEditing] = useState<string | null>(null)
  const save = (want: Want, id: string | null) =>
    actions
      .run(
        'save-want',
        async () => {
          await ports.saveWant(want, id)
          model.refresh()
        },
        t('wants.saved'),
      )
      .then((done) => done && setEditing(null))
  const remove = (id: string) =>
    actions.run('delete-want', async () => {
      await ports.deleteWant(id)
      model.refresh()
      actions.say(t('wants.deleted'), () =>
        actions.run('restore-want', async () => {
          await ports.restoreWant(id)
          model.refresh()
        }),
      )
    })
  return (
    <>
      <h1>{t('desk.wants')}</h1>
      <p class="lead">{t('wants.lead')}</p>
      <Ready loaded={loaded}>
        {({ wants, settings }) => (
          <>
            {editing === 'new' ? (
              <div class="sheet">
                <WantForm
                  want={null}
                  currency={settings.currency}
                  onSave={(want) => save(want, null)}
                  onCancel={() => setEditing(null)}
                />
              </div>
            ) : (
              <button type="button" class="button primary" onClick={() => setEditing('new')}>
                <Icon name="add" />
                {t('wants.add')}
              </button>
            )}
            {wants.length === 0 && <p class="quiet">{t('wants.empty')}</p>}
            <ul class="records">
              {wants.map((want) => (
                <li key={want.id} class="record">
                  {editing === want.id ? (
                    <WantForm
                      want={want}
                      currency={settings.currency}
                      onSave={(next) => save(next, want.id)}
                      onCancel={() => setEditing(null)}
                    />
                  ) : (
                    <>
                      <div class="record-words">
                        <strong>{want.words}</strong>
                        <span class="quiet">
                          {[
                            t(`wants.condition.${want.condition}`),
                            want.gradeFrom === null && want.gradeTo === null
                              ? null
                              : t('wants.grades', { from: want.gradeFrom ?? '–', to: want.gradeTo ?? '–' }),
                            want.most === null ? null : t('wants.most-is', { amount: money(want.most) }),
                            want.note || null,
                          ]
                            .filter((part) => part !== null)
                            .join(' · ')}
                        </span>
                      </div>
                      <div class="record-actions">
                        <button
                          type="button"
                          class="button small"
                          aria-label={t('wants.edit', { name: want.words })}
                          onClick={() => setEditing(want.id)}
                        >
                          {t('action.edit')}
                        </button>
                        <button
                          type="button"
                          class="icon-button"
                          aria-label={t('wants.delete', { name: want.words })}
                          onClick={() => remove(want.id)}
                        >
                          <Icon name="remove" />
                        </button>
                      </div>
                    </>
                  )}
                </li>
              ))}
            </ul>
          </>
        )}
      </Ready>
    </>
  )
}
