/**
 * A condition of an own rule, put together from what the rule language has: facts, words, views, other rules, and several of
 * them together. Edits the condition itself, so that whatever a file holds can be shown. Nothing is typed as a pattern.
 */
import { useId } from 'preact/hooks'
import { type Condition, partsOf, TEXT_FIELDS, type TextField, verbOf } from '../../domain/rules/conditions.ts'
import type { PhrasePack } from '../../domain/rules/phrase-pack.ts'
import { VIEW_IDS, type ViewId, type ViewStatus } from '../../domain/views.ts'
import { SelectField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { Checks, FactEditor } from './FactEditor.tsx'
import { PhraseEditor } from './PhraseEditor.tsx'
import type { RuleParts } from './rule-ports.ts'

const STATUSES: readonly ViewStatus[] = ['missing', 'not-readable', 'cannot-tell', 'shown']
const PIECES = ['words', 'fact', 'view', 'list', 'raised', 'group'] as const
type Piece = (typeof PIECES)[number]
const JOINTS = ['all', 'any', 'count'] as const
type Joint = (typeof JOINTS)[number]
/** Groups within groups within groups are read by nobody. Ours. */
const DEEPEST = 3

export interface ConditionEditorProps {
  readonly condition: Condition
  readonly parts: RuleParts
  /** The rule's own phrase lists. */
  readonly phrases: readonly PhrasePack[]
  readonly onChange: (condition: Condition, phrases: readonly PhrasePack[]) => void
  readonly depth?: number
}

function join(joint: Joint, parts: readonly Condition[], atLeast: number): Condition {
  if (joint === 'count') return { count: { of: parts, atLeast: Math.max(1, Math.min(atLeast, parts.length)) } }
  return joint === 'all' ? { all: parts } : { any: parts }
}

const jointOf = (condition: Condition): Joint => ('all' in condition ? 'all' : 'count' in condition ? 'count' : 'any')

function newListId(phrases: readonly PhrasePack[]): string {
  for (let number = 1; ; number++) {
    const id = `new-words-${number}`
    if (!phrases.some((list) => list.id === id)) return id
  }
}

/** Several conditions and how they hang together. */
export function ConditionEditor({ condition, parts, phrases, onChange, depth = 0 }: ConditionEditorProps) {
  const { t } = useWording()
  const name = useId()
  const joint = jointOf(condition)
  const inner = partsOf(condition)
  const atLeast = 'count' in condition ? condition.count.atLeast : 2
  const put = (changed: readonly Condition[], lists = phrases, how = joint) =>
    onChange(join(how, changed, atLeast), lists)

  const add = (piece: Piece) => {
    if (piece === 'words') {
      const id = newListId(phrases)
      const list: PhrasePack = {
        schemaVersion: 1,
        kind: 'phrases',
        id,
        about: 'Words of an own rule.',
        negation: 'cancels',
        mention: 'cancels',
        phrases: { en: [] },
      }
      return put([...inner, { phrase: { list: id, in: ['title', 'description'] } }], [...phrases, list])
    }
    put([...inner, startOf(piece, parts)])
  }

  return (
    <div class={depth === 0 ? 'condition-group' : 'condition-group is-inner'}>
      {(inner.length > 1 || depth > 0) && (
        <fieldset class="choices joint">
          <legend>{t('rule-form.joint')}</legend>
          {JOINTS.map((how) => (
            <label key={how} class="choice">
              <input type="radio" name={name} checked={joint === how} onChange={() => put(inner, phrases, how)} />
              {t(`rule-form.joint.${how}`)}
            </label>
          ))}
          {joint === 'count' && (
            <label class="choice">
              {t('rule-form.at-least')}
              <input
                type="number"
                class="small-number"
                min={1}
                max={inner.length}
                value={atLeast}
                onInput={(event) => {
                  const wanted = event.currentTarget.valueAsNumber
                  if (Number.isInteger(wanted)) onChange(join('count', inner, wanted), phrases)
                }}
              />
            </label>
          )}
        </fieldset>
      )}
      <ol class="condition-parts">
        {inner.map((part, at) => (
          <li key={`${at}-${verbOf(bare(part))}`}>
            <PartEditor
              part={part}
              number={at + 1}
              parts={parts}
              phrases={phrases}
              depth={depth}
              onChange={(changed, lists) =>
                put(
                  inner.map((other, index) => (index === at ? changed : other)),
                  lists,
                )
              }
              onRemove={() => put(inner.filter((_, index) => index !== at))}
            />
          </li>
        ))}
      </ol>
      <fieldset class="add-parts">
        <legend class="for-readers">{t('rule-form.add')}</legend>
        {PIECES.filter((piece) => piece !== 'group' || depth < DEEPEST).map((piece) => (
          <button key={piece} type="button" class="button small" onClick={() => add(piece)}>
            <Icon name="add" />
            {t(`rule-form.add.${piece}`)}
          </button>
        ))}
      </fieldset>
    </div>
  )
}

function startOf(piece: Exclude<Piece, 'words'>, parts: RuleParts): Condition {
  if (piece === 'fact') return { is: { fact: 'claim.encapsulation', value: 'raw' } }
  if (piece === 'view') return { view: { view: 'back', status: ['missing'] } }
  if (piece === 'list') return { phrase: { list: parts.lists[0]?.id ?? '', in: ['title', 'description'] } }
  if (piece === 'raised') return { raised: { rule: parts.rules[0]?.id ?? '' } }
  return { any: [{ is: { fact: 'claim.encapsulation', value: 'raw' } }] }
}

const bare = (part: Condition): Condition => ('not' in part ? part.not : part)

interface PartEditorProps extends Required<Pick<ConditionEditorProps, 'parts' | 'phrases' | 'onChange' | 'depth'>> {
  readonly part: Condition
  readonly number: number
  readonly onRemove: () => void
}

function PartEditor({ part, number, parts, phrases, depth, onChange, onRemove }: PartEditorProps) {
  const { t } = useWording()
  const negated = 'not' in part
  const inner = bare(part)
  const put = (changed: Condition, lists = phrases) => onChange(negated ? { not: changed } : changed, lists)
  const ownList = 'phrase' in inner ? phrases.find(({ id }) => id === inner.phrase.list) : undefined
  return (
    <fieldset class="condition-part">
      <legend class="for-readers">{t('rule-form.part', { number })}</legend>
      <div class="part-head">
        <label class="choice">
          <input
            type="checkbox"
            checked={negated}
            onChange={() => onChange(negated ? inner : { not: inner }, phrases)}
          />
          {t('rule-form.not')}
        </label>
        <button type="button" class="icon-button" aria-label={t('rule-form.remove', { number })} onClick={onRemove}>
          <Icon name="remove" />
        </button>
      </div>
      {('all' in inner || 'any' in inner || 'count' in inner || 'not' in inner) && (
        <ConditionEditor condition={inner} parts={parts} phrases={phrases} depth={depth + 1} onChange={put} />
      )}
      {'phrase' in inner && (
        <>
          {ownList ? (
            <PhraseEditor
              list={ownList}
              onChange={(changed) =>
                put(
                  inner,
                  phrases.map((list) => (list.id === changed.id ? changed : list)),
                )
              }
            />
          ) : (
            <SelectField
              label={t('rule-form.list')}
              value={inner.phrase.list}
              onChange={(list) => put({ phrase: { ...inner.phrase, list } })}
              options={parts.lists.map(({ id, name }) => ({ value: id, text: name }))}
            />
          )}
          <Checks
            legend={t('rule-form.where')}
            options={TEXT_FIELDS.map((field) => ({ value: field, text: t(`rule-form.field.${field}`) }))}
            chosen={inner.phrase.in}
            onChange={(fields) => put({ phrase: { ...inner.phrase, in: fields as TextField[] } })}
          />
        </>
      )}
      {'view' in inner && (
        <>
          <SelectField
            label={t('rule-form.view')}
            value={inner.view.view}
            onChange={(view) => put({ view: { ...inner.view, view: view as ViewId } })}
            options={VIEW_IDS.map((view) => ({ value: view, text: t(`view.${view}`) }))}
          />
          <Checks
            legend={t('rule-form.view-is')}
            options={STATUSES.map((status) => ({ value: status, text: t(`rule-form.status.${status}`) }))}
            chosen={inner.view.status}
            onChange={(status) => put({ view: { ...inner.view, status: status as ViewStatus[] } })}
          />
        </>
      )}
      {'raised' in inner && (
        <SelectField
          label={t('rule-form.raised')}
          value={inner.raised.rule}
          onChange={(rule) => put({ raised: { rule } })}
          options={parts.rules.map(({ id, name }) => ({ value: id, text: name }))}
        />
      )}
      <FactEditor condition={inner} parts={parts} onChange={put} />
    </fieldset>
  )
}
