/** What was asked and what came back, in order, and the message that is due. */
import { useState } from 'preact/hooks'
import type { Answered, Asked, DossierState } from '../../domain/dossier/derive-state.ts'
import type { Dossier } from '../../domain/dossier.ts'
import type { ViewId } from '../../domain/views.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { NextMessage } from './NextMessage.tsx'
import { ReplyForm } from './ReplyForm.tsx'
import { useSteps } from './use-step.ts'

export function Exchange({ dossier, state }: { dossier: Dossier; state: DossierState }) {
  const { t, relative } = useWording()
  const [replying, setReplying] = useState(false)
  const { requests, answers } = state
  const lines = [
    ...requests.map((asked) => ({ at: asked.at, asked, answered: null })),
    ...answers.map((answered) => ({ at: answered.at, asked: null, answered })),
  ].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0))
  const isOver = state.stage === 'closed' || state.decision === 'declined' || state.decision === 'lost'

  return (
    <section aria-labelledby="exchange-heading">
      <h2 id="exchange-heading">{t('life.exchange')}</h2>
      {lines.length === 0 && <p class="quiet">{t('life.exchange.empty')}</p>}
      <ol class="exchange">
        {lines.map(({ asked, answered }) => {
          const entry = (asked ?? answered)!.entry
          return asked === null ? (
            <AnsweredLine key={entry} answered={answered!} dossier={dossier} />
          ) : (
            <AskedLine key={entry} asked={asked} dossier={dossier} />
          )
        })}
      </ol>
      {state.waitingSince !== null && (
        <p class="life-waiting">
          <strong>{t('life.waiting')}</strong> {relative(state.waitingSince, new Date().toISOString())}
        </p>
      )}
      <ViewList label={t('life.open-views')} views={requests.length > 0 ? state.openViews : []} />
      <ViewList label={t('life.refused-views')} views={state.refusedViews} />
      {replying ? (
        <ReplyForm id={dossier.id} state={state} onDone={() => setReplying(false)} />
      ) : (
        <div class="form-actions">
          <button type="button" class="button" onClick={() => setReplying(true)}>
            <Icon name="add" />
            {t('reply.enter')}
          </button>
        </div>
      )}
      {!isOver && !replying && <NextMessage key={dossier.revision} dossier={dossier} state={state} />}
    </section>
  )
}

function ViewList({ label, views }: { label: string; views: readonly ViewId[] }) {
  const { t, list } = useWording()
  if (views.length === 0) return null
  return (
    <p>
      <strong>{label}</strong> {list(views.map((view) => t(`view.${view}`)))}
    </p>
  )
}

function AskedLine({ asked: { entry, at, words, views, language }, dossier }: { asked: Asked; dossier: Dossier }) {
  const { t, dateTime, list } = useWording()
  return (
    <li class="exchange-line is-asked">
      <p class="exchange-head">
        <strong>{t('life.you-asked')}</strong> <time dateTime={at}>{dateTime(at)}</time>
        <TakeBack entry={entry} dossier={dossier} />
      </p>
      {views.length > 0 && <p>{list(views.map((view) => t(`view.${view}`)))}</p>}
      {words !== '' && (
        <details>
          <summary>{t('life.exact-words')}</summary>
          <p class="verbatim" lang={language ?? undefined}>
            {words}
          </p>
        </details>
      )}
    </li>
  )
}

function AnsweredLine({ answered, dossier }: { answered: Answered; dossier: Dossier }) {
  const { t, dateTime, list } = useWording()
  const { entry, at, words, photos, shows, refused } = answered
  return (
    <li class="exchange-line is-answered">
      <p class="exchange-head">
        <strong>{t('life.seller-answered')}</strong> <time dateTime={at}>{dateTime(at)}</time>
        <TakeBack entry={entry} dossier={dossier} />
      </p>
      {words.trim() !== '' && <p class="verbatim">{words}</p>}
      {photos.length > 0 && <p>{t('reply.photos.count', { count: photos.length })}</p>}
      {shows.length > 0 && <p>{t('reply.shows', { list: list(shows.map((view) => t(`view.${view}`))) })}</p>}
      {refused.length > 0 && <p>{t('reply.refuses', { list: list(refused.map((view) => t(`view.${view}`))) })}</p>}
    </li>
  )
}

function TakeBack({ entry, dossier }: { entry: string; dossier: Dossier }) {
  const { t } = useWording()
  const steps = useSteps(dossier)
  return (
    <button type="button" class="link-button" disabled={steps.busy} onClick={() => steps.takeBack(entry)}>
      {t('life.take-back')}
    </button>
  )
}
