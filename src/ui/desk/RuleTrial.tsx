/**
 * In which of the kept dossiers the rule in the form would have been raised. Runs by itself a moment after each change; what is no
 * longer asked for is cancelled, and what takes longer than a second shows how far it is and can be stopped.
 */
import { useEffect, useState } from 'preact/hooks'
import type { OwnRule } from '../../domain/rules/own-rules.ts'
import { type Fault, isCancelled, toFault } from '../fault.ts'
import { FaultText } from '../parts/FaultText.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { formatPlace } from './desk-model.ts'
import type { RulePreview } from './rule-ports.ts'

/** Milliseconds without a key pressed: long enough to finish a word. Ours. */
const PAUSE_MS = 500
const SHOWN = 12

type Trial =
  | { readonly phase: 'empty' }
  | { readonly phase: 'running'; readonly share: number; readonly controller: AbortController }
  | { readonly phase: 'stopped' }
  | { readonly phase: 'failed'; readonly fault: Fault }
  | { readonly phase: 'unfinished'; readonly faults: readonly string[] }
  | { readonly phase: 'done'; readonly preview: RulePreview }

const hasCondition = ({ rule }: OwnRule) => rule.cases.some(({ when }) => !('all' in when && when.all.length === 0))

/** The words of a rule change nothing about where it is raised; without any it could not be tried. */
const nameless = ({ rule, phrases }: OwnRule): OwnRule => ({
  rule: { ...rule, source: '–', text: { title: '–', why: '–', settles: '–' } },
  phrases,
})

export function RuleTrial({ draft, replaces }: { draft: OwnRule; replaces: string | null }) {
  const { t, number } = useWording()
  const { ports } = useDesk()
  const [trial, setTrial] = useState<Trial>({ phase: 'empty' })
  const asked = JSON.stringify(nameless(draft))

  useEffect(() => {
    if (!hasCondition(draft)) {
      setTrial({ phase: 'empty' })
      return
    }
    const controller = new AbortController()
    const { signal } = controller
    const run = async () => {
      const tried = JSON.parse(asked) as OwnRule
      const faults = await ports.checkOwnRule(tried, replaces)
      if (signal.aborted) return
      if (faults.length > 0) {
        setTrial({ phase: 'unfinished', faults: faults.map(({ path, fault }) => `${path}: ${fault}`) })
        return
      }
      setTrial({ phase: 'running', share: 0, controller })
      const preview = await ports.previewRule(tried, {
        signal,
        onProgress: (share) => {
          if (!signal.aborted) setTrial({ phase: 'running', share, controller })
        },
      })
      if (!signal.aborted) setTrial({ phase: 'done', preview })
    }
    const timer = setTimeout(() => {
      run().catch((error: unknown) => {
        if (!isCancelled(error)) setTrial({ phase: 'failed', fault: toFault(error) })
      })
    }, PAUSE_MS)
    return () => {
      clearTimeout(timer)
      controller.abort()
    }
  }, [asked, replaces, ports])

  return (
    <section class="rule-trial" aria-labelledby="trial-heading">
      <h3 id="trial-heading">{t('rule-trial.heading')}</h3>
      <div role="status" aria-live="polite">
        {trial.phase === 'empty' && <p class="quiet">{t('rule-trial.empty')}</p>}
        {trial.phase === 'stopped' && <p class="quiet">{t('rule-trial.stopped')}</p>}
        {trial.phase === 'failed' && <FaultText fault={trial.fault} />}
        {trial.phase === 'unfinished' && (
          <>
            <p class="quiet">{t('rule-trial.unfinished')}</p>
            <ul class="faults">
              {trial.faults.map((fault) => (
                <li key={fault}>{fault}</li>
              ))}
            </ul>
          </>
        )}
        {trial.phase === 'done' && (
          <p>
            {trial.preview.looked === 0
              ? t('rule-trial.no-dossiers')
              : t('rule-trial.raised', {
                  count: trial.preview.looked,
                  raised: number(trial.preview.raised.length),
                })}
          </p>
        )}
      </div>
      {trial.phase === 'running' && (
        <div class="photo-progress">
          <progress max={1} value={trial.share} aria-label={t('rule-trial.progress')} />
          <button
            type="button"
            class="button small"
            onClick={() => {
              trial.controller.abort()
              setTrial({ phase: 'stopped' })
            }}
          >
            {t('action.cancel')}
          </button>
        </div>
      )}
      {trial.phase === 'done' && trial.preview.raised.length > 0 && (
        <ul class="trial-list">
          {trial.preview.raised.slice(0, SHOWN).map(({ id, title, quotes }) => (
            <li key={id}>
              <a class="link" href={formatPlace({ section: 'dossiers', id })} target="_blank" rel="noreferrer">
                <bdi>{title}</bdi>
              </a>
              {quotes.map((quote) => (
                <q key={quote}>{quote}</q>
              ))}
            </li>
          ))}
        </ul>
      )}
      {trial.phase === 'done' && trial.preview.raised.length > SHOWN && (
        <p class="quiet">{t('rule-trial.more', { count: trial.preview.raised.length - SHOWN })}</p>
      )}
      <p class="hint">{t('rule-trial.hint')}</p>
    </section>
  )
}
