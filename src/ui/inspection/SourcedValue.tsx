/**
 * One value with its origin: shown on hover and on focus, kept while the pointer is over it, gone with Escape
 * (WCAG 1.4.13). A click goes to the place on the page. Without `onGo` (in a dossier) it only explains itself.
 */
import type { ComponentChildren } from 'preact'
import { useId, useState } from 'preact/hooks'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import { labelOfField } from './field-label.ts'
import type { Origin } from './offered-fields.ts'
import { surenessOf } from './offered-fields.ts'

interface SourcedValueProps {
  readonly origin: Origin
  readonly lang: string | null
  readonly children: ComponentChildren
  readonly onGo?: (place: { where: string | null; quote: string | null }) => void
}

export function SourcedValue({ origin, lang, children, onGo }: SourcedValueProps) {
  const { t } = useWording()
  const id = useId()
  const [open, setOpen] = useState(false)
  const { provenance, quote } = origin
  const words = quote?.quote ?? provenance?.quote ?? null
  if (provenance === null && quote === null) return <span class="value">{children}</span>

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the pointer only keeps the explanation open; the button inside acts
    <span class="sourced" onMouseEnter={() => setOpen(true)} onMouseLeave={() => setOpen(false)}>
      <button
        type="button"
        class="value sourced-value"
        aria-describedby={open ? id : undefined}
        onFocus={() => setOpen(true)}
        onBlur={() => setOpen(false)}
        onKeyDown={(event) => {
          if (event.key !== 'Escape' || !open) return
          event.stopPropagation()
          setOpen(false)
        }}
        onClick={() => onGo?.({ where: provenance?.where ?? null, quote: words })}
      >
        {children}
      </button>
      {open && (
        <span class="source-popover" role="tooltip" id={id}>
          <span class="source-line">
            {quote !== null
              ? t('source.words-of', { field: labelOfField(t, quote.field) })
              : t(`source.${provenance?.from}`)}
            {provenance !== null && (
              <span class="source-sureness">{t(`sureness.${surenessOf(provenance.confidence)}`)}</span>
            )}
          </span>
          {words !== null && (
            <q class="source-quote">
              <PageText text={words} lang={lang} />
            </q>
          )}
          {provenance?.note && <span class="source-line">{provenance.note}</span>}
          {onGo && <span class="source-hint">{t('source.go')}</span>}
        </span>
      )}
    </span>
  )
}
