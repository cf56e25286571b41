/** What the panel shows when there is no listing to show: reading, none, forbidden, failed. Each says what to do. */
import type { ComponentChildren } from 'preact'
import { FaultText } from '../parts/FaultText.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'

/** Drawn at once, seen only after 150 ms (by style): a quick reading shows no flicker. */
export function ReadingPhase({ host }: { host: string | null }) {
  const { t } = useWording()
  return (
    <section class="phase phase-reading" aria-busy="true">
      <p class="for-readers">{host === null ? t('phase.reading') : t('phase.reading-host', { host })}</p>
      <div class="skeleton" aria-hidden="true">
        <span class="bone bone-title" />
        <span class="bone bone-title short" />
        <span class="bone bone-price" />
        {[...'abcd'].map((key) => (
          <span key={key} class="bone" />
        ))}
        <span class="bone bone-stance" />
        {[...'efg'].map((key) => (
          <span key={key} class="bone bone-block" />
        ))}
      </div>
    </section>
  )
}

function PhaseNote({ heading, children }: { heading: string; children: ComponentChildren }) {
  return (
    <section class="phase" aria-labelledby="phase-heading">
      <h2 id="phase-heading" class="phase-heading">
        {heading}
      </h2>
      {children}
    </section>
  )
}

export function NonePhase({ model }: { model: PanelModel }) {
  const { t } = useWording()
  const { actions, ports } = model
  const busy = actions.busy.value
  return (
    <PhaseNote heading={t('phase.none')}>
      <p>{t('phase.none.explained')}</p>
      <ol class="teach-steps">
        <li>{t('phase.none.step-1')}</li>
        <li>{t('phase.none.step-2')}</li>
        <li>{t('phase.none.step-3')}</li>
      </ol>
      <div class="form-actions">
        <button
          type="button"
          class="button primary"
          disabled={busy.has('pick')}
          onClick={() => actions.run('pick', () => ports.pickField('price'))}
        >
          <Icon name="point" />
          {t('action.point-at-price')}
        </button>
        <button
          type="button"
          class="button"
          disabled={busy.has('rescan')}
          onClick={() => actions.run('rescan', ports.rescan)}
        >
          <Icon name="again" />
          {t('action.read-again')}
        </button>
      </div>
    </PhaseNote>
  )
}

export function ForbiddenPhase() {
  const { t } = useWording()
  return (
    <PhaseNote heading={t('phase.forbidden')}>
      <p>{t('phase.forbidden.explained')}</p>
      <p class="quiet">{t('phase.forbidden.remedy')}</p>
    </PhaseNote>
  )
}

export function FailedPhase({ model, fault }: { model: PanelModel; fault: Parameters<typeof FaultText>[0]['fault'] }) {
  const { t } = useWording()
  const { actions, ports } = model
  return (
    <PhaseNote heading={t('phase.failed')}>
      <p role="alert">
        <FaultText fault={fault} />
      </p>
      <div class="form-actions">
        <button type="button" class="button primary" onClick={() => actions.run('rescan', ports.rescan)}>
          <Icon name="again" />
          {t('action.read-again')}
        </button>
      </div>
    </PhaseNote>
  )
}
