/** The message that is due: what is still open, in the buyer's words, tone and language, with the terms that they propose. */
import { useId, useState } from 'preact/hooks'
import type { DossierState } from '../../domain/dossier/derive-state.ts'
import type { Dossier } from '../../domain/dossier.ts'
import {
  MESSAGE_TERMS,
  MESSAGE_TONES,
  type MessageStyle,
  type MessageTerm,
  PLAIN_STYLE,
} from '../../domain/request/message-style.ts'
import { MESSAGE_LANGUAGES, type MessageLanguage } from '../../domain/settings.ts'
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { useSteps } from './use-step.ts'

/** Days within which a return may be proposed: a year is more than anybody grants. Ours, no source. */
const MOST_DAYS = 365

export function NextMessage({ dossier, state }: { dossier: Dossier; state: DossierState }) {
  const { t, list, languageName } = useWording()
  const { ports, actions } = useDesk()
  const steps = useSteps(dossier)
  const box = useId()
  const [language, setLanguage] = useState(dossier.inspection.request.language as MessageLanguage)
  const [style, setStyle] = useState<MessageStyle>({ ...PLAIN_STYLE, again: state.requests.length > 0 })
  const [days, setDays] = useState(String(PLAIN_STYLE.returnDays))
  const [edited, setEdited] = useState<string | null>(null)
  const written = useLoaded(
    () => ports.life.writeMessage(dossier.id, language, style),
    [ports, dossier.id, dossier.revision, language, style],
  )
  const change = (part: Partial<MessageStyle>) => {
    setEdited(null)
    setStyle({ ...style, ...part })
  }
  const toggle = (term: MessageTerm) =>
    change({
      terms: style.terms.includes(term)
        ? style.terms.filter((other) => other !== term)
        : MESSAGE_TERMS.filter((known) => known === term || style.terms.includes(known)),
    })
  if (written.phase !== 'ready') return null
  const { text: proposed, views } = written.value
  const text = edited ?? proposed

  return (
    <div class="next-message form">
      <h3>{t(state.requests.length > 0 ? 'life.message.again' : 'life.message.first')}</h3>
      {views.length > 0 && (
        <p class="quiet">{t('life.message.asks', { list: list(views.map((view) => t(`view.${view}`))) })}</p>
      )}
      <div class="form-row">
        <SelectField
          label={t('message.tone')}
          value={style.tone}
          onChange={(tone) => change({ tone: tone as MessageStyle['tone'] })}
          options={MESSAGE_TONES.map((tone) => ({ value: tone, text: t(`message.tone.${tone}`) }))}
        />
        <SelectField
          label={t('message.language')}
          value={language}
          onChange={(value) => {
            setEdited(null)
            setLanguage(value as MessageLanguage)
          }}
          options={MESSAGE_LANGUAGES.map((value) => ({ value, text: languageName(value) }))}
        />
      </div>
      <details>
        <summary>{t('life.terms')}</summary>
        <p class="hint">{t('life.terms.hint')}</p>
        {MESSAGE_TERMS.map((term) => (
          <label key={term} class="choice">
            <input type="checkbox" checked={style.terms.includes(term)} onChange={() => toggle(term)} />
            {t(`life.term.${term}`)}
          </label>
        ))}
        {style.terms.includes('return-right') && (
          <TextField
            label={t('life.term.days')}
            inputMode="numeric"
            value={days}
            onChange={(value) => {
              setDays(value)
              const number = Number(value)
              if (Number.isInteger(number) && number > 0 && number <= MOST_DAYS) change({ returnDays: number })
            }}
          />
        )}
      </details>
      {text === '' && edited === null ? (
        <p>{t('life.message.nothing')}</p>
      ) : (
        <>
          <label for={box} class="for-readers">
            {t('message.text')}
          </label>
          <textarea
            id={box}
            class="message-text"
            lang={language}
            rows={Math.min(14, text.split('\n').length + 1)}
            value={text}
            onInput={(event) => setEdited(event.currentTarget.value)}
          />
          <div class="form-actions">
            <button
              type="button"
              class="button"
              onClick={() => actions.run('copy', () => ports.life.copyText(text), t('message.copied'))}
            >
              <Icon name="copy" />
              {t('message.copy')}
            </button>
            <button
              type="button"
              class="button primary"
              disabled={steps.busy || text.trim() === ''}
              onClick={() => steps.add({ event: 'asked', detail: text, views, language }, t('life.sent.done'))}
            >
              {t('life.sent')}
            </button>
          </div>
          <p class="hint">{t('message.never-sent')}</p>
        </>
      )}
    </div>
  )
}
