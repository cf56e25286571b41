/**
 * What the person must know about the reading itself before they trust it: read in part, page and data disagree, characters
 * that hide, photos not looked at, the page changed since. Each with the one thing to do about it.
 */
import type { ComponentChildren } from 'preact'
import { labelOfField } from '../inspection/field-label.ts'
import { listHidden } from '../parts/hidden-characters.ts'
import { PageText } from '../parts/PageText.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { ListingState } from './panel-state.ts'

export function Notices({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t, list, number } = useWording()
  const { actions, ports } = model
  const { listing } = state.inspection
  const hidden = listHidden(listing.title ?? '')
  const progress = state.photoProgress
  const busy = actions.busy.value
  const notices: { key: string; body: ComponentChildren }[] = []

  if (state.update !== 'none')
    notices.push({
      key: 'update',
      body:
        state.update === 'reading' ? (
          t('notice.reading-again')
        ) : (
          <>
            {t('notice.changed')}{' '}
            <button type="button" class="link-button" onClick={() => actions.run('rescan', ports.rescan)}>
              {t('action.read-again')}
            </button>
          </>
        ),
    })
  if (listing.partlyRead) notices.push({ key: 'partly', body: t('notice.partly-read') })
  for (const { field, shown, data } of listing.disagreements)
    notices.push({
      key: `disagreement-${field}`,
      body: (
        <>
          {t('notice.disagreement', { field: labelOfField(t, field) })}{' '}
          <span class="disagreement">
            {t('notice.shown')}{' '}
            <q>
              <PageText text={shown} lang={state.pageLanguage} />
            </q>
            , {t('notice.data')}{' '}
            <q>
              <PageText text={data} lang={state.pageLanguage} />
            </q>
          </span>
        </>
      ),
    })
  if (hidden.length > 0)
    notices.push({ key: 'hidden', body: t('notice.hidden', { codes: list(hidden), count: hidden.length }) })
  if (listing.price === null)
    notices.push({
      key: 'no-price',
      body: (
        <>
          {t('notice.no-price')}{' '}
          <button type="button" class="link-button" onClick={() => actions.run('pick', () => ports.pickField('price'))}>
            {t('action.point-at-price')}
          </button>
        </>
      ),
    })
  if (progress !== null)
    notices.push({
      key: 'progress',
      body: (
        <span class="photo-progress">
          <span>{t('photos.progress', { done: number(progress.done), total: number(progress.total) })}</span>
          <progress max={progress.total} value={progress.done} aria-label={t('photos.progress.label')} />
          <button type="button" class="link-button" onClick={ports.cancelPhotos}>
            {t('action.cancel')}
          </button>
        </span>
      ),
    })
  else if (state.photoAccess === 'unseen' || state.photoAccess === 'refused')
    notices.push({
      key: 'photos',
      body: (
        <>
          {t(state.photoAccess === 'unseen' ? 'notice.photos-unseen' : 'notice.photos-refused', {
            count: state.photos.length,
          })}{' '}
          <button
            type="button"
            class="button small"
            disabled={busy.has('site')}
            onClick={() => actions.run('site', ports.requestSite)}
          >
            <Icon name="photo" />
            {t('action.look-at-photos')}
          </button>
          {state.photoHosts.length > 0 && (
            <span class="hint">{t('notice.photo-hosts', { hosts: list(state.photoHosts) })}</span>
          )}
        </>
      ),
    })

  if (notices.length === 0) return null
  return (
    <section class="reading-notices" aria-label={t('notice.heading')}>
      <ul>
        {notices.map(({ key, body }) => (
          <li key={key} data-notice={key}>
            {body}
          </li>
        ))}
      </ul>
    </section>
  )
}
