/**
 * What the outcomes of the kept dossiers taught: the weights that moved, with their counts, and how well the weights had foretold
 * the ends of many dossiers together. Nothing here speaks of one card.
 */
import { FEWEST_OF_EACH, FEWEST_OUTCOMES } from '../../domain/weighing/learn-weight.ts'
import type { BrierScore } from '../../domain/weighing/score-brier.ts'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import { Ready } from './Ready.tsx'
import type { Lesson, Lessons } from './rule-ports.ts'
import { useLoaded } from './use-loaded.ts'

export function Outcomes() {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const loaded = useLoaded(() => ports.readLessons(), [ports, version.value])
  return (
    <>
      <h1>{t('outcomes.heading')}</h1>
      <p class="lead">{t('outcomes.lead')}</p>
      <Ready loaded={loaded}>
        {(lessons) => (lessons.sound + lessons.wrong === 0 ? <NothingYet /> : <Taught lessons={lessons} />)}
      </Ready>
    </>
  )
}

function NothingYet() {
  const { t } = useWording()
  return (
    <div class="sheet outcomes-empty">
      <h2>{t('outcomes.empty')}</h2>
      <ol class="steps">
        <li>{t('outcomes.empty.keep')}</li>
        <li>{t('outcomes.empty.enter')}</li>
        <li>{t('outcomes.empty.learn', { count: FEWEST_OUTCOMES, each: FEWEST_OF_EACH })}</li>
      </ol>
      <p>
        <a class="button" href="#dossiers">
          {t('outcomes.to-dossiers')}
        </a>
      </p>
    </div>
  )
}

function Taught({ lessons }: { lessons: Lessons }) {
  const { t, number } = useWording()
  const total = lessons.sound + lessons.wrong
  const missing = FEWEST_OUTCOMES - total
  return (
    <>
      <p class="outcomes-count">
        {t('outcomes.count', { count: total, sound: number(lessons.sound), wrong: number(lessons.wrong) })}{' '}
        {missing > 0
          ? t('outcomes.too-few', { count: missing })
          : Math.min(lessons.sound, lessons.wrong) < FEWEST_OF_EACH &&
            t('outcomes.one-sided', { each: FEWEST_OF_EACH })}
      </p>
      {total < FEWEST_OUTCOMES && (
        <progress class="outcomes-progress" max={FEWEST_OUTCOMES} value={total} aria-label={t('outcomes.progress')} />
      )}
      <section aria-labelledby="weights-heading">
        <h2 id="weights-heading">{t('outcomes.weights')}</h2>
        <p class="quiet">{t('outcomes.weights.explained')}</p>
        <ul class="lessons">
          {lessons.lessons.map((lesson) => (
            <LessonItem key={lesson.rule} lesson={lesson} />
          ))}
        </ul>
      </section>
      {lessons.score !== null && <Reliability score={lessons.score} />}
      <p class="hint">{t('outcomes.caution')}</p>
    </>
  )
}

/** Two digits: more would claim what so few outcomes cannot. */
const ROUGH: Intl.NumberFormatOptions = { maximumSignificantDigits: 2 }

function LessonItem({ lesson }: { lesson: Lesson }) {
  const { t, number } = useWording()
  const { outcomes, basis } = lesson
  const share = (raised: number, silent: number) =>
    t('outcomes.share', { raised: number(raised), all: number(raised + silent) })
  return (
    <li class={`lesson is-${basis}`}>
      <h3>{lesson.title}</h3>
      <p class="lesson-weight">
        <strong>{t(`outcomes.basis.${basis}`)}</strong>{' '}
        {t('outcomes.moved', { assumed: number(lesson.assumed, ROUGH), now: number(lesson.likelihoodRatio, ROUGH) })}
      </p>
      <dl class="lesson-counts">
        <div>
          <dt>{t('outcomes.where-wrong')}</dt>
          <dd>{share(outcomes.raisedWrong, outcomes.silentWrong)}</dd>
        </div>
        <div>
          <dt>{t('outcomes.where-sound')}</dt>
          <dd>{share(outcomes.raisedSound, outcomes.silentSound)}</dd>
        </div>
      </dl>
      {basis === 'learned' && <p>{lesson.words}</p>}
    </li>
  )
}

function Reliability({ score }: { score: BrierScore }) {
  const { t, number, percent } = useWording()
  const three: Intl.NumberFormatOptions = { minimumFractionDigits: 3, maximumFractionDigits: 3 }
  return (
    <section aria-labelledby="reliability-heading">
      <h2 id="reliability-heading">{t('outcomes.reliability')}</h2>
      <p class="quiet">{t('outcomes.reliability.explained')}</p>
      <table class="reliability">
        <thead>
          <tr>
            <th scope="col">{t('outcomes.forecast')}</th>
            <th scope="col">{t('outcomes.observed')}</th>
            <th scope="col">{t('outcomes.dossiers')}</th>
            <th scope="col" class="reliability-bars-head">
              {t('outcomes.bars')}
            </th>
          </tr>
        </thead>
        <tbody>
          {score.rows.map(({ forecast, observed, count }) => (
            <tr key={forecast}>
              <td>{percent(forecast)}</td>
              <td>{percent(observed)}</td>
              <td>{number(count)}</td>
              <td>
                <Bars forecast={forecast} observed={observed} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <dl class="brier">
        {(['score', 'reliability', 'resolution', 'uncertainty'] as const).map((part) => (
          <div key={part}>
            <dt>{t(`outcomes.brier.${part}`)}</dt>
            <dd class="brier-figure">{number(score[part], three)}</dd>
            <dd>{t(`outcomes.brier.${part}.explained`)}</dd>
          </div>
        ))}
      </dl>
      <p class="hint">{t('outcomes.brier.sum')}</p>
    </section>
  )
}

/** Expected above, seen below: where the two end at the same place, the weights were right about this row. */
function Bars({ forecast, observed }: { forecast: number; observed: number }) {
  return (
    <svg class="reliability-bars" viewBox="0 0 100 14" preserveAspectRatio="none" aria-hidden="true">
      <rect class="bar-expected" x="0.5" y="1.5" width={Math.max(0.5, forecast * 99)} height="4" />
      <rect class="bar-seen" x="0.5" y="8.5" width={Math.max(0.5, observed * 99)} height="4" />
    </svg>
  )
}
