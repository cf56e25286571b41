/**
 * Every rule that can raise a concern, to read and to search: what it looks for, why, what settles it, what its weight rests
 * on, and its group, of which only the strongest counts.
 */
import { useMemo, useState } from 'preact/hooks'
import type { Strength } from '../../domain/inspection.ts'
import { TextField } from '../parts/fields.tsx'
import { StrengthShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import type { RuleLine } from './desk-ports.ts'
import { Ready } from './Ready.tsx'
import { useLoaded } from './use-loaded.ts'

const STRENGTHS: readonly Strength[] = ['strong', 'medium', 'weak']

export function Rules() {
  const { t } = useWording()
  const { ports } = useDesk()
  const loaded = useLoaded(() => ports.listRules(), [ports])
  return (
    <>
      <h1>{t('desk.rules')}</h1>
      <p class="lead">{t('rules.explained')}</p>
      <Ready loaded={loaded}>{(rules) => <RuleList rules={rules} />}</Ready>
    </>
  )
}

/** All words must occur; in which order and in which part does not matter. */
function fitsWords(rule: RuleLine, query: string): boolean {
  const words = query.toLocaleLowerCase().split(/\s+/).filter(Boolean)
  const text = [rule.title, rule.why, rule.settles, rule.id, rule.group].join(' ').toLocaleLowerCase()
  return words.every((word) => text.includes(word))
}

function RuleList({ rules }: { rules: readonly RuleLine[] }) {
  const { t, number } = useWording()
  const [query, setQuery] = useState('')
  const found = useMemo(() => rules.filter((rule) => fitsWords(rule, query)), [rules, query])
  return (
    <>
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
      </p>
      {found.length === 0 && <p class="quiet">{t('rules.none-found')}</p>}
      {STRENGTHS.map((strength) => {
        const ofStrength = found.filter((rule) => rule.strength === strength)
        return ofStrength.length === 0 ? null : (
          <section key={strength} class="rules-group">
            <h2 class="rules-heading">
              <StrengthShape strength={strength} /> {t(`strength.${strength}`)}{' '}
              <span class="count">{t('rules.count', { count: ofStrength.length })}</span>
            </h2>
            <ul class="rules">
              {ofStrength.map((rule) => (
                <Rule key={rule.id} rule={rule} onGroup={setQuery} />
              ))}
            </ul>
          </section>
        )
      })}
    </>
  )
}

function Rule({ rule, onGroup }: { rule: RuleLine; onGroup: (group: string) => void }) {
  const { t, number } = useWording()
  return (
    <li>
      <h3>{rule.title}</h3>
      <code class="quiet">{rule.id}</code>
      <p>{rule.why}</p>
      <dl class="concern-facts">
        <div>
          <dt>{t('concern.settles')}</dt>
          <dd>{rule.settles}</dd>
        </div>
        <div>
          <dt>{t('concern.weight')}</dt>
          <dd>
            {rule.basis === 'learned'
              ? t('weight.learned', { count: rule.count })
              : t('rules.ratio', { ratio: number(rule.likelihoodRatio) })}
          </dd>
        </div>
      </dl>
      <button type="button" class="link-button rule-group" onClick={() => onGroup(rule.group)}>
        {t('rules.group', { group: rule.group })}
      </button>
    </li>
  )
}
