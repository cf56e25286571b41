/**
 * A rule of the buyer's own, in a form: when it is raised, how much it weighs and why, what to ask for, what settles it; and, as
 * it is written, in which of the kept dossiers it would have been raised. Asks its ports; keeps nothing but the draft.
 */
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Strength } from '../../domain/inspection.ts'
import type { Condition } from '../../domain/rules/conditions.ts'
import type { OwnRule } from '../../domain/rules/own-rules.ts'
import type { PackFault } from '../../domain/rules/packs.ts'
import type { RuleCase } from '../../domain/rules/rule.ts'
import { VIEW_IDS, type ViewId } from '../../domain/views.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { StrengthShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { ConditionEditor } from './ConditionEditor.tsx'
import { useDesk } from './desk-context.ts'
import { Checks, NumberInput } from './FactEditor.tsx'
import { cleanList } from './PhraseEditor.tsx'
import { RuleTrial } from './RuleTrial.tsx'
import type { RuleParts } from './rule-ports.ts'

const STRENGTHS: readonly Strength[] = ['strong', 'medium', 'weak']
/** What a form starts from: between the weak and the strong ones of ours. */
const USUAL_RATIO: Readonly<Record<Strength, number>> = { strong: 8, medium: 3, weak: 1.5 }
/** Stands for the rule's own id until it has one. */
const NEW_ID = 'new-rule'

export function newOwnRule(): OwnRule {
  return {
    rule: {
      id: NEW_ID,
      group: NEW_ID,
      source: '',
      request: [],
      cases: [{ strength: 'medium', likelihoodRatio: USUAL_RATIO.medium, when: { all: [] } }],
      text: { title: '', why: '', settles: '' },
    },
    phrases: [],
  }
}

/** The outermost condition is a group, so that another can be put beside it. */
const asGroup = (condition: Condition): Condition =>
  'all' in condition || 'any' in condition || 'count' in condition ? condition : { all: [condition] }

interface RuleFormProps {
  readonly initial: OwnRule
  /** The id under which it is stored; `null`: a new one. */
  readonly replaces: string | null
  readonly parts: RuleParts
  readonly onDone: () => void
}

export function RuleForm({ initial, replaces, parts, onDone }: RuleFormProps) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [draft, setDraft] = useState(initial)
  const [faults, setFaults] = useState<readonly PackFault[]>([])
  const [tried, setTried] = useState(false)
  const form = useRef<HTMLFormElement>(null)
  const { rule } = draft
  const text = rule.text ?? { title: '', why: '', settles: '' }

  useEffect(() => form.current?.querySelector('input')?.focus(), [])

  const put = (change: Partial<OwnRule['rule']>) => setDraft((now) => ({ ...now, rule: { ...now.rule, ...change } }))
  const putText = (change: Partial<typeof text>) => put({ text: { ...text, ...change } })
  const putCase = (at: number, change: Partial<RuleCase>, phrases = draft.phrases) =>
    setDraft((now) => ({
      rule: { ...now.rule, cases: now.rule.cases.map((one, index) => (index === at ? { ...one, ...change } : one)) },
      phrases,
    }))
  const needed = (value: string) => (tried && value.trim() === '' ? t('rule-form.needed') : null)
  const whole = [text.title, text.why, text.settles, rule.source].every((value) => value.trim() !== '')
  const cleaned: OwnRule = { rule, phrases: draft.phrases.map(cleanList) }

  const save = (event: Event) => {
    event.preventDefault()
    setTried(true)
    if (!whole) {
      // After the faults are drawn, to the first of them.
      setTimeout(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
      return
    }
    void actions.run('save-rule', async () => {
      const found = await ports.saveOwnRule(cleaned, replaces)
      setFaults(found)
      if (found.length > 0) return
      model.refresh()
      onDone()
      actions.say(t('rule-form.saved', { name: text.title }))
    })
  }

  return (
    <form
      ref={form}
      class="form rule-form"
      onSubmit={save}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onDone()
      }}
    >
      <TextField
        label={t('rule-form.name')}
        hint={t('rule-form.name.hint')}
        fault={needed(text.title)}
        value={text.title}
        onChange={(title) => putText({ title })}
      />
      {rule.cases.map((ruleCase, at) => (
        <section key={at} class="rule-case" aria-label={t('rule-form.when')}>
          <h3>{rule.cases.length === 1 ? t('rule-form.when') : t('rule-form.case', { number: at + 1 })}</h3>
          <ConditionEditor
            condition={asGroup(ruleCase.when)}
            parts={parts}
            phrases={draft.phrases}
            onChange={(when, phrases) => putCase(at, { when }, phrases)}
          />
          <div class="form-row">
            <fieldset class="choices">
              <legend>{t('rule-form.strength')}</legend>
              {STRENGTHS.map((strength) => (
                <label key={strength} class="choice">
                  <input
                    type="radio"
                    name={`strength-${at}`}
                    checked={ruleCase.strength === strength}
                    onChange={() => putCase(at, { strength, likelihoodRatio: USUAL_RATIO[strength] })}
                  />
                  <StrengthShape strength={strength} />
                  {t(`strength.${strength}`)}
                </label>
              ))}
            </fieldset>
            <NumberInput
              key={ruleCase.strength}
              label={t('rule-form.ratio')}
              hint={t('rule-form.ratio.hint')}
              value={ruleCase.likelihoodRatio}
              onChange={(likelihoodRatio) => putCase(at, { likelihoodRatio })}
            />
          </div>
        </section>
      ))}
      <TextField
        label={t('rule-form.source')}
        hint={t('rule-form.source.hint')}
        fault={needed(rule.source)}
        value={rule.source}
        onChange={(source) => put({ source })}
      />
      <SelectField
        label={t('rule-form.group')}
        hint={t('rule-form.group.hint')}
        value={rule.group}
        onChange={(group) => put({ group })}
        options={[
          { value: rule.id, text: t('rule-form.group.own') },
          ...parts.groups.filter(({ id }) => id !== rule.id).map(({ id, name }) => ({ value: id, text: name })),
        ]}
      />
      <TextField
        label={t('rule-form.why')}
        fault={needed(text.why)}
        lines={2}
        value={text.why}
        onChange={(why) => putText({ why })}
      />
      <TextField
        label={t('rule-form.settles')}
        hint={t('rule-form.settles.hint')}
        fault={needed(text.settles)}
        value={text.settles}
        onChange={(settles) => putText({ settles })}
      />
      <details class="rule-views" open={rule.request.length > 0}>
        <summary>{t('rule-form.request', { count: rule.request.length })}</summary>
        <Checks
          legend={t('rule-form.request.legend')}
          options={VIEW_IDS.map((view) => ({ value: view, text: t(`view.${view}`) }))}
          chosen={rule.request}
          onChange={(request) => put({ request: request as ViewId[] })}
        />
      </details>
      <RuleTrial draft={cleaned} replaces={replaces} />
      {faults.length > 0 && <FaultList faults={faults} lead={t('rule-form.faults')} />}
      <div class="form-actions">
        <button type="submit" class="button primary" disabled={actions.busy.value.has('save-rule')}>
          {t('rule-form.save')}
        </button>
        <button type="button" class="button" onClick={onDone}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}

/** Faults with their places, as the packs' own check names them. */
export function FaultList({ faults, lead }: { faults: readonly PackFault[]; lead: string }) {
  return (
    <div class="rule-faults" role="alert">
      <p>{lead}</p>
      <ul class="faults">
        {faults.map(({ file, path, fault }) => (
          <li key={`${file}${path}${fault}`}>
            <code>{[file, path].filter(Boolean).join(' · ')}</code>: {fault}
          </li>
        ))}
      </ul>
    </div>
  )
}
