/** What the buyer chose, the sites switched on, everything out and in as one file, and what is never done. */
import { useState } from 'preact/hooks'
import { MESSAGE_LANGUAGES, type MessageLanguage, type Settings } from '../../domain/settings.ts'
import { Backup } from '../keeping/Backup.tsx'
import { Room } from '../keeping/Room.tsx'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { NeverDone } from '../parts/NeverDone.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { RecordActions } from './GraderBook.tsx'
import { Ready } from './Ready.tsx'
import { ShareList } from './ShareList.tsx'
import { useLoaded } from './use-loaded.ts'

export function SettingsScreen() {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const loaded = useLoaded(() => ports.readSettings(), [ports, version.value])
  return (
    <>
      <h1>{t('desk.settings')}</h1>
      <div class="settings">
        <Ready loaded={loaded}>{(settings) => <Choices key={settings.currency} settings={settings} />}</Ready>
        <Sites />
        <Backup />
        <Room />
        <section class="sheet">
          <h2>{t('never.heading')}</h2>
          <NeverDone />
        </section>
      </div>
    </>
  )
}

function Choices({ settings }: { settings: Settings }) {
  const { t, languageName } = useWording()
  const model = useDesk()
  const [limit, setLimit] = useState(settings.highValue.amount)
  const change = (part: Partial<Settings>) =>
    model.actions.run(
      'settings',
      async () => {
        await model.ports.changeSettings(part)
        model.refresh()
      },
      t('settings.saved'),
    )
  const amount = parseAmount(limit)
  const languages = (['en', 'de'] as const).map((value) => ({ value, text: languageName(value) }))
  return (
    <section class="sheet form">
      <h2>{t('settings.choices')}</h2>
      <div class="form-row">
        <CurrencyField
          value={settings.currency}
          onChange={(currency) => change({ currency, highValue: { amount: settings.highValue.amount, currency } })}
        />
        <form
          onSubmit={(event) => {
            event.preventDefault()
            if (amount !== null) change({ highValue: { amount, currency: settings.currency } })
          }}
        >
          <TextField
            label={t('setup.high-value', { currency: settings.currency })}
            hint={t('setup.high-value.hint')}
            value={limit}
            onChange={setLimit}
            inputMode="decimal"
            fault={amount === null ? t('fault.amount') : null}
          />
          {amount !== null && amount !== settings.highValue.amount && (
            <button type="submit" class="button small">
              {t('settings.take')}
            </button>
          )}
        </form>
      </div>
      <div class="form-row">
        <SelectField
          label={t('settings.interface-language')}
          value={settings.interfaceLanguage ?? ''}
          onChange={(value) => change({ interfaceLanguage: value === '' ? null : (value as 'en' | 'de') })}
          options={[{ value: '', text: t('settings.as-browser') }, ...languages]}
        />
        <SelectField
          label={t('setup.message-language')}
          value={settings.messageLanguage}
          onChange={(value) => change({ messageLanguage: value as MessageLanguage })}
          options={MESSAGE_LANGUAGES.map((value) => ({ value, text: languageName(value) }))}
        />
        <SelectField
          label={t('settings.theme')}
          value={settings.theme}
          onChange={(value) => change({ theme: value as Settings['theme'] })}
          options={(['system', 'light', 'dark'] as const).map((value) => ({
            value,
            text: t(`settings.theme.${value}`),
          }))}
        />
      </div>
      <p>
        <button
          type="button"
          class="link-button"
          onClick={() => model.actions.run('setup', () => model.ports.openSetup())}
        >
          {t('settings.setup-again')}
        </button>
      </p>
    </section>
  )
}

function Sites() {
  const { t } = useWording()
  const model = useDesk()
  const { ports, actions, version } = model
  const loaded = useLoaded(
    async () => ({ sites: await ports.listSites(), hints: await ports.listSiteHints() }),
    [ports, version.value],
  )
  return (
    <section class="sheet">
      <h2>{t('settings.sites')}</h2>
      <p class="quiet">{t('settings.sites.explained')}</p>
      <Ready loaded={loaded}>
        {({ sites, hints }) => (
          <>
            {sites.length === 0 && <p>{t('settings.sites.none')}</p>}
            <ul class="records">
              {sites.map((origin) => (
                <li key={origin} class="record">
                  <bdi>{origin}</bdi>
                  <RecordActions
                    name={origin}
                    onDelete={() =>
                      actions.run(
                        'forget-site',
                        async () => {
                          await ports.forgetSite(origin)
                          model.refresh()
                        },
                        t('settings.site-forgotten', { site: origin }),
                      )
                    }
                  />
                </li>
              ))}
            </ul>
            <h3>{t('settings.hints')}</h3>
            {hints.length === 0 && <p>{t('settings.hints.none')}</p>}
            {hints.length > 0 && (
              <ul class="records">
                {hints.map(({ id, host, field }) => (
                  <li key={id} class="record">
                    <span>
                      <bdi>{host}</bdi>: {t(`field.${field}`)}
                    </span>
                    <RecordActions
                      name={`${host}, ${t(`field.${field}`)}`}
                      onDelete={() =>
                        actions.run(
                          'delete-hint',
                          async () => {
                            await ports.deleteSiteHint(id)
                            model.refresh()
                          },
                          t('settings.hint-deleted'),
                        )
                      }
                    />
                  </li>
                ))}
              </ul>
            )}
            <ShareList kind="site-hints" count={hints.length} />
          </>
        )}
      </Ready>
    </section>
  )
}
