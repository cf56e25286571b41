/** What the points came to together, in counts and words, kept with the dossier; and a second person who judges without knowing it. */
import { useState } from 'preact/hooks'
import type { Examination, ExaminationRecord, ExemplarRecord } from '../../domain/examination.ts'
import { concludePoint } from '../../domain/examination.ts'
import { VERDICTS } from '../../domain/exemplar.ts'
import { useDesk } from '../desk/desk-context.ts'
import { TextField } from '../parts/fields.tsx'
import { VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

interface ConclusionProps {
  readonly record: ExaminationRecord
  readonly examination: Examination
  readonly exemplar: ExemplarRecord
  readonly settle: () => Promise<void>
  readonly onPackage: (id: string) => void
}

export function Conclusion({ record, examination, exemplar, settle, onPackage }: ConclusionProps) {
  const { t, list, dateTime } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [by, setBy] = useState('')
  const { points, copies } = exemplar.exemplar
  const { measured, judged, answers, dossier, verifications } = examination
  const ended = (measured?.points ?? []).flatMap((found) => {
    const point = points.find(({ id }) => id === found.point)
    return point === undefined ? [] : [{ point, result: concludePoint(found, judged[found.point]) }]
  })
  const of = (verdict: (typeof VERDICTS)[number]) => ended.filter(({ result }) => result.verdict === verdict)
  const differing = of('differs')
  const weightless = of('agrees').filter(({ point }) => copies.some(({ id }) => point.copies[id] === 'passes'))
  const kept = () => ({ ...record, ...examination })

  return (
    <section class="sheet conclusion">
      <h2>{t('conclusion.heading')}</h2>
      <ul class="conclusion-counts">
        {VERDICTS.map((verdict) => (
          <li key={verdict}>
            <VerdictShape verdict={verdict} />
            <strong>{of(verdict).length}</strong> {t(`verdict.${verdict}`)}
          </li>
        ))}
      </ul>
      {differing.length > 0 && (
        <p>
          {t('conclusion.differs', { count: differing.length, points: list(differing.map(({ point }) => point.name)) })}
        </p>
      )}
      {weightless.length > 0 && <p>{t('conclusion.weightless', { count: weightless.length })}</p>}
      {of('cannot-tell').length > 0 && <p>{t('conclusion.untold', { count: of('cannot-tell').length })}</p>}
      <p class="quiet">{t('compare.caution')}</p>
      {answers === null ? (
        <>
          {dossier !== null && (
            <p class="form-actions">
              <button
                type="button"
                class="button primary"
                onClick={() =>
                  actions.run(
                    'keep-comparison',
                    async () => {
                      await settle()
                      await ports.keepComparison(kept())
                      model.refresh()
                    },
                    t('conclusion.kept'),
                  )
                }
              >
                {t('conclusion.keep')}
              </button>
              <a class="link" href={`#dossiers/${encodeURIComponent(dossier)}`}>
                {t('conclusion.to-dossier')}
              </a>
            </p>
          )}
          <h3>{t('blind.heading')}</h3>
          <p>{t('blind.explained')}</p>
          <p class="form-actions">
            <button
              type="button"
              class="button"
              onClick={() =>
                actions.run(
                  'blind-package',
                  async () => {
                    await settle()
                    onPackage(await ports.exportBlindPackage(kept()))
                  },
                  t('blind.exported'),
                )
              }
            >
              {t('blind.export')}
            </button>
          </p>
          {verifications.map((answer) => (
            <section key={answer.answeredAt} class="verification">
              <h3>{t('blind.answer-of', { by: answer.by || t('blind.nobody') })}</h3>
              <p class="quiet">{dateTime(answer.answeredAt)}</p>
              {answer.notes !== '' && <p class="verbatim">{answer.notes}</p>}
              <table class="verification-table">
                <thead>
                  <tr>
                    <th scope="col">{t('makes.point')}</th>
                    <th scope="col">{t('blind.first')}</th>
                    <th scope="col">{t('blind.second')}</th>
                  </tr>
                </thead>
                <tbody>
                  {answer.points.map(({ point, verdict, words }) => {
                    const first = ended.find((one) => one.point.id === point)
                    return (
                      <tr key={point} class={first?.result.verdict === verdict ? '' : 'is-apart'}>
                        <th scope="row">{first?.point.name ?? point}</th>
                        <td>{first === undefined ? '–' : t(`verdict.${first.result.verdict}`)}</td>
                        <td>
                          {t(`verdict.${verdict}`)}
                          {words !== '' && <bdi class="quiet"> {words}</bdi>}
                        </td>
                      </tr>
                    )
                  })}
                </tbody>
              </table>
            </section>
          ))}
        </>
      ) : (
        <>
          <h3>{t('blind.answer')}</h3>
          <p>{t('blind.answer.explained')}</p>
          <TextField label={t('blind.by')} hint={t('blind.by.hint')} value={by} onChange={setBy} />
          <p class="form-actions">
            <button
              type="button"
              class="button primary"
              onClick={() =>
                actions.run(
                  'blind-answer',
                  async () => {
                    await settle()
                    await ports.exportBlindAnswer(kept(), by)
                  },
                  t('blind.answered'),
                )
              }
            >
              {t('blind.answer.export')}
            </button>
          </p>
        </>
      )}
    </section>
  )
}
