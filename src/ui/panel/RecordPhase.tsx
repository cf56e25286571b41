/** A grader's record page held against the listing that was looked at before, field by field. It agrees or not; it proves nothing. */
import type { RecordField } from '../../domain/claim/compare-record.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { RecordState } from './panel-state.ts'

const SHAPES: Readonly<Record<RecordField['verdict'], string>> = {
  agrees: 'M3 8.5l3.2 3.2L13 5',
  differs: 'M3.5 6h9M3.5 10h9M10.5 3l-5 10',
  'not-shown': 'M4 8h.01M8 8h.01M12 8h.01',
}

export function RecordPhase({ model, state }: { model: PanelModel; state: RecordState }) {
  const { t } = useWording()
  const { actions, ports } = model
  const differing = state.fields.filter(({ verdict }) => verdict === 'differs').length
  const agreeing = state.fields.filter(({ verdict }) => verdict === 'agrees').length
  return (
    <section class="phase record-page" aria-labelledby="phase-heading">
      <h2 id="phase-heading" class="phase-heading">
        {t('record.heading')}
      </h2>
      <p>
        {t('record.against')} <bdi>{state.title}</bdi>
      </p>
      <p class="record-sum">
        {differing > 0
          ? t('record.differs', { count: differing })
          : agreeing > 0
            ? t('record.agrees', { count: agreeing })
            : t('record.nothing')}
      </p>
      <ul class="record-fields">
        {state.fields.map(({ field, listing, record, verdict }) => (
          <li key={field} class={`record-field is-${verdict}`}>
            <strong>{t(`field.${field}`)}</strong>
            <span class="record-verdict">
              <svg class="icon" viewBox="0 0 16 16" aria-hidden="true">
                <path d={SHAPES[verdict]} />
              </svg>
              {t(`record.verdict.${verdict}`)}
            </span>
            <dl>
              <div>
                <dt>{t('record.listing')}</dt>
                <dd>{listing === null ? t('record.unstated') : <bdi>{listing}</bdi>}</dd>
              </div>
              <div>
                <dt>{t('record.record')}</dt>
                <dd>{record === null ? t('record.unstated') : <bdi>{record}</bdi>}</dd>
              </div>
            </dl>
          </li>
        ))}
      </ul>
      <p class="record-caution">{t('record.caution')}</p>
      <div class="form-actions">
        <button type="button" class="button" onClick={() => actions.run('desk', () => ports.openDesk('graders'))}>
          <Icon name="graders" />
          {t('record.own-pictures')}
        </button>
      </div>
    </section>
  )
}

/** On a page that is no listing, while one is remembered: it may be the grader's record of that card. */
export function ReadRecord({ model, title }: { model: PanelModel; title: string }) {
  const { t } = useWording()
  const { actions, ports } = model
  return (
    <section class="read-record" aria-labelledby="read-record-heading">
      <h2 id="read-record-heading">{t('record.offer')}</h2>
      <p>
        <bdi>{title}</bdi>
      </p>
      <button
        type="button"
        class="button"
        disabled={actions.busy.value.has('record')}
        onClick={() => actions.run('record', () => ports.readRecord())}
      >
        {t('record.read')}
      </button>
    </section>
  )
}
