/** The card's nominal size, which turns pixels into millimetres: a usual one, or width and height as measured. */
import { useState } from 'preact/hooks'
import { CARD_SIZES } from '../../domain/card-sizes.ts'
import type { LastComparison } from '../../domain/settings.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'

const OTHER_SIZE = 'other'

type Size = LastComparison['nominalSize']

/** Millimetres: no card of the trade lies outside, a slip of the keyboard does. Ours, no source. */
const LEAST_MM = 15
const MOST_MM = 300

interface CardSizeChoiceProps {
  readonly sizeId: string
  readonly size: Size | null
  /** `null`: what was typed is no size. */
  readonly onChange: (sizeId: string, size: Size | null) => void
}

export function CardSizeChoice({ sizeId, size, onChange }: CardSizeChoiceProps) {
  const { t, number } = useWording()
  const [typed, setTyped] = useState({ width: String(size?.widthMm ?? ''), height: String(size?.heightMm ?? '') })
  const mm = (value: number) => number(value, { minimumFractionDigits: 1 })
  const chosen = CARD_SIZES.find(({ id }) => id === sizeId)

  const choose = (id: string) => {
    const known = CARD_SIZES.find((candidate) => candidate.id === id)
    if (known === undefined) return onChange(id, toSize(typed))
    const { widthMm, heightMm } = known
    setTyped({ width: String(widthMm), height: String(heightMm) })
    onChange(id, { widthMm, heightMm })
  }
  const type = (change: Partial<typeof typed>) => {
    const next = { ...typed, ...change }
    setTyped(next)
    onChange(OTHER_SIZE, toSize(next))
  }
  const fault = (text: string) =>
    toMillimetres(text) === null ? t('size.fault', { least: LEAST_MM, most: MOST_MM }) : null

  return (
    <>
      <SelectField
        label={t('size.label')}
        hint={chosen && t('size.millimetres', { width: mm(chosen.widthMm), height: mm(chosen.heightMm) })}
        value={sizeId}
        onChange={choose}
        options={[
          ...CARD_SIZES.map(({ id }) => ({ value: id, text: t(`size.${id}`) })),
          { value: OTHER_SIZE, text: t('size.other') },
        ]}
      />
      {sizeId === OTHER_SIZE && (
        <div class="size-fields">
          <TextField
            label={t('size.width')}
            inputMode="decimal"
            value={typed.width}
            fault={fault(typed.width)}
            onChange={(width) => type({ width })}
          />
          <TextField
            label={t('size.height')}
            inputMode="decimal"
            value={typed.height}
            fault={fault(typed.height)}
            onChange={(height) => type({ height })}
          />
        </div>
      )}
    </>
  )
}

function toMillimetres(text: string): number | null {
  const amount = parseAmount(text)
  const value = amount === null ? null : Number(amount)
  return value !== null && value >= LEAST_MM && value <= MOST_MM ? value : null
}

function toSize({ width, height }: { readonly width: string; readonly height: string }): Size | null {
  const [widthMm, heightMm] = [toMillimetres(width), toMillimetres(height)]
  return widthMm === null || heightMm === null ? null : { widthMm, heightMm }
}
