/** What only the buyer knows, asked for at the moment it matters: a grader not in the book, an issue that is often copied. */
import { useState } from 'preact/hooks'
import type { Grader } from '../../domain/grader-book.ts'
import { GraderForm } from '../parts/GraderForm.tsx'
import { RiskyIssueForm } from '../parts/RiskyIssueForm.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { ListingState } from './panel-state.ts'

export function UnknownGrader({ model, token }: { model: PanelModel; token: string }) {
  const { t } = useWording()
  const [whole, setWhole] = useState(false)
  const { actions, ports } = model
  const add = (grader: Grader) =>
    actions.run('grader', async () => {
      await ports.addGrader(grader)
      const { name } = grader
      actions.say(t('grader.added', { name }), () => actions.run('grader', () => ports.removeGrader(name)))
    })
  const take = (accepted: boolean) => add({ name: token, abbreviations: [token], accepted })
  return (
    <section class="teach" aria-labelledby="unknown-grader-heading">
      <h2 id="unknown-grader-heading">{t('grader.unknown', { name: token })}</h2>
      <p>{t('grader.unknown.ask')}</p>
      {whole ? (
        <GraderForm
          grader={{ name: token, abbreviations: [token], accepted: true, conditions: ' ' }}
          form="short"
          onSave={add}
          onCancel={() => setWhole(false)}
        />
      ) : (
        <div class="form-actions">
          <button type="button" class="button" onClick={() => take(true)}>
            {t('grader.acceptance.accepted')}
          </button>
          <button type="button" class="button" onClick={() => setWhole(true)}>
            {t('grader.acceptance.conditions')}
          </button>
          <button type="button" class="button" onClick={() => take(false)}>
            {t('grader.acceptance.not-accepted')}
          </button>
        </div>
      )}
    </section>
  )
}

export function OftenCopied({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t } = useWording()
  const [open, setOpen] = useState(false)
  const { actions, ports } = model
  const { claim, listing } = state.inspection
  if (!open)
    return (
      <p class="often-copied">
        <button type="button" class="link-button" onClick={() => setOpen(true)}>
          <Icon name="risky" />
          {t('risky.add-from-listing')}
        </button>
      </p>
    )
  const words = [claim.set, claim.year, claim.subject].filter((word) => word !== null)
  return (
    <section class="teach" aria-labelledby="risky-heading">
      <h2 id="risky-heading">{t('risky.heading')}</h2>
      <p>{t('risky.explained')}</p>
      <RiskyIssueForm
        issue={{ name: words.join(' '), words }}
        currency={listing.price?.currency ?? 'EUR'}
        onSave={(issue) =>
          actions
            .run('risky', () => ports.addRiskyIssue(issue), t('risky.added', { name: issue.name }))
            .then((done) => done && setOpen(false))
        }
        onCancel={() => setOpen(false)}
      />
    </section>
  )
}
