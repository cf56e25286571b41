/** One opened dossier: everything that was kept, as it was then. Shows and adds notes; never alters what was captured. */
import { useState } from 'preact/hooks'
import { deriveState } from '../../domain/dossier/derive-state.ts'
import type { Dossier } from '../../domain/dossier.ts'
import { ArrivalCheck } from '../dossier/ArrivalCheck.tsx'
import { Changes } from '../dossier/Changes.tsx'
import { Deadlines } from '../dossier/Deadlines.tsx'
import { Exchange } from '../dossier/Exchange.tsx'
import { LifeLine } from '../dossier/LifeLine.tsx'
import { Purchase } from '../dossier/Purchase.tsx'
import { SharePage } from '../dossier/SharePage.tsx'
import { Cautions } from '../inspection/Cautions.tsx'
import { Concerns } from '../inspection/Concerns.tsx'
import { Offered } from '../inspection/Offered.tsx'
import { PriceComparison } from '../inspection/PriceComparison.tsx'
import { StanceSlab } from '../inspection/StanceSlab.tsx'
import { Views } from '../inspection/Views.tsx'
import { MakeBag } from '../keeping/MakeBag.tsx'
import { KeptComparisons } from '../light-table/KeptComparisons.tsx'
import { TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useBlobUrl, useBlobUrls } from './BlobImage.tsx'
import { DossierLog } from './DossierLog.tsx'
import { useDesk } from './desk-context.ts'
import { Hash } from './Hash.tsx'
import { KeptPhotos } from './KeptPhotos.tsx'
import { Ready } from './Ready.tsx'
import { useLoaded } from './use-loaded.ts'

export function DossierView({ id }: { id: string }) {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const loaded = useLoaded(() => ports.openDossier(id), [ports, id, version.value])
  return (
    <article class="dossier" aria-label={t('dossier.label')}>
      <Ready loaded={loaded}>
        {(dossier) => (dossier === null ? <p>{t('dossier.gone')}</p> : <DossierSheet dossier={dossier} />)}
      </Ready>
    </article>
  )
}

function DossierSheet({ dossier }: { dossier: Dossier }) {
  const { t, dateTime } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const { inspection, photos } = dossier
  const lang = inspection.listing.language
  const shownViews = inspection.views.filter(({ status }) => status === 'shown').map(({ view }) => view)
  const state = deriveState(dossier.log, shownViews)
  const isInHand = state.decision === 'bought' && ['arrived', 'checked', 'closed'].includes(state.stage)
  const { url } = dossier
  const urls = useBlobUrls(photos.flatMap(({ sha256 }) => sha256 ?? []))
  const shown = photos.map((photo) => ({
    ...photo,
    thumbnail: (photo.sha256 === null ? null : urls[photo.sha256]) ?? null,
    assigned: dossier.viewCorrections[photo.url] ?? null,
  }))

  const remove = () =>
    actions.run('delete', async () => {
      await ports.deleteDossier(dossier.id)
      model.go({ section: 'dossiers', id: null })
      model.refresh()
      actions.say(t('dossier.deleted'), () =>
        actions.run('restore', async () => {
          await ports.restoreDossier(dossier.id)
          model.refresh()
        }),
      )
    })

  return (
    <>
      <h1 class="for-readers">{dossier.title}</h1>
      <header class="dossier-head">
        <a class="link dossier-back" href="#dossiers">
          {t('dossier.back')}
        </a>
        <p class="quiet">{t('dossier.captured', { time: dateTime(dossier.capturedAt) })}</p>
        <div class="form-actions">
          {url !== null && (
            <button type="button" class="button small" onClick={() => actions.run('page', () => ports.openPage(url))}>
              <Icon name="out" />
              {t('dossier.open-page')}
            </button>
          )}
          <button
            type="button"
            class="button small"
            onClick={() => actions.run('export-dossier', () => ports.exportDossier(dossier.id), t('dossier.exported'))}
          >
            <Icon name="save" />
            {t('dossier.export')}
          </button>
          <button type="button" class="button small" onClick={remove}>
            <Icon name="remove" />
            {t('action.delete')}
          </button>
        </div>
      </header>
      <StanceSlab inspection={inspection} />
      <LifeLine state={state} />
      <div class="dossier-columns">
        <div>
          <Offered inspection={inspection} now={ports.now()} lang={lang} />
          <Concerns
            concerns={inspection.concerns}
            weighing={inspection.weighing}
            views={inspection.views}
            lang={lang}
          />
          <Views views={inspection.views} photos={shown} requested={inspection.request.views} />
          <PriceComparison valuation={inspection.valuation} />
        </div>
        <div>
          <Exchange dossier={dossier} state={state} />
          <Deadlines dossier={dossier} state={state} />
          <Purchase dossier={dossier} state={state} />
          {isInHand && <ArrivalCheck dossier={dossier} state={state} />}
          <Changes dossier={dossier} />
          <Notes dossier={dossier} />
          <KeptPhotos photos={photos} urls={urls} />
          <KeptComparisons dossier={dossier} />
          {dossier.screenshot !== null && <Screenshot sha256={dossier.screenshot} />}
          <DossierLog dossier={dossier} />
          <MakeBag id={dossier.id} />
          <details>
            <summary>{t('dossier.page-text')}</summary>
            <p class="verbatim">
              <PageText text={dossier.pageText} lang={lang} />
            </p>
          </details>
          {inspection.trace.length > 0 && (
            <details>
              <summary>{t('dossier.trace', { count: inspection.trace.length })}</summary>
              <ul class="trace">
                {inspection.trace.map(({ rule, raised, reason }) => (
                  <li key={rule}>
                    <code>{rule}</code> – {t(raised ? 'trace.raised' : 'trace.not-raised')}: {reason}
                  </li>
                ))}
              </ul>
            </details>
          )}
          <SharePage id={dossier.id} />
          <Cautions />
        </div>
      </div>
    </>
  )
}

function Notes({ dossier }: { dossier: Dossier }) {
  const { t } = useWording()
  const model = useDesk()
  const [notes, setNotes] = useState(dossier.notes)
  return (
    <section class="form">
      <h2>{t('keep.notes')}</h2>
      <TextField label={t('dossier.notes-label')} value={notes} onChange={setNotes} lines={3} />
      <div class="form-actions">
        <button
          type="button"
          class="button"
          disabled={notes === dossier.notes || model.actions.busy.value.has('notes')}
          onClick={() =>
            model.actions.run(
              'notes',
              async () => {
                await model.ports.saveNotes(dossier.id, notes)
                model.refresh()
              },
              t('keep.notes-done'),
            )
          }
        >
          {t('keep.save-notes')}
        </button>
      </div>
    </section>
  )
}

function Screenshot({ sha256 }: { sha256: string }) {
  const { t } = useWording()
  const url = useBlobUrl(sha256)
  return (
    <section>
      <h2>{t('dossier.screenshot')}</h2>
      <figure class="screenshot">
        {url ? (
          <a href={url} target="_blank" rel="noreferrer">
            <img src={url} alt={t('dossier.screenshot.alt')} />
          </a>
        ) : (
          <span class="picture-space">{url === null && t('picture.gone')}</span>
        )}
        <figcaption>
          <Hash sha256={sha256} />
        </figcaption>
      </figure>
    </section>
  )
}
