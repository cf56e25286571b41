/** The message to the seller: editable, counted against the page's limit, copied or put into the page's box. Never sent. */
import { useId } from 'preact/hooks'
import { MESSAGE_TONES, type MessageTone } from '../../domain/request/message-style.ts'
import { MESSAGE_LANGUAGES, type MessageLanguage } from '../../domain/settings.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { ListingState } from './panel-state.ts'

/** A request of more than three things is often answered in part; ours, from practice, no source. */
const FEW_VIEWS = 3

export function Message({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t, number, list, languageName } = useWording()
  const box = useId()
  const { request } = state.inspection
  const written = request.text
  const edited = model.editedMessage.value
  const text = edited ?? written
  const limit = state.messageBox?.maxLength ?? null
  // Message boxes count UTF-16 units, as `maxlength` does.
  const tooLong = limit !== null && text.length > limit
  const { actions, ports } = model
  const busy = actions.busy.value
  const few = state.messageMostViews !== null

  if (written === '' && edited === null) {
    const asksForWords = state.inspection.concerns.some(({ settledBy }) => settledBy === null)
    return (
      <section class="message" aria-labelledby="message-heading">
        <h2 id="message-heading">{t('message.heading')}</h2>
        <p class="quiet">{t(asksForWords ? 'message.no-view' : 'message.nothing')}</p>
      </section>
    )
  }
  return (
    <section class="message" aria-labelledby="message-heading">
      <div class="section-head">
        <h2 id="message-heading">{t('message.heading')}</h2>
        <select
          aria-label={t('message.tone')}
          value={state.messageTone}
          onChange={(event) => {
            const tone = event.currentTarget.value as MessageTone
            model.editedMessage.value = null
            actions.run('message-tone', () => ports.setMessageTone(tone))
          }}
        >
          {MESSAGE_TONES.map((tone) => (
            <option key={tone} value={tone}>
              {t(`message.tone.${tone}`)}
            </option>
          ))}
        </select>
        <select
          aria-label={t('message.language')}
          value={request.language}
          onChange={(event) => {
            const language = event.currentTarget.value as MessageLanguage
            model.editedMessage.value = null
            actions.run('message-language', () => ports.setMessageLanguage(language))
          }}
        >
          {MESSAGE_LANGUAGES.map((language) => (
            <option key={language} value={language}>
              {languageName(language)}
            </option>
          ))}
        </select>
      </div>
      {(few || request.views.length > FEW_VIEWS) && (
        <label class="choice">
          <input
            type="checkbox"
            checked={few}
            onChange={(event) => {
              const most = event.currentTarget.checked ? FEW_VIEWS : null
              model.editedMessage.value = null
              actions.run('most-views', () => ports.setMessageMostViews(most))
            }}
          />
          {t('message.few', { count: FEW_VIEWS })}
        </label>
      )}
      <label for={box} class="for-readers">
        {t('message.text')}
      </label>
      <textarea
        id={box}
        class="message-text"
        lang={request.language}
        rows={Math.min(16, Math.max(6, text.split('\n').length + 2))}
        value={text}
        aria-describedby={`${box}-count`}
        aria-invalid={tooLong ? 'true' : undefined}
        onInput={(event) => {
          const { value } = event.currentTarget
          model.editedMessage.value = value === written ? null : value
        }}
      />
      <p class="message-count" id={`${box}-count`}>
        <span class={tooLong ? 'too-long' : undefined}>
          {limit === null
            ? t('message.length', { count: text.length })
            : t(tooLong ? 'message.too-long' : 'message.length-of', {
                length: number(text.length),
                limit: number(limit),
              })}
        </span>
        {edited !== null && (
          <button type="button" class="link-button" onClick={() => (model.editedMessage.value = null)}>
            {t('message.as-written')}
          </button>
        )}
      </p>
      <div class="form-actions">
        <button
          type="button"
          class="button primary"
          disabled={busy.has('copy')}
          onClick={() => actions.run('copy', () => ports.copyText(text), t('message.copied'))}
        >
          <Icon name="copy" />
          {t('message.copy')}
        </button>
        {state.messageBox !== null && (
          <button
            type="button"
            class="button"
            disabled={busy.has('fill') || tooLong}
            onClick={() => {
              let outcome: string = t('message.filled')
              actions.run(
                'fill',
                async () => {
                  const { filled, reason } = await ports.fillMessage(text)
                  if (!filled) outcome = reason ?? t('message.not-filled')
                },
                () => outcome,
              )
            }}
          >
            <Icon name="into" />
            {t('message.fill')}
          </button>
        )}
      </div>
      {(request.leftOut?.length ?? 0) > 0 && (
        <p class="hint">{t('message.left-out', { list: list(request.leftOut!.map((view) => t(`view.${view}`))) })}</p>
      )}
      <p class="hint">{t('message.never-sent')}</p>
    </section>
  )
}
