/** The buyer's list of issues that are often copied. */
import { useState } from 'preact/hooks'
import type { RiskyIssue } from '../../domain/grader-book.ts'
import { RiskyIssueForm } from '../parts/RiskyIssueForm.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { RecordActions } from './GraderBook.tsx'
import { Ready } from './Ready.tsx'
import { ShareList } from './ShareList.tsx'
import { useLoaded } from './use-loaded.ts'

export function RiskyIssues() {
  const { t, money } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(
    async () => ({ issues: await ports.listRiskyIssues(), settings: await ports.readSettings() }),
    [ports, version.value],
  )
  const [editing, setEditing] = useState<string | null>(null)

  const save = (issue: Omit<RiskyIssue, 'id'>, id: string | null) =>
    actions
      .run(
        'save-risky',
        async () => {
          await ports.saveRiskyIssue(issue, id)
          model.refresh()
        },
        t('risky.saved', { name: issue.name }),
      )
      .then((done) => done && setEditing(null))

  const remove = ({ id, name }: RiskyIssue) =>
    actions.run('delete-risky', async () => {
      await ports.deleteRiskyIssue(id)
      model.refresh()
      actions.say(t('risky.deleted', { name }), () =>
        actions.run('restore-risky', async () => {
          await ports.restoreRiskyIssue(id)
          model.refresh()
        }),
      )
    })

  return (
    <>
      <h1>{t('desk.risky-issues')}</h1>
      <p class="lead">{t('risky-issues.lead')}</p>
      <Ready loaded={loaded}>
        {({ issues, settings }) => (
          <>
            {editing === 'new' ? (
              <div class="sheet">
                <RiskyIssueForm
                  issue={{}}
                  currency={settings.currency}
                  onSave={(issue) => save(issue, null)}
                  onCancel={() => setEditing(null)}
                />
              </div>
            ) : (
              <p>
                <button type="button" class="button primary" onClick={() => setEditing('new')}>
                  <Icon name="add" />
                  {t('risky.add')}
                </button>
              </p>
            )}
            {issues.length === 0 && <p class="quiet">{t('risky.empty')}</p>}
            <ul class="records">
              {issues.map((issue) => (
                <li key={issue.id} class="record">
                  {editing === issue.id ? (
                    <RiskyIssueForm
                      issue={issue}
                      currency={settings.currency}
                      onSave={(changed) => save(changed, issue.id)}
                      onCancel={() => setEditing(null)}
                    />
                  ) : (
                    <>
                      <div class="record-words">
                        <h2>
                          <bdi>{issue.name}</bdi>
                        </h2>
                        <p class="record-state">
                          <strong>
                            {issue.worthIfGenuine === null
                              ? t('risky.worth-unknown')
                              : t('risky.worth-line', { amount: money(issue.worthIfGenuine) })}
                          </strong>
                        </p>
                        <p class="quiet">{issue.words.join(' + ')}</p>
                        {issue.copies.length > 0 && (
                          <p>{t('risky.copies-line', { copies: issue.copies.join('; ') })}</p>
                        )}
                        {issue.askFor !== null && <p>{t('risky.askFor-line', { words: issue.askFor })}</p>}
                      </div>
                      <RecordActions
                        name={issue.name}
                        onEdit={() => setEditing(issue.id)}
                        onDelete={() => remove(issue)}
                      />
                    </>
                  )}
                </li>
              ))}
            </ul>
            <ShareList kind="risky-issues" count={issues.length} />
          </>
        )}
      </Ready>
    </>
  )
}
