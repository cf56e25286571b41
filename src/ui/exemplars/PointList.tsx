/** The points of an exemplar in their order: chosen, moved up and down, taken away. */
import type { ExemplarPoint } from '../../domain/exemplar.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

interface PointListProps {
  readonly points: readonly ExemplarPoint[]
  readonly chosen: string | null
  readonly onChoose: (id: string) => void
  readonly onMove: (from: number, to: number) => void
  readonly onRemove: (id: string) => void
  readonly onNew: () => void
}

export function PointList({ points, chosen, onChoose, onMove, onRemove, onNew }: PointListProps) {
  const { t } = useWording()
  return (
    <section class="sheet points">
      <h2>
        {t('points.heading')}
        <span class="count">{points.length}</span>
      </h2>
      {points.length === 0 && <p>{t('points.empty')}</p>}
      <ol class="point-rows">
        {points.map(({ id, name, kind, side, why }, index) => (
          <li key={id} class={`point-row${id === chosen ? ' is-chosen' : ''}`}>
            <button type="button" class="point-open" aria-pressed={id === chosen} onClick={() => onChoose(id)}>
              <span class="point-number">{index + 1}</span>
              <span>
                <span class="point-name">{name || t('point.unnamed')}</span>
                <span class="point-kind quiet">
                  {t(`kind.${kind}`)} · {t(`side.${side}`)}
                </span>
                {why !== '' && <span class="point-why">{why}</span>}
              </span>
            </button>
            <span class="point-actions">
              <button
                type="button"
                class="icon-button"
                disabled={index === 0}
                aria-label={t('point.up', { name })}
                onClick={() => onMove(index, index - 1)}
              >
                <Icon name="up" />
              </button>
              <button
                type="button"
                class="icon-button"
                disabled={index === points.length - 1}
                aria-label={t('point.down', { name })}
                onClick={() => onMove(index, index + 1)}
              >
                <Icon name="down" />
              </button>
              <button
                type="button"
                class="icon-button"
                aria-label={`${t('action.delete')}: ${name}`}
                onClick={() => onRemove(id)}
              >
                <Icon name="remove" />
              </button>
            </span>
          </li>
        ))}
      </ol>
      <button type="button" class="button" onClick={onNew}>
        <Icon name="add" />
        {t('point.new')}
      </button>
    </section>
  )
}
