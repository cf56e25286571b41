/**
 * What a graph of items states to be offered: one record for each offer with its item, and for each product without an offer.
 * States only what the markup states; `null` elsewhere. Values are strings as written.
 */
import { hasType, itemsOf, type StructuredGraph, type StructuredItem, stringOf, valuesOf } from './graph.ts'

export interface OfferRecord {
  /** Types of the thing offered, `[]` where only an offer is stated. */
  readonly itemTypes: readonly string[]
  /** `Offer`, `AggregateOffer`, …; `null`: a product without an offer. */
  readonly offerType: string | null
  readonly name: string | null
  readonly price: string | null
  readonly lowPrice: string | null
  readonly highPrice: string | null
  readonly priceCurrency: string | null
  readonly offerCount: string | null
  readonly availability: string | null
  readonly seller: string | null
  readonly sellerItem: StructuredItem | null
  readonly condition: string | null
  /** Of the item. */
  readonly url: string | null
  readonly image: string | null
  readonly images: readonly string[]
  readonly offerUrl: string | null
  readonly description: string | null
  /** `true` for a loan, lease or rent: its price is not the price of a sale. */
  readonly lease: boolean
  readonly shipping: { readonly amount: string; readonly currency: string | null } | null
  readonly endsAt: string | null
  readonly returnsPolicy: { readonly category: string | null; readonly days: string | null } | null
  readonly item: StructuredItem | null
  readonly offer: StructuredItem | null
}

const OFFER = /^(?:Offer|AggregateOffer|OfferForPurchase|OfferForLease|Demand)$/
/** Types that are goods even when no offer is stated. */
const PRODUCT =
  /^(?:Product|IndividualProduct|SomeProducts|ProductModel|ProductGroup|ProductCollection|Vehicle|Car|Motorcycle)$/

export function isProduct(item: StructuredItem): boolean {
  return hasType(item, PRODUCT)
}

export function readOfferRecords(graph: StructuredGraph): OfferRecord[] {
  const records: OfferRecord[] = []
  const maker = new Map<StructuredItem, StructuredItem>()
  const itemOfOffer = new Map<StructuredItem, StructuredItem>()
  const nestedIn = new Map<StructuredItem, StructuredItem>()
  for (const item of graph.items) {
    for (const offer of itemsOf(graph, item, 'makesOffer')) if (hasType(offer, OFFER)) maker.set(offer, item)
    for (const offer of itemsOf(graph, item, 'offers')) {
      if (hasType(item, OFFER)) nestedIn.set(offer, item)
      else if (!itemOfOffer.has(offer)) itemOfOffer.set(offer, item)
    }
    if (hasType(item, OFFER))
      for (const offered of itemsOf(graph, item, 'itemOffered'))
        if (!itemOfOffer.has(item)) itemOfOffer.set(item, offered)
  }
  const offered = new Set(itemOfOffer.values())
  for (const item of graph.items) {
    const isOffer = hasType(item, OFFER) || (itemOfOffer.has(item) && item.types.length === 0)
    if (isOffer) {
      const parent = nestedIn.get(item)
      const thing = itemOfOffer.get(item) ?? (parent ? itemOfOffer.get(parent) : undefined) ?? null
      records.push(recordOf(graph, thing, item, maker.get(item) ?? null))
    } else if (isProduct(item) && !offered.has(item) && item.properties.size > 0)
      records.push(recordOf(graph, item, null, null))
  }
  return records
}

function recordOf(
  graph: StructuredGraph,
  item: StructuredItem | null,
  offer: StructuredItem | null,
  maker: StructuredItem | null,
): OfferRecord {
  const priced = offer ? pricedPart(graph, offer) : null
  const sellerItem = offer ? (itemsOf(graph, offer, 'seller', 'offeredBy')[0] ?? maker) : null
  const images = item ? imagesOf(graph, item) : []
  const priceOf = (property: string): string | null =>
    offer ? (stringOf(offer, property) ?? stringOf(priced, property)) : null
  return {
    itemTypes: item?.types ?? [],
    offerType: offer ? (offer.types[0] ?? 'Offer') : null,
    name: stringOf(item, 'name'),
    price: priceOf('price'),
    lowPrice: offer ? stringOf(offer, 'lowPrice') : null,
    highPrice: offer ? stringOf(offer, 'highPrice') : null,
    priceCurrency: priceOf('priceCurrency'),
    offerCount: offer ? stringOf(offer, 'offerCount') : null,
    availability: offer ? stringOf(offer, 'availability') : null,
    seller: sellerItem
      ? (stringOf(sellerItem, 'name') ?? sellerItem.id)
      : offer
        ? stringOf(offer, 'seller', 'offeredBy')
        : null,
    sellerItem,
    condition: (offer && stringOf(offer, 'itemCondition')) ?? stringOf(item, 'itemCondition'),
    url: stringOf(item, 'url'),
    image: images[0] ?? null,
    images,
    offerUrl: offer ? stringOf(offer, 'url') : null,
    description: stringOf(item, 'description'),
    lease: offer ? /Lease|Rent/i.test(stringOf(offer, 'businessFunction') ?? '') || hasType(offer, /Lease/) : false,
    shipping: offer ? shippingOf(graph, offer) : null,
    endsAt: offer ? stringOf(offer, 'availabilityEnds', 'priceValidUntil') : null,
    returnsPolicy: offer ? returnsOf(graph, offer) : null,
    item,
    offer,
  }
}

/** The price specification that states the price itself, not delivery, payment, a minimum order or a list price. */
function pricedPart(graph: StructuredGraph, offer: StructuredItem): StructuredItem | null {
  const parts = itemsOf(graph, offer, 'priceSpecification').filter(
    (part) => !hasType(part, /^(?:DeliveryCharge|PaymentCharge)Specification$/),
  )
  const plain = parts.filter(
    (part) =>
      !/ListPrice|SRP|MSRP|MinimumAdvertised|Strikethrough|RegularPrice/i.test(`${stringOf(part, 'priceType') ?? ''}`),
  )
  // A price for a quantity ("per 100 g") is a unit price unless the quantity is one.
  const whole = plain.filter((part) => {
    const quantity = itemsOf(graph, part, 'referenceQuantity')[0]
    return !quantity || stringOf(quantity, 'value') === '1'
  })
  const stated = whole.filter((part) => stringOf(part, 'price') !== null)
  return stated.find((part) => itemsOf(graph, part, 'referenceQuantity').length === 0) ?? stated[0] ?? null
}

function shippingOf(graph: StructuredGraph, offer: StructuredItem): OfferRecord['shipping'] {
  for (const detail of itemsOf(graph, offer, 'shippingDetails')) {
    for (const rate of itemsOf(graph, detail, 'shippingRate')) {
      const amount = stringOf(rate, 'value', 'price')
      if (amount !== null) return { amount, currency: stringOf(rate, 'currency', 'priceCurrency') }
    }
  }
  for (const part of itemsOf(graph, offer, 'priceSpecification')) {
    if (!hasType(part, /^DeliveryChargeSpecification$/)) continue
    const amount = stringOf(part, 'price')
    if (amount !== null) return { amount, currency: stringOf(part, 'priceCurrency') }
  }
  return null
}

function returnsOf(graph: StructuredGraph, offer: StructuredItem): OfferRecord['returnsPolicy'] {
  const policy = itemsOf(graph, offer, 'hasMerchantReturnPolicy')[0]
  if (!policy) return null
  return { category: stringOf(policy, 'returnPolicyCategory'), days: stringOf(policy, 'merchantReturnDays') }
}

function imagesOf(graph: StructuredGraph, item: StructuredItem): string[] {
  const found: string[] = []
  for (const value of valuesOf(item, 'image', 'photo', 'images')) {
    if (typeof value === 'string') {
      const target = graph.byId.get(value)
      const url = target ? stringOf(target, 'contentUrl', 'url') : value
      if (url) found.push(url)
    } else {
      const url = stringOf(value, 'contentUrl', 'url') ?? value.id
      if (url) found.push(url)
    }
  }
  return found.filter((url) => url.length < 4000)
}

/** Where a record comes from; one without markup is the application's state. */
export function sourceOf(record: OfferRecord): 'json-ld' | 'microdata' | 'rdfa' | 'state' {
  return record.offer?.source ?? record.item?.source ?? 'state'
}
