/**
 * Goods out of the state that applications embed (`<script type="application/json">`, `window.x = {…}`): objects with a name and
 * a price. Bounded in size, depth and count; hostile keys are only ever read, never written to an object.
 */
import type { OfferRecord } from './offer-records.ts'
import { isPlainObject, JSON_LIMIT, parseStrictJson } from './parse-json.ts'

export interface StateRecord {
  readonly record: OfferRecord
  /** Depth and place in the state: an item at the root of its page's data lies higher than one in a list. */
  readonly inList: boolean
  readonly id: string | null
}

const DEPTH_LIMIT = 14
/** Objects looked at; state of a page of results has some thousands. */
const OBJECT_LIMIT = 60_000
const RECORD_LIMIT = 400
/** Characters of state read in all: more than this would hold the page up. */
const TOTAL_LIMIT = 6_000_000
const NAME_KEYS = ['title', 'name', 'productName', 'itemTitle', 'subject', 'heading', 'lotTitle', 'item_name']
const PRICE_KEYS = [
  'price',
  'currentPrice',
  'currentBid',
  'current_bid',
  'currentBidAmount',
  'amount',
  'priceAmount',
  'salePrice',
  'sale_price',
  'finalPrice',
  'final_price',
  'buyNowPrice',
  'askingPrice',
  'priceInfo',
  'pricing',
  'priceValue',
  'bid',
  'highestBid',
  'hammerPrice',
]
const IMAGE_KEYS = ['images', 'photos', 'pictures', 'gallery', 'media', 'image', 'photo', 'imageUrls', 'pics']
const SELLER_KEYS = ['seller', 'vendor', 'shop', 'store', 'user', 'owner', 'advertiser', 'merchant']
const DESCRIPTION_KEYS = ['description', 'descriptionText', 'body', 'longDescription']

export function readState(scripts: readonly Element[]): { records: StateRecord[]; cut: boolean } {
  const records: StateRecord[] = []
  let left = TOTAL_LIMIT
  let objects = 0
  let cut = false
  const walk = (value: unknown, depth: number, inList: boolean): void => {
    if (depth > DEPTH_LIMIT || objects > OBJECT_LIMIT || records.length >= RECORD_LIMIT) return
    objects += 1
    if (Array.isArray(value)) {
      for (const inner of value.slice(0, 500))
        if (typeof inner === 'object' && inner !== null) walk(inner, depth + 1, inList || value.length > 1)
      return
    }
    if (!isPlainObject(value)) return
    const record = recordOf(value)
    if (record)
      records.push({
        record,
        inList,
        id: textOf(value, ['id', 'itemId', 'listingId', 'sku', 'productId', 'lotId', 'adId']),
      })
    for (const key of Object.keys(value).slice(0, 400)) {
      const inner = value[key]
      if (typeof inner === 'object' && inner !== null) walk(inner, depth + 1, inList)
    }
  }
  for (const script of scripts) {
    const type = (script.getAttribute('type') ?? '').toLowerCase()
    if (script.hasAttribute('src') || /ld\+json|template|importmap|speculationrules/.test(type)) continue
    const text = script.textContent ?? ''
    if (
      text.length < 30 ||
      (!/["']?(?:price|currentBid|current_bid|amount|bid)/i.test(text.slice(0, 200_000)) && text.length < 200_000)
    )
      continue
    if (text.length > JSON_LIMIT || text.length > left) {
      cut = true
      continue
    }
    left -= text.length
    if (/json/.test(type)) {
      const parsed = parseStrictJson(text.trim())
      if (parsed) walk(parsed.value, 0, false)
      continue
    }
    for (const value of assignedValues(text)) walk(value, 0, false)
  }
  return { records, cut }
}

/** Values that a script assigns: `window.STATE = {…}`, `var item = {…}`, `STATE = JSON.parse("…")`. */
function assignedValues(text: string): unknown[] {
  const values: unknown[] = []
  for (const match of text.matchAll(/(?:=|\breturn|\(|:)\s*(JSON\.parse\(\s*(?=["'])|(?=[{[]["{[]))/g)) {
    if (values.length >= 12) break
    const start = match.index + match[0].length
    if (match[1]?.startsWith('JSON')) {
      const end = endOfString(text, start)
      const inner = end > 0 ? parseStrictJson(text.slice(start, end).replace(/^'|'$/g, '"')) : null
      const parsed = typeof inner?.value === 'string' ? parseStrictJson(inner.value) : null
      if (parsed) values.push(parsed.value)
      continue
    }
    const end = endOfValue(text, start)
    if (end - start < 30) continue
    const parsed =
      parseStrictJson(text.slice(start, end)) ??
      parseStrictJson(text.slice(start, end).replace(/:\s*undefined\b/g, ':null'))
    if (parsed) values.push(parsed.value)
  }
  return values
}

function endOfString(text: string, start: number): number {
  const quote = text[start]
  for (let at = start + 1; at < text.length; at += 1) {
    if (text[at] === '\\') at += 1
    else if (text[at] === quote) return at + 1
  }
  return -1
}

function endOfValue(text: string, start: number): number {
  let depth = 0
  for (let at = start; at < text.length; at += 1) {
    const char = text[at]
    if (char === '"') {
      const end = endOfString(text, at)
      if (end < 0) return start
      at = end - 1
    } else if (char === '{' || char === '[') depth += 1
    else if (char === '}' || char === ']') {
      depth -= 1
      if (depth === 0) return at + 1
    }
  }
  return start
}

function textOf(value: Record<string, unknown>, keys: readonly string[]): string | null {
  for (const key of keys) {
    if (!Object.hasOwn(value, key)) continue
    const inner = value[key]
    if (typeof inner === 'string' && inner.trim() !== '') return inner.trim()
    if (typeof inner === 'number' && Number.isFinite(inner)) return String(inner)
    if (isPlainObject(inner)) {
      const deeper =
        inner.text ?? inner.value ?? inner.name ?? inner.displayName ?? inner.username ?? inner.login ?? inner.title
      if (typeof deeper === 'string' && deeper.trim() !== '') return deeper.trim()
    }
  }
  return null
}

interface StatePrice {
  readonly amount: string
  readonly currency: string | null
}

function priceOf(value: unknown, depth = 0): StatePrice | null {
  if (typeof value === 'number')
    return Number.isFinite(value) && value > 0 && value < 1e12 ? { amount: String(value), currency: null } : null
  if (typeof value === 'string')
    return /^\d[\d.,]{0,14}$/.test(value.trim()) ? { amount: value.trim(), currency: null } : null
  if (!isPlainObject(value) || depth > 2) return null
  const currency =
    [value.currency, value.currencyCode, value.currency_code, value.currencyId, value.priceCurrency].find(
      (each): each is string => typeof each === 'string' && /^[A-Z]{3}$/.test(each),
    ) ?? null
  // Amounts in cents say so in their name.
  const cents =
    value.cents ?? value.amountCents ?? value.centAmount ?? value.priceCents ?? value.amount_cents ?? value.minorUnits
  if (typeof cents === 'number' && Number.isInteger(cents) && cents > 0)
    return { amount: (cents / 100).toFixed(2), currency }
  for (const key of [
    'amount',
    'value',
    'price',
    'current',
    'raw',
    'final',
    'gross',
    'number',
    'parsedAmount',
    'money',
  ]) {
    if (!Object.hasOwn(value, key)) continue
    const inner = priceOf(value[key], depth + 1)
    if (inner) return { amount: inner.amount, currency: inner.currency ?? currency }
  }
  return null
}

function recordOf(value: Record<string, unknown>): OfferRecord | null {
  const name = textOf(value, NAME_KEYS)
  if (!name || name.length < 4 || name.length > 500) return null
  let price: StatePrice | null = null
  for (const key of Object.keys(value)) {
    if (price) break
    if (/^(?:price|amount)_?(?:in_?)?cents?$/i.test(key) && typeof value[key] === 'number')
      price = { amount: (Number(value[key]) / 100).toFixed(2), currency: null }
    else if (PRICE_KEYS.includes(key)) price = priceOf(value[key])
  }
  if (!price) return null
  const currency =
    price.currency ??
    [value.currency, value.currencyCode, value.priceCurrency].find(
      (each): each is string => typeof each === 'string' && /^[A-Z]{3}$/.test(each),
    ) ??
    null
  const images = imagesOf(value)
  return {
    itemTypes: ['Product'],
    offerType: 'Offer',
    name,
    price: price.amount,
    lowPrice: null,
    highPrice: null,
    priceCurrency: currency,
    offerCount: null,
    availability: null,
    seller: textOf(value, SELLER_KEYS),
    sellerItem: null,
    condition: textOf(value, ['condition', 'itemCondition', 'conditionText']),
    url: textOf(value, ['url', 'canonicalUrl', 'link', 'href', 'permalink', 'slug']),
    image: images[0] ?? null,
    images,
    offerUrl: null,
    description: textOf(value, DESCRIPTION_KEYS),
    lease: false,
    shipping: null,
    endsAt: textOf(value, ['endsAt', 'endTime', 'end_time', 'endDate', 'endsOn', 'closesAt']),
    returnsPolicy: null,
    item: null,
    offer: null,
  }
}

function imagesOf(value: Record<string, unknown>): string[] {
  for (const key of IMAGE_KEYS) {
    if (!Object.hasOwn(value, key)) continue
    const list = Array.isArray(value[key]) ? (value[key] as unknown[]) : [value[key]]
    const urls = list
      .slice(0, 100)
      .map(largestUrl)
      .filter((url): url is string => url !== null)
    if (urls.length > 0) return urls
  }
  return []
}

function largestUrl(value: unknown): string | null {
  if (typeof value === 'string') return /^(?:https?:)?\/|\.(?:jpe?g|png|webp|avif)/i.test(value) ? value : null
  if (!isPlainObject(value)) return null
  for (const key of [
    'original',
    'full',
    'xxl',
    'xl',
    'large',
    'zoom',
    'url',
    'src',
    'href',
    'uri',
    'medium',
    'l',
    'm',
    's',
  ]) {
    if (Object.hasOwn(value, key) && typeof value[key] === 'string' && /[/.]/.test(value[key])) return value[key]
  }
  return null
}
