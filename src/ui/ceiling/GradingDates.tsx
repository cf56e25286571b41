/** Both ends: that of the return window and the day on which grading is expected back. */
import { useState } from 'preact/hooks'
import { returnDates } from '../../domain/pricing/ceiling.ts'
import { TextField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'

export function GradingDates({ today }: { today: string }) {
  const { t, date } = useWording()
  const [days, setDays] = useState({ shipping: '', returns: '', grading: '' })
  const read = (text: string) => (/^\d{1,4}$/.test(text.trim()) ? Number(text) : null)
  const [shipping, returns, grading] = [days.shipping, days.returns, days.grading].map(read)
  const found =
    shipping == null || returns == null || grading == null ? null : returnDates(today, { shipping, returns, grading })
  return (
    <details class="grading-dates">
      <summary>{t('ceiling.dates')}</summary>
      <div class="form-row">
        {(['shipping', 'returns', 'grading'] as const).map((field) => (
          <TextField
            key={field}
            label={t(`ceiling.dates.${field}`)}
            inputMode="numeric"
            value={days[field]}
            onChange={(text) => setDays({ ...days, [field]: text })}
          />
        ))}
      </div>
      {found?.returnEnds != null && found.gradedBack !== null && (
        <p role="status">
          {t('ceiling.dates.ends', { end: date(found.returnEnds), back: date(found.gradedBack) })}{' '}
          <strong>
            {(found.tooLateBy ?? 0) > 0
              ? t('ceiling.dates.late', { count: found.tooLateBy ?? 0 })
              : t('ceiling.dates.in-time')}
          </strong>
        </p>
      )}
    </details>
  )
}
