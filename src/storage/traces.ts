/** What the kept dossiers have in common with a listing: looked up by index, so that 20,000 dossiers cost no more than ten. */
import { type DossierSummary, foldTextStart } from '../domain/dossier-summary.ts'
import type { Trace } from '../domain/facts.ts'
import type { Database } from './database.ts'

export interface TraceQuery {
  /** The listing's own address: its own dossier is no trace. */
  readonly url: string | null
  /** The listing's own dossier where that is known better than by address. */
  readonly dossier?: string | null
  readonly certificate: string | null
  readonly seller: string | null
  readonly description: string | null
  readonly photos: readonly { readonly url: string; readonly sha256: string | null }[]
}

/** The newest dossiers of a seller that are worth a line; an old acquaintance would fill the panel otherwise. */
const MOST_PER_KIND = 5

export async function findTraces(database: Database, query: TraceQuery): Promise<Trace[]> {
  const textStart = foldTextStart(query.description)
  const lookUps: Promise<Trace[]>[] = []
  const byIndex = async (
    kind: Trace['kind'],
    index: 'certificate' | 'seller' | 'textStart' | 'photoHashes',
    value: string,
    detail: string | null,
  ): Promise<Trace[]> =>
    (await database.getAllFromIndex('summaries', index, value))
      .filter((summary) => summary.deletedAt === null && !isOwn(summary, query))
      .sort((a, b) => b.capturedAt.localeCompare(a.capturedAt))
      .slice(0, MOST_PER_KIND)
      .map((summary) => toTrace(kind, summary, detail))

  if (query.certificate !== null)
    lookUps.push(byIndex('same-certificate', 'certificate', query.certificate, query.certificate))
  if (query.seller !== null) lookUps.push(byIndex('same-seller', 'seller', query.seller, query.seller))
  if (textStart !== null) lookUps.push(byIndex('same-text', 'textStart', textStart, query.description))
  for (const photo of query.photos)
    if (photo.sha256 !== null) lookUps.push(byIndex('same-photo', 'photoHashes', photo.sha256, photo.url))
  return (await Promise.all(lookUps)).flat()
}

function isOwn(summary: DossierSummary, { url, dossier }: TraceQuery): boolean {
  return summary.id === dossier || (url !== null && summary.url === url)
}

function toTrace(kind: Trace['kind'], summary: DossierSummary, detail: string | null): Trace {
  return {
    kind,
    dossier: summary.id,
    title: summary.title,
    seller: summary.seller,
    at: summary.capturedAt,
    outcome: summary.outcome,
    detail,
  }
}
