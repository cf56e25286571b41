/** One comparison of a fact in an own rule, with the choices that the fact's kind leaves; and the small fields that it needs. */
import { useId, useState } from 'preact/hooks'
import type { Condition } from '../../domain/rules/conditions.ts'
import { FACTS, type FactId } from '../../domain/rules/fact-ids.ts'
import { FACT_VALUES, type FactVerb, verbsOf } from '../../domain/rules/own-rules.ts'
import { SelectField, TextField as TextInput } from '../parts/fields.tsx'
import { parseWords } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'
import type { RuleParts } from './rule-ports.ts'

type FactCondition = Extract<Condition, { readonly [Verb in FactVerb]?: unknown }>

const FACT_VERBS: readonly FactVerb[] = ['is', 'oneOf', 'known', 'unknown', 'atLeast', 'below', 'differ']

function say(fact: FactId, verb: FactVerb, before: FactCondition | null): FactCondition {
  const values = FACT_VALUES[fact]
  switch (verb) {
    case 'is':
      return { is: { fact, value: FACTS[fact] === 'flag' ? true : (values?.[0] ?? '') } }
    case 'oneOf':
      return { oneOf: { fact, values: values?.slice(0, 1) ?? [] } }
    case 'known':
      return { known: { fact } }
    case 'unknown':
      return { unknown: { fact } }
    case 'differ':
      return { differ: { fact, from: comparable(fact)[0] ?? fact } }
    default: {
      const earlier = before && ('atLeast' in before ? before.atLeast : 'below' in before ? before.below : null)
      const threshold = earlier?.fact === fact ? earlier.threshold : { value: 1, unit: fact, reason: '–' }
      return verb === 'atLeast' ? { atLeast: { fact, threshold } } : { below: { fact, threshold } }
    }
  }
}

const comparable = (fact: FactId): FactId[] =>
  (Object.keys(FACTS) as FactId[]).filter((other) => other !== fact && FACTS[other] === FACTS[fact])

export function FactEditor({
  condition,
  parts,
  onChange,
}: {
  condition: Condition
  parts: RuleParts
  onChange: (condition: Condition) => void
}) {
  const { t } = useWording()
  const verb = FACT_VERBS.find((known) => known in condition)
  if (verb === undefined) return null
  const said = condition as FactCondition
  const { fact } = Object.values(said)[0] as { fact: FactId }
  const values = FACT_VALUES[fact]
  const nameOf = (id: FactId) => parts.facts.find((one) => one.id === id)?.name ?? id
  const limit = 'atLeast' in said ? said.atLeast.threshold : 'below' in said ? said.below.threshold : null
  const putLimit = (change: Partial<NonNullable<typeof limit>>) => {
    const threshold = { ...limit!, ...change }
    onChange('atLeast' in said ? { atLeast: { fact, threshold } } : { below: { fact, threshold } })
  }
  const offered = verbsOf(fact).includes(verb) ? verbsOf(fact) : [...verbsOf(fact), verb]
  return (
    <div class="fact-row">
      <SelectField
        label={t('rule-form.fact')}
        value={fact}
        onChange={(next) => {
          const id = next as FactId
          onChange(say(id, verbsOf(id).includes(verb) ? verb : verbsOf(id)[0]!, said))
        }}
        options={parts.facts.map(({ id, name }) => ({ value: id, text: name }))}
      />
      <SelectField
        label={t('rule-form.verb')}
        value={verb}
        onChange={(next) => onChange(say(fact, next as FactVerb, said))}
        options={offered.map((one) => ({ value: one, text: t(`rule-form.verb.${one}`) }))}
      />
      {'is' in said &&
        (FACTS[fact] === 'flag' || values ? (
          <SelectField
            label={t('rule-form.value')}
            value={String(said.is.value)}
            onChange={(value) => onChange({ is: { fact, value: FACTS[fact] === 'flag' ? value === 'true' : value } })}
            options={(values ?? ['true', 'false']).map((value) => ({ value, text: t(`rule-value.${value}`) }))}
          />
        ) : (
          <TextInput
            label={t('rule-form.value')}
            value={String(said.is.value)}
            onChange={(value) => onChange({ is: { fact, value } })}
          />
        ))}
      {'oneOf' in said &&
        (values ? (
          <Checks
            legend={t('rule-form.value')}
            options={values.map((value) => ({ value, text: t(`rule-value.${value}`) }))}
            chosen={said.oneOf.values}
            onChange={(chosen) => onChange({ oneOf: { fact, values: chosen } })}
          />
        ) : (
          <WordsInput
            label={t('rule-form.values')}
            words={said.oneOf.values}
            onChange={(chosen) => onChange({ oneOf: { fact, values: chosen } })}
          />
        ))}
      {'differ' in said && (
        <SelectField
          label={t('rule-form.from')}
          value={said.differ.from}
          onChange={(from) => onChange({ differ: { fact, from: from as FactId } })}
          options={comparable(fact).map((id) => ({ value: id, text: nameOf(id) }))}
        />
      )}
      {limit !== null && (
        <NumberInput
          label={t('rule-form.number')}
          value={limit.value}
          onChange={(value) => putLimit({ value, unit: nameOf(fact) })}
        />
      )}
      {limit !== null && (
        <TextInput
          label={t('rule-form.reason')}
          hint={t('rule-form.reason.hint')}
          value={limit.reason === '–' ? '' : limit.reason}
          onChange={(reason) => putLimit({ reason: reason.trim() === '' ? '–' : reason, unit: nameOf(fact) })}
        />
      )}
    </div>
  )
}

function WordsInput({
  label,
  words,
  onChange,
}: {
  label: string
  words: readonly string[]
  onChange: (words: readonly string[]) => void
}) {
  const [text, setText] = useState(words.join(', '))
  return (
    <TextInput
      label={label}
      value={text}
      onChange={(typed) => {
        setText(typed)
        onChange(parseWords(typed))
      }}
    />
  )
}

export function NumberInput({
  label,
  hint,
  value,
  onChange,
}: {
  label: string
  hint?: string
  value: number
  onChange: (value: number) => void
}) {
  const id = useId()
  // As it is typed: "0." is on its way to a number.
  const [text, setText] = useState(String(value))
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={text}
        aria-describedby={hint ? `${id}-hint` : undefined}
        onInput={(event) => {
          setText(event.currentTarget.value)
          const number = Number(event.currentTarget.value.trim().replace(',', '.'))
          if (event.currentTarget.value.trim() !== '' && Number.isFinite(number)) onChange(number)
        }}
      />
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
    </div>
  )
}

export function Checks({
  legend,
  options,
  chosen,
  onChange,
}: {
  legend: string
  options: readonly { readonly value: string; readonly text: string }[]
  chosen: readonly string[]
  onChange: (chosen: readonly string[]) => void
}) {
  return (
    <fieldset class="choices checks">
      <legend>{legend}</legend>
      {options.map(({ value, text }) => (
        <label key={value} class="choice">
          <input
            type="checkbox"
            checked={chosen.includes(value)}
            onChange={(event) =>
              onChange(
                event.currentTarget.checked
                  ? options.map((option) => option.value).filter((one) => one === value || chosen.includes(one))
                  : chosen.filter((one) => one !== value),
              )
            }
          />
          {text}
        </label>
      ))}
    </fieldset>
  )
}
