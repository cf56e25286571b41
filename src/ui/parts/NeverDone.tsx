/** What Touchstone never does. Each line is true of the code, and a person can check it in the browser's own tools. */
import { useWording } from '../wording.ts'

export const NEVER = ['send', 'server', 'judge', 'silently'] as const

export function NeverDone() {
  const { t } = useWording()
  return (
    <ul class="never">
      {NEVER.map((line) => (
        <li key={line}>{t(`never.${line}`)}</li>
      ))}
    </ul>
  )
}
