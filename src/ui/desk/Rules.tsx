/**
 * Every rule that can raise a concern, to read, to search and to switch off: what it looks for, why, what settles it, what its
 * weight rests on, and its group, of which only the strongest counts. The buyer's own rules are written here.
 */
import type { ComponentChildren } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import type { Strength } from '../../domain/inspection.ts'
import type { OwnRule } from '../../domain/rules/own-rules.ts'
import type { PackFault } from '../../domain/rules/packs.ts'
import { FilePick } from '../parts/FilePick.tsx'
import { TextField } from '../parts/fields.tsx'
import { Icon, StrengthShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { RecordActions } from './GraderBook.tsx'
import { Ready } from './Ready.tsx'
import { FaultList, newOwnRule, RuleForm } from './RuleForm.tsx'
import type { RuleLine, RuleParts } from './rule-ports.ts'
import { useLoaded } from './use-loaded.ts'

const STRENGTHS: readonly Strength[] = ['strong', 'medium', 'weak']

interface Editing {
  /** `null`: a new rule. */
  readonly id: string | null
  readonly initial: OwnRule
  readonly parts: RuleParts
}

export function Rules() {
  const { t } = useWording()
  const { actions, ports, version } = useDesk()
  const loaded = useLoaded(() => ports.listRules(), [ports, version.value])
  const [editing, setEditing] = useState<Editing | null>(null)

  const edit = (id: string | null) =>
    actions.run('edit-rule', async () => {
      const [initial, parts] = await Promise.all([
        id === null ? newOwnRule() : ports.openOwnRule(id),
        ports.readRuleParts(),
      ])
      if (initial !== null) setEditing({ id, initial, parts })
    })

  return (
    <>
      <h1>{t('desk.rules')}</h1>
      <p class="lead">{t('rules.explained')}</p>
      {editing === null ? (
        <p>
          <button type="button" class="button primary" onClick={() => edit(null)}>
            <Icon name="add" />
            {t('rules.add')}
          </button>
        </p>
      ) : (
        <div class="sheet">
          <h2>{t(editing.id === null ? 'rules.new' : 'rules.edit')}</h2>
          <RuleForm
            key={editing.id ?? ''}
            initial={editing.initial}
            replaces={editing.id}
            parts={editing.parts}
            onDone={() => setEditing(null)}
          />
        </div>
      )}
      <Ready loaded={loaded}>
        {({ rules, faults }) => (
          <>
            {faults.length > 0 && <FaultList faults={faults} lead={t('rules.faults')} />}
            <OwnRules rules={rules.filter(({ own }) => own)} onEdit={edit} />
            <RuleList rules={rules.filter(({ own }) => !own)} />
          </>
        )}
      </Ready>
    </>
  )
}

function OwnRules({ rules, onEdit }: { rules: readonly RuleLine[]; onEdit: (id: string) => void }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [faults, setFaults] = useState<readonly PackFault[]>([])

  const remove = ({ id, title }: RuleLine) =>
    actions.run('delete-rule', async () => {
      await ports.deleteOwnRule(id)
      model.refresh()
      actions.say(t('rules.deleted', { name: title }), () =>
        actions.run('restore-rule', async () => {
          await ports.restoreOwnRule(id)
          model.refresh()
        }),
      )
    })

  const take = (file: File) => {
    let outcome: string | null = null
    actions.run(
      'import-rules',
      async () => {
        const { added, known, faults: found } = await ports.importRules(file)
        setFaults(found)
        if (found.length > 0) return
        outcome = t('share.imported', { added, known })
        model.refresh()
      },
      () => outcome,
    )
  }

  return (
    <section class="own-rules" aria-labelledby="own-rules-heading">
      <h2 id="own-rules-heading">{t('rules.own')}</h2>
      {rules.length === 0 && <p class="quiet">{t('rules.own.empty')}</p>}
      {rules.length > 0 && (
        <ul class="rules">
          {rules.map((rule) => (
            <RuleItem
              key={rule.id}
              rule={rule}
              actions={<RecordActions name={rule.title} onEdit={() => onEdit(rule.id)} onDelete={() => remove(rule)} />}
            />
          ))}
        </ul>
      )}
      <div class="share-list">
        <button
          type="button"
          class="button"
          disabled={rules.length === 0}
          onClick={() => actions.run('export-rules', () => ports.exportRules(), t('rules.exported'))}
        >
          {t('rules.export')}
        </button>
        <FilePick label={t('rules.import')} accept="application/json,.json" onFile={take} />
      </div>
      {faults.length > 0 && <FaultList faults={faults} lead={t('rules.import-faults')} />}
    </section>
  )
}

/** All words must occur; in which order and in which part does not matter. */
function fitsWords(rule: RuleLine, query: string): boolean {
  const words = query.toLocaleLowerCase().split(/\s+/).filter(Boolean)
  const text = [rule.title, rule.why, rule.settles, rule.id, rule.groupName].join(' ').toLocaleLowerCase()
  return words.every((word) => text.includes(word))
}

function RuleList({ rules }: { rules: readonly RuleLine[] }) {
  const { t, number } = useWording()
  const [query, setQuery] = useState('')
  const found = useMemo(() => rules.filter((rule) => fitsWords(rule, query)), [rules, query])
  const off = rules.filter((rule) => rule.off).length
  return (
    <section aria-labelledby="built-in-heading">
      <h2 id="built-in-heading">{t('rules.built-in')}</h2>
      <TextField
        label={t('rules.search')}
        hint={t('rules.search.hint')}
        type="search"
        value={query}
        onChange={setQuery}
      />
      <p class="quiet list-count" role="status">
        {query.trim() === ''
          ? t('rules.count', { count: rules.length })
          : t('rules.found', { found: number(found.length), total: number(rules.length) })}
        {off > 0 && ` · ${t('rules.off-count', { count: off })}`}
      </p>
      {found.length === 0 && <p class="quiet">{t('rules.none-found')}</p>}
      {STRENGTHS.map((strength) => {
        const ofStrength = found.filter((rule) => rule.strength === strength)
        return ofStrength.length === 0 ? null : (
          <section key={strength} class="rules-group">
            <h3 class="rules-heading">
              <StrengthShape strength={strength} /> {t(`strength.${strength}`)}{' '}
              <span class="count">{t('rules.count', { count: ofStrength.length })}</span>
            </h3>
            <ul class="rules">
              {ofStrength.map((rule) => (
                <RuleItem key={rule.id} rule={rule} onGroup={setQuery} />
              ))}
            </ul>
          </section>
        )
      })}
    </section>
  )
}

interface RuleItemProps {
  readonly rule: RuleLine
  readonly actions?: ComponentChildren
  readonly onGroup?: (group: string) => void
}

function RuleItem({ rule, actions: ownActions, onGroup }: RuleItemProps) {
  const { t, number } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const Heading = rule.own ? 'h3' : 'h4'

  const switchTo = (on: boolean) =>
    actions.run('switch-rule', async () => {
      await ports.switchRule(rule.id, on)
      model.refresh()
      actions.say(t(on ? 'rules.switched-on' : 'rules.switched-off', { name: rule.title }), () =>
        actions.run('switch-rule', async () => {
          await ports.switchRule(rule.id, !on)
          model.refresh()
        }),
      )
    })

  return (
    <li class={rule.off ? 'rule-off' : undefined}>
      <Heading>
        {rule.title}
        {rule.off && <span class="rule-state">{t('rules.is-off')}</span>}
      </Heading>
      {ownActions ?? <span />}
      <p>{rule.why}</p>
      <dl class="concern-facts">
        {rule.own && (
          <div>
            <dt>{t('rules.strength')}</dt>
            <dd>{t(`strength.${rule.strength}`)}</dd>
          </div>
        )}
        <div>
          <dt>{t('concern.settles')}</dt>
          <dd>{rule.settles}</dd>
        </div>
        <div>
          <dt>{t('concern.weight')}</dt>
          <dd>
            {rule.basis === 'learned'
              ? rule.words || t('weight.learned', { count: rule.count })
              : t('rules.ratio', { ratio: number(rule.likelihoodRatio) })}
          </dd>
        </div>
      </dl>
      <div class="rule-foot">
        <label class="choice">
          <input type="checkbox" checked={!rule.off} onChange={(event) => switchTo(event.currentTarget.checked)} />
          {t('rules.switch')}
          <span class="for-readers">: {rule.title}</span>
        </label>
        {onGroup ? (
          <button type="button" class="link-button rule-group" onClick={() => onGroup(rule.groupName)}>
            {t('rules.group', { group: rule.groupName })}
          </button>
        ) : (
          <span class="quiet rule-group">{t('rules.group', { group: rule.groupName })}</span>
        )}
        <code class="quiet">{rule.id}</code>
      </div>
    </li>
  )
}
