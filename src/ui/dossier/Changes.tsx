/** What the page said before and says now: each time it was seen to differ, newest first. Says what changed, never why. */
import { diffRevision, type Seen } from '../../domain/dossier/diff-revision.ts'
import type { Dossier, ListingRevision } from '../../domain/dossier.ts'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'

export function Changes({ dossier }: { dossier: Dossier }) {
  const { t, dateTime } = useWording()
  const revisions = dossier.revisions ?? []
  if (revisions.length === 0) return null
  const states = [...revisions, present(dossier)]
  return (
    <section aria-labelledby="changes-heading">
      <h2 id="changes-heading">{t('changes.heading')}</h2>
      {revisions
        .map((before, index) => {
          const after = states[index + 1]!
          return (
            <article key={before.capturedAt} class="change">
              <h3>
                {t('changes.between', { before: dateTime(before.capturedAt), after: dateTime(after.capturedAt) })}
              </h3>
              <Difference before={before} after={after} lang={after.listing.language} />
            </article>
          )
        })
        .reverse()}
    </section>
  )
}

type State = Seen & Pick<ListingRevision, 'capturedAt'>

function present({ capturedAt, inspection: { listing }, photos }: Dossier): State {
  const kept = new Map(photos.map((photo) => [photo.url, photo]))
  const seen = listing.photos.map(({ url }) => ({
    url,
    sha256: kept.get(url)?.sha256 ?? null,
    pdq: kept.get(url)?.facts?.pdq ?? null,
  }))
  return { capturedAt, listing, photos: seen }
}

function Difference({ before, after, lang }: { before: State; after: State; lang: string | null }) {
  const { t, money, dateTime } = useWording()
  const { price, endsAt, seller, texts, photosAdded, photosRemoved, photosSwapped } = diffRevision(before, after)
  const unknown = t('changes.not-stated')
  const photoLines = [
    photosAdded.length > 0 && t('changes.photos-added', { count: photosAdded.length }),
    photosRemoved.length > 0 && t('changes.photos-removed', { count: photosRemoved.length }),
    photosSwapped.length > 0 && t('changes.photos-swapped', { count: photosSwapped.length }),
  ].filter((line) => line !== false)
  return (
    <dl class="differences">
      {price !== null && (
        <Line
          name={t('field.price')}
          before={price.before === null ? unknown : money(price.before)}
          after={price.after === null ? unknown : money(price.after)}
        />
      )}
      {endsAt !== null && (
        <Line
          name={t('deadline.auction-end')}
          before={endsAt.before === null ? unknown : dateTime(endsAt.before)}
          after={endsAt.after === null ? unknown : dateTime(endsAt.after)}
        />
      )}
      {seller !== null && <Line name={t('field.seller')} before={seller.before} after={seller.after} />}
      {photoLines.map((line) => (
        <div key={line}>
          <dt>{t('dossier.photos')}</dt>
          <dd>{line}</dd>
        </div>
      ))}
      {texts.map(({ field, parts }) => (
        <div key={field}>
          <dt>{nameOfText(field, t)}</dt>
          <dd class="word-diff" lang={lang ?? undefined}>
            {parts.map(({ kind, text }, index) =>
              kind === 'added' ? (
                <ins key={index}>{text}</ins>
              ) : kind === 'removed' ? (
                <del key={index}>{text}</del>
              ) : (
                <PageText key={index} text={shorten(text, index === 0, index === parts.length - 1)} />
              ),
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}

/** Characters of unchanged words around a change: enough to see where it stands. Ours, no source. */
const CONTEXT = 60

function shorten(text: string, isFirst: boolean, isLast: boolean): string {
  if (text.length <= 2 * CONTEXT) return text
  const head = isFirst ? '' : text.slice(0, CONTEXT)
  const tail = isLast ? '' : text.slice(-CONTEXT)
  return `${head} … ${tail}`
}

function nameOfText(field: string, t: ReturnType<typeof useWording>['t']): string {
  return field.startsWith('specifics.') ? field.slice('specifics.'.length) : t(`field.${field}`)
}

function Line({ name, before, after }: { name: string; before: string; after: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <del>{before}</del> <ins>{after}</ins>
      </dd>
    </div>
  )
}
