/** Every rule that can raise a concern, to read: what it looks for, why, what settles it, what its weight rests on. */
import type { Strength } from '../../domain/inspection.ts'
import { StrengthShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { Ready } from './Ready.tsx'
import { useLoaded } from './use-loaded.ts'

const STRENGTHS: readonly Strength[] = ['strong', 'medium', 'weak']

export function Rules() {
  const { t, number } = useWording()
  const { ports } = useDesk()
  const loaded = useLoaded(() => ports.listRules(), [ports])
  return (
    <>
      <h1>{t('desk.rules')}</h1>
      <p class="lead">{t('rules.explained')}</p>
      <Ready loaded={loaded}>
        {(rules) =>
          STRENGTHS.map((strength) => {
            const ofStrength = rules.filter((rule) => rule.strength === strength)
            return ofStrength.length === 0 ? null : (
              <section key={strength} class="rules-group">
                <h2 class="rules-heading">
                  <StrengthShape strength={strength} /> {t(`strength.${strength}`)}{' '}
                  <span class="count">{t('rules.count', { count: ofStrength.length })}</span>
                </h2>
                <ul class="rules">
                  {ofStrength.map((rule) => (
                    <li key={rule.id}>
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
                    </li>
                  ))}
                </ul>
              </section>
            )
          })
        }
      </Ready>
    </>
  )
}
