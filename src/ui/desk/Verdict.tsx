/** What a comparison came to: the word, one sentence in the interface's language, the figures. */
import { VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import type { Comparison } from './desk-ports.ts'

export function Verdict({ result }: { result: Comparison }) {
  const { t, number } = useWording()
  const { verdict, value, exemplarValue, unit, uncertainty, tolerance } = result
  const amount = (figure: number | null) =>
    figure === null ? t('compare.not-measured') : `${number(figure, { maximumFractionDigits: 2 })}\u00a0${unit}`
  const spread = (figure: number | null) => (figure === null ? amount(null) : `±\u00a0${amount(figure)}`)
  return (
    <section class="verdict">
      <h2 class="verdict-word">
        <VerdictShape verdict={verdict} />
        {t(`verdict.${verdict}`)}
      </h2>
      {value === null || exemplarValue === null ? (
        <p class="verdict-reason">
          <Reason result={result} />
        </p>
      ) : (
        <p class="verdict-reason">
          {t(`verdict.${verdict}.measured`, {
            apart: amount(Math.abs(value - exemplarValue)),
            uncertainty: spread(uncertainty),
            tolerance: amount(tolerance),
          })}
        </p>
      )}
      <dl class="verdict-figures">
        <div>
          <dt>{t('compare.value')}</dt>
          <dd>{amount(value)}</dd>
        </div>
        <div>
          <dt>{t('compare.exemplar-value')}</dt>
          <dd>{amount(exemplarValue)}</dd>
        </div>
        <div>
          <dt>{t('compare.uncertainty')}</dt>
          <dd>{spread(uncertainty)}</dd>
        </div>
        <div>
          <dt>{t('compare.tolerance')}</dt>
          <dd>{spread(tolerance)}</dd>
        </div>
      </dl>
      <p class="quiet">{t('compare.caution')}</p>
    </section>
  )
}

function Reason({ result: { reason, cause } }: { result: Comparison }) {
  const { t } = useWording()
  if (cause === null)
    return (
      <>
        {t('compare.nothing-measured')} <span lang="en">{reason}.</span>
      </>
    )
  const sentence = t(`cannot-tell.${cause.code}`, cause.figures)
  return <>{cause.on === null ? sentence : t(`cannot-tell-on.${cause.on}`, { sentence })}</>
}
