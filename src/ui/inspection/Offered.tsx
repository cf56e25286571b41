/** What is offered: title, price, end, and every stated field with its origin. What is not stated is named in one line. */
import { Fragment } from 'preact'
import type { Inspection } from '../../domain/inspection.ts'
import { PageText } from '../parts/PageText.tsx'
import { useWording } from '../wording.ts'
import { deriveOfferedFields, type OfferedField, originOf } from './offered-fields.ts'
import { SourcedValue } from './SourcedValue.tsx'

export type GoToPlace = (place: { where: string | null; quote: string | null }) => void

interface OfferedProps {
  readonly inspection: Inspection
  /** ISO 8601 in UTC, for "in 2 days". */
  readonly now: string
  readonly lang: string | null
  readonly onGo?: GoToPlace
  /** Opens the grader's record page; absent where it has no address. */
  readonly onLookUp?: (() => void) | null
}

/** Rarely what a decision turns on: one press away, so that the stance stands in the first screenful. */
const FOLDED: ReadonlySet<string> = new Set(['memberSince', 'payments', 'location', 'itemNumber'])

export function Offered({ inspection, now, lang, onGo, onLookUp }: OfferedProps) {
  const wording = useWording()
  const { t } = wording
  const { listing, claims } = inspection
  const fields = deriveOfferedFields(inspection, wording)
  const folded = fields.sale.filter(({ key }) => FOLDED.has(key))
  return (
    <section class="offered" aria-labelledby="offered-heading">
      <h2 id="offered-heading" class="for-readers">
        {t('offered.heading')}
      </h2>
      <p class="offered-title">
        {listing.title === null ? (
          <span class="not-stated">{t('offered.no-title')}</span>
        ) : (
          <SourcedValue origin={originOf(listing, 'title')} lang={lang} onGo={onGo}>
            <PageText text={listing.title} lang={lang} />
          </SourcedValue>
        )}
      </p>
      <Price inspection={inspection} now={now} lang={lang} onGo={onGo} />
      <FieldList fields={fields.claim} lang={lang} onGo={onGo} onLookUp={onLookUp} />
      <FieldList fields={fields.sale.filter(({ key }) => !FOLDED.has(key))} lang={lang} onGo={onGo} />
      {folded.length > 0 && (
        <details class="more-fields">
          <summary>{t('offered.more', { count: folded.length })}</summary>
          <FieldList fields={folded} lang={lang} onGo={onGo} />
        </details>
      )}
      {fields.notStated.length > 0 && (
        <p class="not-stated">
          {t('offered.not-stated', { list: wording.list(fields.notStated.map((key) => t(`field.${key}`))) })}
        </p>
      )}
      {claims.length > 1 && <p class="not-stated">{t('offered.several', { count: claims.length })}</p>}
    </section>
  )
}

function Price({ inspection, now, lang, onGo }: Omit<OfferedProps, 'onLookUp'>) {
  const wording = useWording()
  const { t } = wording
  const { listing } = inspection
  const extras = [
    listing.shipping &&
      (Number(listing.shipping.amount) === 0
        ? { key: 'shipping', text: t('price.shipping-free') }
        : { key: 'shipping', text: t('price.shipping', { amount: wording.money(listing.shipping) }) }),
    listing.premiumPercent !== null && {
      key: 'premiumPercent',
      text: t('price.premium', { percent: wording.number(listing.premiumPercent) }),
    },
    listing.estimate && {
      key: 'estimate',
      text: t('price.estimate', {
        low: wording.money(listing.estimate.low),
        high: wording.money(listing.estimate.high),
      }),
    },
    listing.bids !== null && { key: 'bids', text: t('price.bids', { count: listing.bids }) },
    listing.reserve !== null && { key: 'reserve', text: t(`price.reserve.${listing.reserve}`) },
    listing.bestOffer === true && { key: 'bestOffer', text: t('price.best-offer') },
  ].filter((extra) => extra !== null && extra !== false)

  return (
    <div class="price">
      <p class="price-line">
        {listing.price === null ? (
          <span class="not-stated">{t('price.none')}</span>
        ) : (
          <SourcedValue origin={originOf(listing, 'price')} lang={lang} onGo={onGo}>
            <span class="price-amount">{wording.money(listing.price)}</span>
          </SourcedValue>
        )}
        <span class="price-kind">
          {listing.priceKind !== null && t(`priceKind.${listing.priceKind}`)}
          {listing.priceKind !== null && listing.saleFormat !== null && ' · '}
          {listing.saleFormat !== null && (
            <SourcedValue origin={originOf(listing, 'saleFormat')} lang={lang} onGo={onGo}>
              {t(`saleFormat.${listing.saleFormat}`)}
            </SourcedValue>
          )}
        </span>
      </p>
      {extras.length > 0 && (
        <p class="price-extras">
          {extras.map(({ key, text }, index) => (
            <Fragment key={key}>
              {index > 0 && ' · '}
              <span class="price-extra">
                <SourcedValue origin={originOf(listing, key)} lang={lang} onGo={onGo}>
                  {text}
                </SourcedValue>
              </span>
            </Fragment>
          ))}
        </p>
      )}
      {listing.endsAt !== null && (
        <p class="price-end">
          <SourcedValue origin={originOf(listing, 'endsAt')} lang={lang} onGo={onGo}>
            <time dateTime={listing.endsAt}>
              {t(listing.endsAt > now ? 'price.ends' : 'price.ended', {
                time: wording.dateTime(listing.endsAt),
                relative: wording.relative(listing.endsAt, now),
              })}
            </time>
          </SourcedValue>
        </p>
      )}
      {listing.sold === true && (
        <p class="price-end">
          {listing.soldAt === null ? t('price.sold') : t('price.sold-at', { date: wording.date(listing.soldAt) })}
        </p>
      )}
    </div>
  )
}

function FieldList({
  fields,
  lang,
  onGo,
  onLookUp,
}: {
  fields: readonly OfferedField[]
  lang: string | null
  onGo?: GoToPlace
  onLookUp?: (() => void) | null
}) {
  const { t } = useWording()
  if (fields.length === 0) return null
  return (
    <dl class="fields">
      {fields.map(({ key, value, verbatim, origin, brief }) => (
        <div class={`field-pair${brief ? ' is-brief' : ''}`} key={key}>
          <dt>{t(`field.${key}`)}</dt>
          <dd>
            <SourcedValue origin={origin} lang={lang} onGo={onGo}>
              {verbatim ? <PageText text={value} lang={lang} /> : value}
            </SourcedValue>
            {key === 'certificate' && onLookUp && (
              <button type="button" class="link-button" onClick={onLookUp}>
                {t('action.look-up')}
              </button>
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}
