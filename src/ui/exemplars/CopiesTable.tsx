/** Makes of copy that are known of the issue, and which of them pass which point. Agreement on a point that one passes weighs nothing. */
import type { CopyAtPoint, Exemplar } from '../../domain/exemplar.ts'
import { TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { idOf } from './edit-exemplar.ts'

const AT_POINT: readonly CopyAtPoint[] = ['unknown', 'fails', 'passes']

interface CopiesTableProps {
  readonly exemplar: Exemplar
  readonly onChange: (exemplar: Exemplar) => void
  readonly onRemove: (id: string) => void
}

export function CopiesTable({ exemplar, onChange, onRemove }: CopiesTableProps) {
  const { t } = useWording()
  const { copies, points } = exemplar
  const add = () => {
    const name = t('make.new', { number: copies.length + 1 })
    const id = idOf(
      name,
      copies.map((make) => make.id),
      'make',
    )
    onChange({ ...exemplar, copies: [...copies, { id, name, description: '' }] })
  }
  const setMake = (id: string, change: { name?: string; description?: string }) =>
    onChange({ ...exemplar, copies: copies.map((make) => (make.id === id ? { ...make, ...change } : make)) })
  const setAt = (pointId: string, make: string, does: CopyAtPoint) =>
    onChange({
      ...exemplar,
      points: points.map((point) =>
        point.id === pointId ? { ...point, copies: { ...point.copies, [make]: does } } : point,
      ),
    })
  return (
    <section class="sheet makes">
      <h2>{t('makes.heading')}</h2>
      <p class="quiet">{t('makes.explained')}</p>
      {copies.map(({ id, name, description }) => (
        <div key={id} class="make">
          <div class="form-row">
            <TextField label={t('make.name')} value={name} onChange={(next) => setMake(id, { name: next })} />
            <TextField
              label={t('make.description')}
              value={description}
              onChange={(next) => setMake(id, { description: next })}
            />
          </div>
          <button
            type="button"
            class="icon-button"
            aria-label={`${t('action.delete')}: ${name}`}
            onClick={() => onRemove(id)}
          >
            <Icon name="remove" />
          </button>
        </div>
      ))}
      <p>
        <button type="button" class="button small" onClick={add}>
          <Icon name="add" />
          {t('make.add')}
        </button>
      </p>
      {copies.length > 0 && points.length > 0 && (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
        <section class="makes-scroll" tabIndex={0} aria-label={t('makes.table')}>
          <table class="makes-table">
            <thead>
              <tr>
                <th scope="col">{t('makes.point')}</th>
                {copies.map(({ id, name }) => (
                  <th key={id} scope="col">
                    {name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {points.map((point) => (
                <tr key={point.id}>
                  <th scope="row">{point.name}</th>
                  {copies.map(({ id, name }) => (
                    <td key={id}>
                      <select
                        aria-label={t('makes.cell', { point: point.name, make: name })}
                        value={point.copies[id] ?? 'unknown'}
                        onChange={(event) => setAt(point.id, id, event.currentTarget.value as CopyAtPoint)}
                      >
                        {AT_POINT.map((does) => (
                          <option key={does} value={does}>
                            {t(`at-point.${does}`)}
                          </option>
                        ))}
                      </select>
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </section>
  )
}
