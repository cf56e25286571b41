/** The list of dossiers in two helpings: the newest at once, all of them as soon as they are read. */
import type { DossierSummary } from '../../domain/dossier-summary.ts'
import { useDesk } from './desk-context.ts'
import { type Loaded, useLoaded } from './use-loaded.ts'

/** More than any window shows at once. */
const FIRST_HELPING = 40

export interface DossierList {
  readonly dossiers: readonly DossierSummary[]
  /** `false`: these are the newest, and the others are still being read. */
  readonly whole: boolean
}

export function useDossierList(): Loaded<DossierList> {
  const { ports, version } = useDesk()
  const newest = useLoaded(() => ports.newestDossiers(FIRST_HELPING), [ports])
  const all = useLoaded(() => ports.listDossiers(), [ports, version.value])
  if (all.phase === 'ready') return { phase: 'ready', value: { dossiers: all.value, whole: true } }
  if (all.phase === 'loading' && newest.phase === 'ready')
    return { phase: 'ready', value: { dossiers: newest.value, whole: newest.value.length < FIRST_HELPING } }
  return all
}
