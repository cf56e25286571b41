/** The comparisons that lie with a dossier, each in counts and words, and the way to a new one. */
import type { Dossier } from '../../domain/dossier.ts'
import { VERDICTS } from '../../domain/exemplar.ts'
import { Icon, VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

export function KeptComparisons({ dossier: { id, comparisons = [], photos } }: { dossier: Dossier }) {
  const { t, dateTime } = useWording()
  if (photos.every(({ sha256 }) => sha256 === null)) return null
  return (
    <section class="kept-comparisons">
      <h2>{t('dossier.comparisons')}</h2>
      {comparisons.map((comparison) => (
        <article key={comparison.examination} class="kept-comparison">
          <h3>{t('dossier.comparison-of', { title: comparison.exemplar.title, time: dateTime(comparison.at) })}</h3>
          <p class="verdict-counts">
            {VERDICTS.map((verdict) => {
              const count = comparison.points.filter((point) => point.verdict === verdict).length
              return count === 0 ? null : (
                <span key={verdict}>
                  <VerdictShape verdict={verdict} />
                  {count} {t(`verdict.${verdict}`)}
                </span>
              )
            })}
          </p>
          <ul class="kept-differences">
            {comparison.points
              .filter(({ verdict }) => verdict === 'differs')
              .map(({ point, name }) => (
                <li key={point}>
                  {t('verdict.differs')}: {name}
                </li>
              ))}
          </ul>
          <a class="link" href={`#light-table/${encodeURIComponent(comparison.examination)}`}>
            {t('dossier.comparison-open')}
          </a>
        </article>
      ))}
      <p>
        <a class="button small" href={`#light-table/${encodeURIComponent(`dossier:${id}`)}`}>
          <Icon name="compare" />
          {t('dossier.compare')}
        </a>
      </p>
    </section>
  )
}
