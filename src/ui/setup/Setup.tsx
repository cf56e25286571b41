/** First start: four short questions in about a minute, each with a default, all of it skippable. */
import type { ReadonlySignal } from '@preact/signals'
import { useState } from 'preact/hooks'
import type { Grader } from '../../domain/grader-book.ts'
import { MESSAGE_LANGUAGES, type MessageLanguage, type Settings } from '../../domain/settings.ts'
import { type Actions, createActions } from '../parts/actions.ts'
import { Brand } from '../parts/Brand.tsx'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { NeverDone } from '../parts/NeverDone.tsx'
import { NoticeBar } from '../parts/NoticeBar.tsx'
import { parseAmount, parseWords } from '../parts/parse-fields.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording, type Wording, WordingContext } from '../wording.ts'
import type { SetupPorts } from './setup-ports.ts'

interface SetupProps {
  readonly ports: SetupPorts
  readonly wording: ReadonlySignal<Wording>
  /** What is shown in the fields at first. */
  readonly settings: Settings
}

interface GraderLine {
  readonly abbreviations: string
  readonly name: string
}

export function Setup({ ports, wording, settings }: SetupProps) {
  const [actions] = useState(createActions)
  return (
    <WordingContext.Provider value={wording.value}>
      <SetupScreen ports={ports} settings={settings} actions={actions} />
    </WordingContext.Provider>
  )
}

function SetupScreen({ ports, settings, actions }: Omit<SetupProps, 'wording'> & { actions: Actions }) {
  const { t, language, languageName } = useWording()
  const [currency, setCurrency] = useState(settings.currency)
  const [limit, setLimit] = useState(settings.highValue.amount)
  // Who reads one language most likely writes it too; an answer once given stands.
  const [messageLanguage, setMessageLanguage] = useState(
    settings.setUpAt === null ? language : settings.messageLanguage,
  )
  const [lines, setLines] = useState<readonly GraderLine[]>([{ abbreviations: '', name: '' }])
  const [done, setDone] = useState<'asked' | 'kept' | 'skipped'>('asked')
  const amount = parseAmount(limit)

  if (done !== 'asked') return <SetupDone ports={ports} actions={actions} skipped={done === 'skipped'} />

  const graders = (): readonly Grader[] =>
    lines.flatMap(({ abbreviations, name }) => {
      const words = parseWords(abbreviations)
      const first = name.trim() || words[0]
      return first === undefined ? [] : [{ name: first, abbreviations: words, accepted: true }]
    })
  const change = (index: number, part: Partial<GraderLine>) =>
    setLines(lines.map((line, place) => (place === index ? { ...line, ...part } : line)))
  const languages = (['en', 'de'] as const).map((value) => ({ value, text: languageName(value) }))

  return (
    <div class="setup">
      <header class="setup-head">
        <Brand />
        <SelectField
          label={t('settings.interface-language')}
          hideLabel
          value={language}
          onChange={(value) => ports.setInterfaceLanguage(value as 'en' | 'de')}
          options={languages}
        />
      </header>
      <main class="setup-main">
        <div class="setup-stone">
          <h1>{t('setup.heading')}</h1>
          <p>{t('setup.is')}</p>
          <p class="setup-is-not">{t('setup.is-not')}</p>
          <section class="setup-never">
            <h2>{t('never.heading')}</h2>
            <NeverDone />
          </section>
        </div>
        <form
          class="setup-questions form"
          onSubmit={(event) => {
            event.preventDefault()
            if (amount === null) return
            actions
              .run('finish', () =>
                ports.finish({
                  settings: {
                    currency,
                    highValue: { amount, currency },
                    messageLanguage,
                    interfaceLanguage: language,
                  },
                  graders: graders(),
                }),
              )
              .then((finished) => finished && setDone('kept'))
          }}
        >
          <h2>{t('setup.questions')}</h2>
          <div class="form-row">
            <CurrencyField value={currency} onChange={setCurrency} />
            <TextField
              label={t('setup.high-value', { currency })}
              hint={t('setup.high-value.hint')}
              value={limit}
              onChange={setLimit}
              inputMode="decimal"
              fault={amount === null ? t('fault.amount') : null}
            />
          </div>
          <SelectField
            label={t('setup.message-language')}
            hint={t('setup.message-language.hint')}
            value={messageLanguage}
            onChange={(value) => setMessageLanguage(value as MessageLanguage)}
            options={MESSAGE_LANGUAGES.map((value) => ({ value, text: languageName(value) }))}
          />
          <fieldset class="setup-graders">
            <legend>{t('setup.graders')}</legend>
            <p class="hint">{t('setup.graders.hint')}</p>
            {lines.map((line, index) => (
              <div class="form-row" key={index}>
                <TextField
                  label={t('grader.abbreviations')}
                  value={line.abbreviations}
                  onChange={(abbreviations) => change(index, { abbreviations })}
                />
                <TextField label={t('grader.name')} value={line.name} onChange={(name) => change(index, { name })} />
              </div>
            ))}
            <div>
              <button
                type="button"
                class="link-button"
                onClick={() => setLines([...lines, { abbreviations: '', name: '' }])}
              >
                <Icon name="add" />
                {t('setup.graders.add')}
              </button>
            </div>
          </fieldset>
          <div class="form-actions">
            <button type="submit" class="button primary" disabled={amount === null || actions.busy.value.has('finish')}>
              {t('setup.finish')}
            </button>
            <button
              type="button"
              class="button"
              onClick={() => actions.run('skip', () => ports.skip()).then((skipped) => skipped && setDone('skipped'))}
            >
              {t('setup.skip')}
            </button>
          </div>
          <p class="hint">{t('setup.later')}</p>
        </form>
      </main>
      <NoticeBar actions={actions} />
    </div>
  )
}

function SetupDone({ ports, actions, skipped }: { ports: SetupPorts; actions: Actions; skipped: boolean }) {
  const { t } = useWording()
  return (
    <div class="setup">
      <header class="setup-head">
        <Brand />
      </header>
      <main class="setup-main">
        <div class="setup-stone">
          <h1>{t(skipped ? 'setup.skipped' : 'setup.done')}</h1>
          <p>{t('setup.how')}</p>
        </div>
        <div class="setup-questions form">
          <ol class="teach-steps">
            <li>{t('setup.how.step-1')}</li>
            <li>{t('setup.how.step-2')}</li>
            <li>{t('setup.how.step-3')}</li>
          </ol>
          <div class="form-actions">
            <button type="button" class="button primary" onClick={() => actions.run('desk', () => ports.openDesk())}>
              {t('setup.open-desk')}
            </button>
          </div>
        </div>
      </main>
      <NoticeBar actions={actions} />
    </div>
  )
}
