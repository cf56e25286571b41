/** Labelled fields. The hint and the fault are tied to the field, so that they are read out with it. */
import { useId } from 'preact/hooks'

interface FieldProps {
  readonly label: string
  readonly hint?: string | null
  readonly fault?: string | null
  readonly value: string
  readonly onChange: (value: string) => void
}

interface TextFieldProps extends FieldProps {
  /** More than one: a box that grows from so many lines. */
  readonly lines?: number
  readonly inputMode?: 'text' | 'numeric' | 'decimal' | 'url'
  readonly type?: 'text' | 'search' | 'password'
}

export function TextField({
  label,
  hint,
  fault,
  value,
  onChange,
  lines = 1,
  inputMode,
  type = 'text',
}: TextFieldProps) {
  const id = useId()
  const described = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].filter(Boolean).join(' ') || undefined
  const shared = {
    id,
    value,
    'aria-describedby': described,
    'aria-invalid': fault ? ('true' as const) : undefined,
    onInput: (event: { currentTarget: { value: string } }) => onChange(event.currentTarget.value),
  }
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {lines > 1 ? (
        <textarea rows={lines} {...shared} />
      ) : type === 'search' ? (
        <input type="search" autocomplete="off" {...shared} />
      ) : (
        <input type="text" inputMode={inputMode} autocomplete="off" {...shared} />
      )}
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {fault && (
        <p class="field-fault" id={`${id}-fault`}>
          {fault}
        </p>
      )}
    </div>
  )
}

export function SelectField({
  label,
  hint,
  value,
  onChange,
  options,
  hideLabel = false,
}: FieldProps & {
  readonly options: readonly { readonly value: string; readonly text: string }[]
  readonly hideLabel?: boolean
}) {
  const id = useId()
  return (
    <div class="field">
      <label for={id} class={hideLabel ? 'for-readers' : undefined}>
        {label}
      </label>
      <select
        id={id}
        value={value}
        aria-describedby={hint ? `${id}-hint` : undefined}
        onChange={(event) => onChange(event.currentTarget.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  )
}
