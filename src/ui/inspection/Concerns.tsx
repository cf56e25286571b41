/**
 * The concerns, strongest first as the inspection gives them: the quote, the reason, what to ask, what settles it, and what
 * its weight rests on. Where there are many, only the strong ones stand open. Settling takes a reason and can be taken back. Without `onSettle` (in a dossier) it only shows.
 */
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Concern, Evidence, Weighing as Weighed } from '../../domain/inspection.ts'
import type { ViewFinding } from '../../domain/views.ts'
import { TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { StrengthShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { labelOfField } from './field-label.ts'
import { Weighing } from './Weighing.tsx'

/** Up to so many concerns are read whole; of more, what lies below the strong ones is a press away. Ours, no source. */
const MOST_WHOLE = 3

interface ConcernsProps {
  readonly concerns: readonly Concern[]
  /** The open ones together; absent in what was kept before they were weighed. */
  readonly weighing?: Weighed
  /** As found: what is shown already is not asked for. */
  readonly views: readonly ViewFinding[]
  readonly lang: string | null
  readonly focusedRule?: string | null
  readonly onShow?: (evidence: Evidence) => void
  readonly onSettle?: (rule: string, reason: string) => void
  readonly onUnsettle?: (rule: string) => void
}

export function Concerns(props: ConcernsProps) {
  const { t } = useWording()
  const open = props.concerns.filter(({ settledBy }) => settledBy === null)
  const settled = props.concerns.filter(({ settledBy }) => settledBy !== null)
  const heading = useRef<HTMLHeadingElement>(null)
  // What was pressed is about to leave the screen: the focus waits at the list's own heading.
  const fromHeading =
    <Rest extends unknown[]>(act: (...rest: Rest) => void) =>
    (...rest: Rest) => {
      heading.current?.focus({ preventScroll: true })
      act(...rest)
    }
  return (
    <section class="concerns" aria-labelledby="concerns-heading">
      <h2 id="concerns-heading" ref={heading} tabIndex={-1}>
        {t('concerns.heading')} <span class="count">{t('concerns.open', { count: open.length })}</span>
      </h2>
      {props.concerns.length === 0 && <p class="quiet">{t('concerns.none')}</p>}
      <ol class="concern-list">
        {open.map((concern) => (
          <OpenConcern
            key={concern.rule}
            {...props}
            concern={concern}
            whole={concern.strength === 'strong' || open.length <= MOST_WHOLE}
            onSettle={props.onSettle && fromHeading(props.onSettle)}
          />
        ))}
      </ol>
      {props.weighing && <Weighing weighing={props.weighing} concerns={open} />}
      {settled.length > 0 && (
        <>
          <h3 class="settled-heading">{t('concerns.settled', { count: settled.length })}</h3>
          <ul class="settled-list">
            {settled.map((concern) => (
              <li key={concern.rule}>
                <span class="settled-title">{concern.title}</span>
                <span class="settled-reason">{concern.settledBy}</span>
                {props.onUnsettle && (
                  <button
                    type="button"
                    class="link-button"
                    aria-label={t('concern.unsettle-named', { title: concern.title })}
                    onClick={() => fromHeading(props.onUnsettle!)(concern.rule)}
                  >
                    {t('concern.unsettle')}
                  </button>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}

function OpenConcern({
  concern,
  whole,
  views,
  lang,
  focusedRule,
  onShow,
  onSettle,
}: ConcernsProps & { concern: Concern; whole: boolean }) {
  const { t, list } = useWording()
  const [settling, setSettling] = useState(false)
  const [reason, setReason] = useState('')
  const item = useRef<HTMLLIElement>(null)
  const form = useRef<HTMLFormElement>(null)
  const opener = useRef<HTMLButtonElement>(null)
  const giveUp = () => {
    setSettling(false)
    returning.current = true
  }
  const returning = useRef(false)
  const focused = focusedRule === concern.rule
  const asked = concern.request.filter((id) => views.find(({ view }) => view === id)?.status !== 'shown')

  useEffect(() => {
    if (!focused) return
    item.current?.querySelector('details')?.setAttribute('open', '')
    item.current?.focus()
    item.current?.scrollIntoView?.({ block: 'start' })
  }, [focused])
  useEffect(() => {
    if (settling) form.current?.querySelector('input')?.focus()
    else if (returning.current) opener.current?.focus()
    returning.current = false
  }, [settling])

  return (
    <li ref={item} class={`concern concern-${concern.strength}`} tabIndex={-1} data-rule={concern.rule}>
      <h3 class="concern-title">{concern.title}</h3>
      <p class="concern-strength">
        <StrengthShape strength={concern.strength} />
        {t(`strength.${concern.strength}`)}
      </p>
      {concern.evidence.map((evidence, index) => (
        <EvidenceLine key={`${index}${evidence.quote}`} evidence={evidence} lang={lang} onShow={onShow} />
      ))}
      <details class="concern-more" open={whole}>
        <summary aria-label={t('concern.more-named', { title: concern.title })}>{t('concern.more')}</summary>
        <p class="concern-why">{concern.why}</p>
        <dl class="concern-facts">
          {asked.length > 0 && (
            <div>
              <dt>{t('concern.ask')}</dt>
              <dd>{list(asked.map((view) => t(`view.${view}`)))}</dd>
            </div>
          )}
          <div>
            <dt>{t('concern.settles')}</dt>
            <dd>{concern.settles}</dd>
          </div>
          <div>
            <dt>{t('concern.weight')}</dt>
            <dd>
              {concern.weight.words ??
                (concern.weight.basis === 'learned'
                  ? t('weight.learned', { count: concern.weight.count })
                  : t('weight.assumed'))}
            </dd>
          </div>
        </dl>
        {onSettle && !settling && (
          <button
            ref={opener}
            type="button"
            class="link-button"
            aria-label={t('concern.settle-named', { title: concern.title })}
            onClick={() => setSettling(true)}
          >
            {t('concern.settle')}
          </button>
        )}
        {onSettle && settling && (
          <form
            ref={form}
            class="form settle-form"
            onSubmit={(event) => {
              event.preventDefault()
              if (reason.trim() !== '') onSettle(concern.rule, reason.trim())
            }}
            onKeyDown={(event) => {
              if (event.key === 'Escape') giveUp()
            }}
          >
            <TextField
              label={t('concern.settle-reason')}
              hint={t('concern.settle-reason.hint')}
              value={reason}
              onChange={setReason}
            />
            <div class="form-actions">
              <button type="submit" class="button primary" disabled={reason.trim() === ''}>
                {t('concern.settle')}
              </button>
              <button type="button" class="button" onClick={giveUp}>
                {t('action.cancel')}
              </button>
            </div>
          </form>
        )}
      </details>
    </li>
  )
}

function EvidenceLine({
  evidence,
  lang,
  onShow,
}: {
  evidence: Evidence
  lang: string | null
  onShow?: (evidence: Evidence) => void
}) {
  const { t } = useWording()
  // Without a field there are no words of the page to quote: the evidence is a fact in our own words.
  if (evidence.field === null) return <p class="evidence evidence-fact">{evidence.quote}</p>
  const quote = (
    <>
      <q>
        <PageText text={evidence.quote} lang={lang} />
      </q>
      <span class="evidence-field">{labelOfField(t, evidence.field)}</span>
    </>
  )
  if (!onShow) return <p class="evidence">{quote}</p>
  return (
    <button type="button" class="evidence" title={t('evidence.show')} onClick={() => onShow(evidence)}>
      {quote}
    </button>
  )
}
