/** The phrases of an own rule: plain words, one phrase a line, by language. All languages are looked for in every listing. */
import type { PhrasePack } from '../../domain/rules/phrase-pack.ts'
import { SelectField, TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'

const LANGUAGES = ['en', 'de', 'fr', 'es', 'it'] as const

export function PhraseEditor({ list, onChange }: { list: PhrasePack; onChange: (list: PhrasePack) => void }) {
  const { t, languageName } = useWording()
  const used = Object.keys(list.phrases)
  const free = LANGUAGES.filter((language) => !used.includes(language))
  return (
    <>
      {Object.entries(list.phrases).map(([language, phrases]) => (
        <TextField
          key={language}
          label={t('rule-form.phrases', { language: languageName(language) })}
          hint={t('rule-form.phrases.hint')}
          lines={3}
          value={phrases.join('\n')}
          // Lines stay as they are typed, an empty one at the end included; the rule is cleaned when it is tried or saved.
          onChange={(text) => onChange({ ...list, phrases: { ...list.phrases, [language]: text.split('\n') } })}
        />
      ))}
      {free.length > 0 && (
        <SelectField
          label={t('rule-form.more-language')}
          value=""
          onChange={(language) => onChange({ ...list, phrases: { ...list.phrases, [language]: [] } })}
          options={[
            { value: '', text: t('rule-form.choose') },
            ...free.map((language) => ({ value: language, text: languageName(language) })),
          ]}
        />
      )}
      <label class="choice">
        <input
          type="checkbox"
          checked={list.negation === 'cancels'}
          onChange={(event) => onChange({ ...list, negation: event.currentTarget.checked ? 'cancels' : 'kept' })}
        />
        {t('rule-form.negation')}
      </label>
    </>
  )
}

/** Empty lines and languages without phrases fall away. */
export function cleanList(list: PhrasePack): PhrasePack {
  const phrases = Object.entries(list.phrases)
    .map(([language, lines]) => [language, [...new Set(lines.map((line) => line.trim()).filter(Boolean))]] as const)
    .filter(([, lines]) => lines.length > 0)
  return { ...list, phrases: Object.fromEntries(phrases) }
}
