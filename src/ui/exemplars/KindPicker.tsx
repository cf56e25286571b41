/** The kinds of point, each with what it measures, drawn good and bad, and what it needs of a photo. */
import { useId, useState } from 'preact/hooks'
import { POINT_KIND_IDS, POINT_KINDS, type PointKind } from '../../domain/exemplar-kinds.ts'
import { useWording } from '../wording.ts'
import { drawKind } from './kind-drawings.ts'

export function KindDrawings({ kind }: { kind: PointKind }) {
  const { t } = useWording()
  return (
    <span class="kind-drawings">
      {(['good', 'bad'] as const).map((which) => (
        <span key={which} class="kind-drawing">
          <span dangerouslySetInnerHTML={{ __html: drawKind(kind, which) }} />
          <span class="kind-drawing-word">{t(which === 'good' ? 'kind.good' : 'kind.bad')}</span>
        </span>
      ))}
    </span>
  )
}

export function KindPicker({ kind, onChange }: { kind: PointKind; onChange: (kind: PointKind) => void }) {
  const { t, number } = useWording()
  const id = useId()
  const [open, setOpen] = useState(false)
  const needs = (one: PointKind) =>
    one === 'judged'
      ? t('kind.needs-eyes')
      : t('kind.needs', {
          pxPerMm: number(POINT_KINDS[one].needsPxPerMm),
          unit: POINT_KINDS[one].unit,
        })
  return (
    <div class="kind-picker">
      <div class="kind-chosen">
        <KindDrawings kind={kind} />
        <div>
          <p class="kind-name">{t(`kind.${kind}`)}</p>
          <p>{t(`kind.${kind}.what`)}</p>
          <p class="hint">{needs(kind)}</p>
        </div>
        <button
          type="button"
          class="button small"
          aria-expanded={open}
          aria-controls={`${id}-kinds`}
          onClick={() => setOpen(!open)}
        >
          {t('kind.change')}
        </button>
      </div>
      {open && (
        <fieldset class="kind-list" id={`${id}-kinds`}>
          <legend>{t('kind.legend')}</legend>
          {POINT_KIND_IDS.map((one) => (
            <label key={one} class={`kind-option${one === kind ? ' is-chosen' : ''}`}>
              <input
                type="radio"
                name={`${id}-kind`}
                checked={one === kind}
                onChange={() => onChange(one)}
                onClick={(event) => {
                  // By mouse one press decides; by keyboard one goes through them first.
                  if (event.detail > 0) setOpen(false)
                }}
              />
              <KindDrawings kind={one} />
              <span class="kind-words">
                <span class="kind-name">{t(`kind.${one}`)}</span>
                <span>{t(`kind.${one}.what`)}</span>
                <span class="hint">{needs(one)}</span>
              </span>
            </label>
          ))}
          <button type="button" class="button small" onClick={() => setOpen(false)}>
            {t('kind.done')}
          </button>
        </fieldset>
      )}
    </div>
  )
}
