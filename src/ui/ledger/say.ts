/** What the core says in codes and figures, in the interface's words. */
import { figuresAsWords } from '../../domain/pricing/words.ts'
import type { Said } from '../../domain/valuation.ts'
import { useWording } from '../wording.ts'

export function useSaid(): (said: Said) => string {
  const { t, percent } = useWording()
  return ({ code, figures }) => t(code, figuresAsWords(figures, percent))
}
