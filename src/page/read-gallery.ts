/**
 * The pictures of the thing offered: the gallery of this item only, each at the largest size that the page itself names, in
 * order, without icons, avatars, logos and the same picture twice. Nothing is fetched.
 */
import type { ListingPhoto } from '../domain/listing.ts'
import { foldWords, type Headline, overlap, siteNames } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { type IndexedNode, REGION } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'
import {
  collectScriptImages,
  isImageFile,
  isPhotoUrl,
  isPhotoWord,
  largestOfSrcset,
  reduceUrl,
  variantKey,
} from './photo-variants.ts'
import { lineOfNode } from './score-price.ts'
import type { OfferRecord } from './structured/offer-records.ts'

/** Photos kept of one listing; no marketplace allows this many. */
const PHOTO_LIMIT = 200
/** CSS pixels: smaller pictures are icons unless they name a larger variant. */
const ICON_SIZE = 80
const GALLERY_MARKS =
  /galler|carousel|slide|slick|swiper|photo|image|picture|zoom|thumb|viewer|media|main-?img|product-?img|bild|foto|splide|lightbox|galerie|galeria|vignette/
const LARGE_ATTRIBUTE = /zoom|large|full|hires|high-?res|orig|big|super|master|magnif|max|grand|gross|xl/
const NOT_AN_ADDRESS =
  /^(?:alt|title|class|id|style|width|height|loading|decoding|sizes|role|itemprop|fetchpriority|aria-.*|onerror|crossorigin|referrerpolicy|name|target|rel|type|usemap)$/

const bases = new WeakMap<PageEvidence, URL | null>()

function baseOf(evidence: PageEvidence): URL | null {
  let base = bases.get(evidence)
  if (base === undefined) {
    const { document } = evidence.index
    const own = evidence.url ?? (/^(?:https?|file):/.test(document.baseURI) ? document.baseURI : null)
    const declared = document.getElementsByTagName('base')[0]?.getAttribute('href') ?? null
    base = tryUrl(declared, own) ?? tryUrl(own, null)
    bases.set(evidence, base)
  }
  return base
}

function tryUrl(text: string | null, base: string | null): URL | null {
  if (text === null) return null
  try {
    return new URL(text, base ?? undefined)
  } catch {
    return null
  }
}

export function resolveUrl(evidence: PageEvidence, raw: string | null | undefined): string | null {
  const text = raw?.trim()
  if (!text || text.length > 4000) return null
  try {
    const url = new URL(text, baseOf(evidence) ?? undefined)
    return url.protocol === 'http:' || url.protocol === 'https:' || url.protocol === 'file:' ? url.href : null
  } catch {
    return null
  }
}

/** Every address that an image and what is right around it name, most telling first. */
function addressesOf(evidence: PageEvidence, at: number): { url: string; width: number | null }[] {
  const { index } = evidence
  const node = index.nodes[at]!
  const found: { url: string; width: number | null }[] = []
  const add = (raw: string | null | undefined, width: number | null): void => {
    if (!raw || raw.length < 3 || raw.startsWith('data:') || raw.startsWith('blob:')) return
    const url = resolveUrl(evidence, raw)
    if (url && isPhotoUrl(url)) found.push({ url, width })
  }
  const readAttributes = (element: Element, telling: boolean): void => {
    for (const { name, value } of element.attributes) {
      if (value.length < 4 || value.length > 6000 || NOT_AN_ADDRESS.test(name) || !/[/.]/.test(value)) continue
      if (name === 'src') add(value, null)
      else if (/srcset$/.test(name)) {
        const best = largestOfSrcset(value)
        if (best) add(best.url, best.width >= 300 ? best.width : null)
      } else if (name === 'data-a-dynamic-image' || value.startsWith('{')) {
        for (const match of value.matchAll(/"(https?:[^"]+)"\s*:\s*\[\s*(\d+)/g)) add(match[1], Number(match[2]))
      } else if (
        isImageFile(value) ||
        (telling && name.startsWith('data-') && /^(?:https?:)?\/|^\w+[\w/.-]*\?/.test(value))
      ) {
        add(value, LARGE_ATTRIBUTE.test(name) ? 4000 : null)
      }
    }
  }
  readAttributes(node.element, true)
  for (let up = node.parent, step = 0; up > 0 && step < 3; up = index.nodes[up]!.parent, step += 1) {
    const holder = index.nodes[up]!
    // What holds several pictures names no variant of one of them.
    if (evidence.counts.images[holder.end]! - evidence.counts.images[up]! > 2) break
    readAttributes(holder.element, false)
    if (holder.tag === 'a') {
      const href = holder.element.getAttribute('href')
      const target = resolveUrl(evidence, href)
      const own = found[0]
      if (target && (isImageFile(target) || (own && variantKey(target) === variantKey(own.url)))) add(target, 4000)
      break
    }
    if (holder.tag === 'picture')
      for (const source of holder.element.children) if (source.localName === 'source') readAttributes(source, false)
  }
  return found
}

/** The largest picture that an image element names, for rows and other places where one is wanted. */
export function largestVariant(evidence: PageEvidence, at: number): string | null {
  const addresses = addressesOf(evidence, at)
  const own = addresses[0]
  if (!own) return null
  return largestOf(addresses.filter((each) => each.width !== null || variantKey(each.url) === variantKey(own.url)))
}

function largestOf(addresses: readonly { url: string; width: number | null }[]): string | null {
  let best: { url: string; size: number } | null = null
  for (const { url, width } of addresses) {
    const size = Math.max(width ?? 0, width === null || width < 4000 ? reduceUrl(url).size : 0)
    if (best === null || size > best.size) best = { url, size }
  }
  return best?.url ?? null
}

interface Shot {
  readonly addresses: { url: string; width: number | null }[]
  readonly alt: string | null
  readonly key: string
  readonly node: number
  readonly score: number
}

export function readGallery(
  evidence: PageEvidence,
  place: { headline: Headline | null; groups: readonly RecordGroup[]; record: OfferRecord | null },
): ListingPhoto[] {
  const { metadata } = evidence
  const { headline, groups, record } = place
  const resolve = (raw: string): string | null => resolveUrl(evidence, raw)
  const ofRecord = (record?.images ?? []).map(resolve).filter((url): url is string => url !== null && isPhotoUrl(url))
  const ofHead = metadata.images
    .map((image) => resolve(image.url))
    .filter((url): url is string => url !== null && isPhotoUrl(url))
  const statedKeys = new Set([...ofRecord, ...ofHead].map(variantKey))
  const shots = scoreShots(evidence, headline, groups, statedKeys)
  const best = shots.reduce<Shot | null>((top, shot) => (top === null || shot.score > top.score ? shot : top), null)
  const kept: Shot[] = []
  if (best && best.score >= 1) {
    const folder = folderOf(best.key)
    for (const shot of shots) {
      const sameFolder = folderOf(shot.key) === folder
      const near = Math.abs(shot.node - best.node) < 120
      if (shot.score >= Math.max(1.5, best.score - 3.5) || (shot.score >= 0.5 && sameFolder && near)) kept.push(shot)
    }
  }
  const scripts = collectScriptImages(evidence, resolve)
  const photos = new Map<string, { addresses: { url: string; width: number | null }[]; alt: string | null }>()
  const put = (key: string, addresses: readonly { url: string; width: number | null }[], alt: string | null): void => {
    const known = photos.get(key)
    if (known) {
      known.addresses.push(...addresses)
      known.alt ??= alt
    } else photos.set(key, { addresses: [...addresses], alt })
  }
  for (const shot of kept) put(shot.key, shot.addresses, shot.alt)
  // The page's data may name pictures that are not drawn yet: a list that begins with, or holds, what is shown.
  const shown = new Set(photos.keys())
  if (shown.size === 0) for (const key of statedKeys) shown.add(key)
  const list = scripts.lists
    .filter((keys) => keys.some((key) => shown.has(key)) && keys.length <= 60)
    .sort((a, b) => countShared(b, shown) - countShared(a, shown) || a.length - b.length)[0]
  if (list && countShared(list, shown) >= Math.min(shown.size, 2) && list.length > photos.size) {
    const order = new Map<string, { addresses: { url: string; width: number | null }[]; alt: string | null }>()
    for (const key of list) order.set(key, photos.get(key) ?? { addresses: [], alt: null })
    for (const [key, photo] of photos) if (!order.has(key)) order.set(key, photo)
    photos.clear()
    for (const [key, photo] of order) photos.set(key, photo)
  }
  // The data's pictures fill up a gallery that they share a picture with; beside one that they do not know, they are for sharing.
  const shared = photos.size < 2 || ofRecord.some((url) => photos.has(variantKey(url)))
  const known = ofRecord.length > 1 || photos.size === 0
  for (const url of ofRecord) {
    const key = variantKey(url)
    if (photos.has(key) || (shared && known)) put(key, [{ url, width: null }], null)
  }
  // The head's picture alone is often a card for sharing: it adds a size of a known picture, or stands in where the page shows none.
  for (const url of ofHead) {
    const key = variantKey(url)
    if (photos.has(key)) photos.get(key)!.addresses.push({ url, width: null })
    else if (photos.size === 0) put(key, [{ url, width: null }], null)
  }
  const result: ListingPhoto[] = []
  for (const [key, photo] of photos) {
    for (const url of scripts.byKey.get(key) ?? []) photo.addresses.push({ url, width: null })
    const url = largestOf(photo.addresses)
    if (url && result.length < PHOTO_LIMIT) result.push({ url, alt: photo.alt })
  }
  return result
}

function countShared(keys: readonly string[], shown: ReadonlySet<string>): number {
  return keys.filter((key) => shown.has(key)).length
}

function scoreShots(
  evidence: PageEvidence,
  headline: Headline | null,
  groups: readonly RecordGroup[],
  statedKeys: ReadonlySet<string>,
): Shot[] {
  const { index } = evidence
  const headlineLine = headline ? lineOfNode(evidence, headline.node) : 0
  const headlineRegion = headline ? index.nodes[headline.node]!.region : 0
  const headlineRow = headline ? (groupAt(index, groups, headline.node)?.row ?? -1) : -1
  const site = siteNames(evidence)
  const shots: Shot[] = []
  for (const at of [...evidence.images, ...evidence.backgrounds].sort((a, b) => a - b)) {
    const node = index.nodes[at]!
    if (shots.length > 2000) break
    if (node.tag === 'a' && evidence.counts.images[node.end]! > evidence.counts.images[at]!) continue
    // A card of a carousel or a list of others is never a picture of this item: nothing more is asked of it.
    const group = groupAt(index, groups, at)
    if (group && group.row !== headlineRow && group.group.rows.length >= 3 && group.group.priced >= 0.5) continue
    const isImage = node.tag === 'img' || node.tag === 'amp-img'
    const addresses = isImage ? addressesOf(evidence, at) : backgroundOf(evidence, node)
    if (addresses.length === 0) continue
    const alt = node.element.getAttribute('alt')?.trim() || null
    if (!isPhotoWord(node.marks) || (alt && !isPhotoWord(alt))) continue
    const keys = addresses.map((each) => variantKey(each.url))
    const named = keys.find((key) => statedKeys.has(key))
    const key = named ?? keys[0]!
    const marks = marksOfImage(evidence, at)
    const size = declaredSize(node.element)
    const larger = new Set(addresses.map((each) => each.url)).size > 1
    if (isBanner(node.element) && !named) continue
    if (alt && !named && site.has(foldWords(alt).join(''))) continue
    if (size !== null && size < ICON_SIZE && !named && !larger && !GALLERY_MARKS.test(marks)) continue
    const box = evidence.probe.box(node.element)
    let score = 0
    if (named) score += 4
    if (GALLERY_MARKS.test(marks)) score += 1.5
    if (alt && headline && overlap(headline.text, alt) > 0.5) score += 2
    else if (alt && headline && overlap(alt, headline.text) > 0.6 && alt.length > 8) score += 1
    if (size !== null && size >= 250) score += 1
    if (box && box.width >= 200) score += 1
    if (box && box.width > 0 && box.width < 40 && !larger) score -= 2
    if (larger) score += 1
    const line = lineOfNode(evidence, at)
    if (Math.abs(line - headlineLine) <= 12) score += 1
    else if (line - headlineLine > 60) score -= 1.5
    const region = node.region & ~headlineRegion
    if (region & REGION.chrome) score -= 3
    if (region & REGION.related) score -= 4
    if (region & REGION.aside) score -= 1
    if (
      group &&
      group.row !== headlineRow &&
      (group.group.priced >= 0.3 || index.nodes[group.row]!.lastRun - index.nodes[group.row]!.firstRun > 1)
    )
      score -= 4
    if (isImage && linksElsewhere(evidence, at)) score -= 2.5
    if (node.hidden && !named) score -= 0.5
    shots.push({ addresses, alt, key, node: at, score })
  }
  return shots
}

function backgroundOf(evidence: PageEvidence, node: IndexedNode): { url: string; width: number | null }[] {
  if (node.tag === 'a') {
    const url = resolveUrl(evidence, node.element.getAttribute('href'))
    return url && isPhotoUrl(url) ? [{ url, width: 4000 }] : []
  }
  const match = /url\(\s*["']?([^"')]+)["']?\s*\)/.exec(node.element.getAttribute('style') ?? '')
  const url = resolveUrl(evidence, match?.[1])
  return url && isPhotoUrl(url) ? [{ url, width: null }] : []
}

/** Times as wide as high from which a picture is a page's head or an advertisement; panoramas end at about three. */
const BANNER_RATIO = 3.6

function isBanner(element: Element): boolean {
  const width = Number.parseInt(element.getAttribute('width') ?? '', 10)
  const height = Number.parseInt(element.getAttribute('height') ?? '', 10)
  return width > height * BANNER_RATIO && height > 0
}

function declaredSize(element: Element): number | null {
  const width = Number.parseInt(element.getAttribute('width') ?? '', 10)
  const height = Number.parseInt(element.getAttribute('height') ?? '', 10)
  if (Number.isNaN(width) && Number.isNaN(height)) return null
  return Math.max(Number.isNaN(width) ? 0 : width, Number.isNaN(height) ? 0 : height)
}

function folderOf(url: string): string {
  return url.replace(/[?#].*$/, '').replace(/[^/]*$/, '')
}

function marksOfImage(evidence: PageEvidence, at: number): string {
  let marks = ''
  for (let up = at, step = 0; up > 0 && step < 6; up = evidence.index.nodes[up]!.parent, step += 1)
    marks += ` ${evidence.index.nodes[up]!.marks}`
  return marks
}

/** A picture inside a link to another page belongs to that page. */
function linksElsewhere(evidence: PageEvidence, at: number): boolean {
  const { index } = evidence
  for (let up = index.nodes[at]!.parent, step = 0; up > 0 && step < 4; up = index.nodes[up]!.parent, step += 1) {
    const node = index.nodes[up]!
    if (node.tag !== 'a') continue
    const href = node.element.getAttribute('href') ?? ''
    if (href === '' || /^(?:#|javascript:)/i.test(href) || isImageFile(href)) return false
    const target = resolveUrl(evidence, href)
    const src = resolveUrl(evidence, index.nodes[at]!.element.getAttribute('src'))
    if (target && src && variantKey(target) === variantKey(src)) return false
    return target !== null && target.replace(/[?#].*$/, '') !== (evidence.url ?? '').replace(/[?#].*$/, '')
  }
  return false
}
