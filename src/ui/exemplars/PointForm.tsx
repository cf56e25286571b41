/** One point in words and figures: its name, its kind, why it matters, what copies do, what its kind asks for besides. */
import { useState } from 'preact/hooks'
import type { ExemplarPoint, Region } from '../../domain/exemplar.ts'
import { defaultToleranceOf, POINT_KINDS, type RegionRole, unitOf } from '../../domain/exemplar-kinds.ts'
import type { Size } from '../light-table/square-picture.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { addRegion, changeKind, keepOnPiece, regionsOf, removeRegion, SIDES, setRegion } from './edit-exemplar.ts'
import { KindPicker } from './KindPicker.tsx'

interface PointFormProps {
  readonly point: ExemplarPoint
  readonly size: Size
  /** `role/index` of the region that drawing on the plate replaces. */
  readonly active: string
  readonly onActivate: (key: string) => void
  readonly onChange: (point: ExemplarPoint) => void
}

const NUMBERS = ['x', 'y', 'width', 'height'] as const

export function PointForm({ point, size, active, onActivate, onChange }: PointFormProps) {
  const { t, number } = useWording()
  const set = (change: Partial<ExemplarPoint>) => onChange({ ...point, ...change } as ExemplarPoint)
  const unit = unitOf(point)
  const roles = POINT_KINDS[point.kind].regionsNeeded
  const drawn = regionsOf(point)
  return (
    <div class="form point-form">
      <TextField
        label={t('point.name')}
        value={point.name}
        onChange={(name) => set({ name })}
        fault={point.name.trim() === '' ? t('point.name.fault') : null}
      />
      <KindPicker kind={point.kind} onChange={(kind) => onChange(changeKind(point, kind, size))} />
      <TextField
        label={t('point.why')}
        hint={t('point.why.hint')}
        value={point.why}
        onChange={(why) => set({ why })}
        lines={2}
      />
      <TextField
        label={t('point.copies-do')}
        hint={t('point.copies-do.hint')}
        value={point.copiesDo}
        onChange={(copiesDo) => set({ copiesDo })}
        lines={2}
      />
      <KindFields point={point} onChange={onChange} />
      <fieldset class="region-roles">
        <legend>{t('point.regions')}</legend>
        <p class="hint">{t('point.regions.hint')}</p>
        {drawn.map(({ role, index, region }) => {
          const key = `${role}/${index}`
          const needed = roles.find((one) => one.role === role)!
          const count = drawn.filter((one) => one.role === role).length
          const spare = role !== 'region' && (!needed.required || (needed.many && count > 1))
          return (
            <div key={key} class={`region-role${key === active ? ' is-active' : ''}`}>
              <label class="choice">
                <input type="radio" name="region-role" checked={key === active} onChange={() => onActivate(key)} />
                {t(`role.${role}`)}
                {count > 1 && ` ${index + 1}`}
              </label>
              <p class="hint">{t(`role.${role}.what`)}</p>
              <RegionNumbers
                region={region}
                onChange={(next) => onChange(setRegion(point, role, index, keepOnPiece(next, size)))}
              />
              {spare && (
                <button
                  type="button"
                  class="link-button"
                  onClick={() => {
                    onChange(removeRegion(point, role, index))
                    onActivate('region/0')
                  }}
                >
                  {t('role.remove')}
                </button>
              )}
            </div>
          )
        })}
        {roles
          .filter(({ role, many }) => many || !drawn.some((one) => one.role === role))
          .map(({ role }) => (
            <button
              key={role}
              type="button"
              class="link-button"
              onClick={() => {
                const count = drawn.filter((one) => one.role === role).length
                onChange(addRegion(point, role, size))
                onActivate(`${role as RegionRole}/${count}`)
              }}
            >
              <Icon name="add" />
              {t('role.add', { role: t(`role.${role}`) })}
            </button>
          ))}
      </fieldset>
      <details class="point-more">
        <summary>{t('point.figures')}</summary>
        <div class="form-row">
          <SelectField
            label={t('point.side')}
            value={point.side}
            onChange={(side) => set({ side: side as ExemplarPoint['side'] })}
            options={SIDES.map((side) => ({ value: side, text: t(`side.${side}`) }))}
          />
          <AmountField
            label={t('point.needs')}
            hint={t('point.needs.hint', { pxPerMm: number(POINT_KINDS[point.kind].needsPxPerMm) })}
            value={point.needsPxPerMm}
            onChange={(needsPxPerMm) => set({ needsPxPerMm })}
          />
          {point.kind !== 'judged' && (
            <AmountField
              label={t('point.tolerance', { unit })}
              hint={t('point.tolerance.hint', { tolerance: number(defaultToleranceOf(point)), unit })}
              value={point.tolerance}
              onChange={(tolerance) => set({ tolerance })}
            />
          )}
        </div>
      </details>
    </div>
  )
}

/** A figure that may be left out. What is no figure is kept to oneself and marked. */
function AmountField({
  label,
  hint,
  value,
  onChange,
  least = Number.EPSILON,
}: {
  label: string
  hint?: string
  value: number | null
  onChange: (value: number | null) => void
  least?: number
}) {
  const { t } = useWording()
  const [text, setText] = useState(value === null ? '' : String(value))
  const amount = parseAmount(text)
  const bad = text.trim() !== '' && (amount === null || Number(amount) < least)
  return (
    <TextField
      label={label}
      hint={hint}
      inputMode="decimal"
      value={text}
      fault={bad ? t('point.figure.fault') : null}
      onChange={(next) => {
        setText(next)
        const read = parseAmount(next)
        if (next.trim() === '') onChange(null)
        else if (read !== null && Number(read) >= least) onChange(Number(read))
      }}
    />
  )
}

function KindFields({ point, onChange }: Pick<PointFormProps, 'point' | 'onChange'>) {
  const { t } = useWording()
  const edges = ['left', 'top', 'right', 'bottom'] as const
  switch (point.kind) {
    case 'solid-or-screen':
      return (
        <AmountField
          key={point.id}
          label={t('point.finest')}
          hint={t('point.finest.hint')}
          value={point.finestLpi}
          onChange={(finestLpi) => finestLpi !== null && finestLpi <= 400 && onChange({ ...point, finestLpi })}
        />
      )
    case 'tint-order':
      return (
        <div class="form-row">
          <SelectField
            label={t('point.order')}
            value={point.order}
            onChange={(order) => onChange({ ...point, order: order as 'darker' | 'lighter' })}
            options={(['darker', 'lighter'] as const).map((order) => ({ value: order, text: t(`order.${order}`) }))}
          />
          <AmountField
            key={point.id}
            label={t('point.least-delta')}
            least={0}
            value={point.leastDeltaL}
            onChange={(leastDeltaL) =>
              leastDeltaL !== null && leastDeltaL <= 100 && onChange({ ...point, leastDeltaL })
            }
          />
        </div>
      )
    case 'flush':
    case 'gap':
      return (
        <SelectField
          label={t('point.axis')}
          value={point.axis}
          onChange={(axis) => onChange({ ...point, axis: axis as 'x' | 'y' })}
          options={(['x', 'y'] as const).map((axis) => ({ value: axis, text: t(`axis.${axis}`) }))}
        />
      )
    case 'border-width':
      return (
        <SelectField
          label={t('point.edge')}
          hint={t(point.opposite === null ? 'point.edge.hint' : 'point.edge.centering')}
          value={point.edge}
          onChange={(edge) => onChange({ ...point, edge: edge as (typeof edges)[number] })}
          options={edges.map((edge) => ({ value: edge, text: t(`edge.${edge}`) }))}
        />
      )
    case 'judged':
      return (
        <TextField
          label={t('point.question')}
          hint={t('point.question.hint')}
          value={point.question}
          onChange={(question) => onChange({ ...point, question })}
          lines={2}
        />
      )
    default:
      return null
  }
}

function RegionNumbers({ region, onChange }: { region: Region; onChange: (region: Region) => void }) {
  const { t } = useWording()
  return (
    <div class="region-numbers">
      {NUMBERS.map((side) => (
        <label key={side} class="region-number">
          {t(`region.${side}`)}
          <input
            type="number"
            step="0.1"
            value={region[side].toFixed(1)}
            onChange={(event) => {
              const value = Number(event.currentTarget.value)
              if (event.currentTarget.value.trim() !== '' && Number.isFinite(value))
                onChange({ ...region, [side]: value })
            }}
          />
        </label>
      ))}
    </div>
  )
}
