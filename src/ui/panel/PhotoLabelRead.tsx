/** What was read on a label, as text beside its crop, so that the eye can check the machine. */
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { useWording } from '../wording.ts'

export function PhotoLabelRead({ src, facts }: { src: string; facts: PhotoFacts }) {
  const { t } = useWording()
  const { label } = facts
  if (label === null) return null
  const said = [
    ['label.grader', label.grader],
    ['label.grade', label.grade],
    ['label.certificate', label.certificate],
  ] as const
  return (
    <figure class="label-read">
      <LabelCrop src={src} facts={facts} />
      <figcaption>
        <dl>
          {said.map(([key, value]) => (
            <div key={key}>
              <dt>{t(key)}</dt>
              <dd class={value === null ? 'is-unknown' : undefined}>{value ?? t('label.not-certain')}</dd>
            </div>
          ))}
        </dl>
        <p class="label-lines" title={t('label.lines')}>
          {label.lines.join(' · ')}
        </p>
      </figcaption>
    </figure>
  )
}

function LabelCrop({ src, facts: { label, width, height } }: { src: string; facts: PhotoFacts }) {
  const corners = label?.where
  if (!corners || !width || !height) return null
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)]
  const [left, top] = [Math.max(0, Math.min(...xs)), Math.max(0, Math.min(...ys))]
  const across = Math.min(width, Math.max(...xs)) - left
  const down = Math.min(height, Math.max(...ys)) - top
  if (across <= 0 || down <= 0) return null
  return (
    <span class="label-crop" style={{ aspectRatio: `${across} / ${down}` }}>
      <img
        src={src}
        alt=""
        style={{
          width: `${(width / across) * 100}%`,
          left: `${(-left / across) * 100}%`,
          top: `${(-top / down) * 100}%`,
        }}
      />
    </span>
  )
}
