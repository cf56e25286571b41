/** The list of dossiers in two helpings: the newest at once, all of them as soon as they are read. */
import { useMemo } from 'preact/hooks'
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import { useDesk } from './desk-context.ts'
import { type Loaded, useLoaded } from './use-loaded.ts'

/** More than any window shows at once. */
const FIRST_HELPING = 20
/** Milliseconds. Ours, no source. */
const LONGEST_DRAWING = 100

export interface DossierList {
  readonly dossiers: readonly DossierSummary[]
  /** `false`: these are the newest, and the others are still being read. */
  readonly whole: boolean
}

export function useDossierList(): Loaded<DossierList> {
  const { ports, version } = useDesk()
  // One after the other: read at once, the first helping would wait behind the whole.
  const first = useMemo(() => ports.newestDossiers(FIRST_HELPING), [ports])
  const newest = useLoaded(() => first, [first])
  const all = useLoaded(
    () =>
      first
        .catch(() => null)
        .then(() => drawn())
        .then(() => ports.listDossiers()),
    [ports, version.value],
  )
  if (all.phase === 'ready') return { phase: 'ready', value: { dossiers: all.value, whole: true } }
  if (all.phase === 'loading' && newest.phase === 'ready')
    return { phase: 'ready', value: { dossiers: newest.value, whole: newest.value.length < FIRST_HELPING } }
  return all
}

/** Once what is known is on the screen. A window that is not seen draws nothing, and need not be waited for. */
function drawn(): Promise<void> {
  return new Promise((done) => {
    setTimeout(done, LONGEST_DRAWING)
    requestAnimationFrame(() => setTimeout(done))
  })
}
