/** One grader of the buyer's book: the short form beside a listing, the whole form on the desk. Asks; keeps nothing. */

import type { FunctionComponent } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { Grader, GraderPicture } from '../../domain/grader-book.ts'
import { useWording } from '../wording.ts'
import { TextField } from './fields.tsx'
import { parseDigits, parseWords } from './parse-fields.ts'

export type Acceptance = 'accepted' | 'conditions' | 'not-accepted'

export const ACCEPTANCES: readonly Acceptance[] = ['accepted', 'conditions', 'not-accepted']

export function acceptanceOf(grader: Grader): Acceptance {
  if (!grader.accepted) return 'not-accepted'
  return grader.conditions ? 'conditions' : 'accepted'
}

export interface PicturesProps {
  readonly pictures: readonly GraderPicture[]
  readonly onChange: (pictures: readonly GraderPicture[]) => void
}

interface GraderFormProps {
  readonly grader: Partial<Grader>
  /** `short`: name, abbreviation and acceptance only. */
  readonly form: 'short' | 'whole'
  /** Shows and changes the buyer's own pictures, where the place has them at hand. */
  readonly Pictures?: FunctionComponent<PicturesProps>
  readonly onSave: (grader: Grader) => void
  readonly onCancel: () => void
}

export function GraderForm({ grader, form, Pictures, onSave, onCancel }: GraderFormProps) {
  const { t } = useWording()
  const group = useId()
  const [name, setName] = useState(grader.name ?? '')
  const [abbreviations, setAbbreviations] = useState((grader.abbreviations ?? []).join(', '))
  const [acceptance, setAcceptance] = useState<Acceptance>(
    grader.accepted === undefined ? 'accepted' : acceptanceOf(grader as Grader),
  )
  const [conditions, setConditions] = useState(grader.conditions ?? '')
  const [digits, setDigits] = useState((grader.certificateDigits ?? []).join(', '))
  const [lookUp, setLookUp] = useState(grader.lookUp ?? '')
  const [notes, setNotes] = useState(grader.notes ?? '')
  const [pictures, setPictures] = useState<readonly GraderPicture[]>(grader.pictures ?? [])
  const lookUpFault = lookUp.trim() !== '' && !/^https:\/\/\S*\{certificate\}/.test(lookUp.trim())

  const submit = (event: Event) => {
    event.preventDefault()
    const words = parseWords(abbreviations)
    if ((name.trim() === '' && words.length === 0) || lookUpFault) return
    const lengths = parseDigits(digits)
    onSave({
      name: name.trim() || words[0]!,
      abbreviations: words,
      accepted: acceptance !== 'not-accepted',
      ...(acceptance === 'conditions' && conditions.trim() !== '' ? { conditions: conditions.trim() } : {}),
      ...(lengths.length > 0 ? { certificateDigits: lengths } : {}),
      ...(lookUp.trim() !== '' ? { lookUp: lookUp.trim() } : {}),
      ...(grader.halfGrades === undefined ? {} : { halfGrades: grader.halfGrades }),
      ...(grader.qualifiers === undefined ? {} : { qualifiers: grader.qualifiers }),
      ...(notes.trim() !== '' ? { notes: notes.trim() } : {}),
      ...(pictures.length > 0 ? { pictures } : {}),
    })
  }

  return (
    <form class="form" onSubmit={submit}>
      <div class="form-row">
        <TextField
          label={t('grader.abbreviations')}
          hint={t('grader.abbreviations.hint')}
          value={abbreviations}
          onChange={setAbbreviations}
        />
        <TextField label={t('grader.name')} value={name} onChange={setName} />
      </div>
      <fieldset class="choices">
        <legend>{t('grader.acceptance')}</legend>
        {ACCEPTANCES.map((choice) => (
          <label key={choice} class="choice">
            <input type="radio" name={group} checked={acceptance === choice} onChange={() => setAcceptance(choice)} />
            {t(`grader.acceptance.${choice}`)}
          </label>
        ))}
      </fieldset>
      {acceptance === 'conditions' && (
        <TextField
          label={t('grader.conditions')}
          hint={t('grader.conditions.hint')}
          value={conditions}
          onChange={setConditions}
        />
      )}
      {form === 'whole' && (
        <>
          <div class="form-row">
            <TextField
              label={t('grader.digits')}
              hint={t('grader.digits.hint')}
              value={digits}
              onChange={setDigits}
              inputMode="numeric"
            />
            <TextField
              label={t('grader.lookUp')}
              hint={t('grader.lookUp.hint')}
              value={lookUp}
              onChange={setLookUp}
              fault={lookUpFault ? t('grader.lookUp.fault') : null}
            />
          </div>
          <TextField label={t('grader.notes')} value={notes} onChange={setNotes} lines={2} />
          {Pictures && <Pictures pictures={pictures} onChange={setPictures} />}
        </>
      )}
      <div class="form-actions">
        <button type="submit" class="button primary">
          {t('action.put-in-book')}
        </button>
        <button type="button" class="button" onClick={onCancel}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
