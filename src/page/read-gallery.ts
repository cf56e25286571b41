/**
 * The pictures of the thing offered: the gallery of this item only, each at the largest size that the page itself names, in
 * order, without icons, avatars, logos and the same picture twice. Nothing is fetched.
 */
import type { ListingPhoto } from '../domain/listing.ts'
import { type Headline, overlap } from './find-headline.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'
import { lineOfNode } from './score-price.ts'
import type { OfferRecord } from './structured/offer-records.ts'

/** Photos kept of one listing; no marketplace allows this many. */
const PHOTO_LIMIT = 200
/** CSS pixels: smaller pictures are icons unless they name a larger variant. */
const ICON_SIZE = 80
const NOT_A_PHOTO =
  /(?:^|[\s/_.-])(?:logos?|icons?|avatar|sprite|badge|flags?|payment|visa|mastercard|rating|stars?|banner|placeholder|pixel|tracking|spacer|loading|loader|spinner|profile|user-?(?:pic|photo|image)?|emoji|captcha|qr-?code|blank|transparent|1x1|social|facebook|share|arrow|chevron|close|play|no-?image|noimg|default-?image|trust|seal|app-?store|google-?play)(?:$|[\s/_.-])/i
const GALLERY_MARKS =
  /galler|carousel|slide|slick|swiper|photo|image|picture|zoom|thumb|viewer|media|main-?img|product-?img|bild|foto|splide|fotorama|lightbox/
const IMAGE_FILE = /\.(?:jpe?g|png|webp|avif|gif|bmp|tiff?)(?:$|[?#])/i
const LARGE_ATTRIBUTES = [
  'data-zoom-image',
  'data-zoom-src',
  'data-zoom',
  'data-large-image',
  'data-large_image',
  'data-large',
  'data-full',
  'data-full-src',
  'data-fullsize',
  'data-original-src',
  'data-hires',
  'data-old-hires',
  'data-high-res',
  'data-highres',
  'data-big',
  'data-super',
  'data-image-full',
  'data-image-large',
  'data-orig',
  'data-orig-file',
  'data-master',
  'data-magnify-src',
  'data-src-large',
  'data-img-large',
  'data-max',
] as const
const LAZY_ATTRIBUTES = [
  'data-src',
  'data-lazy',
  'data-lazy-src',
  'data-original',
  'data-image',
  'data-img',
  'data-url',
  'data-defer-src',
  'data-echo',
  'data-flickity-lazyload',
] as const

export function resolveUrl(evidence: PageEvidence, raw: string | null | undefined): string | null {
  const text = raw?.trim()
  if (!text || text.length > 4000) return null
  try {
    const base = evidence.url ?? baseOf(evidence.index.document)
    const declared = evidence.index.document.querySelector('base[href]')?.getAttribute('href')
    const url = new URL(text, declared ? new URL(declared, base ?? undefined) : (base ?? undefined))
    return url.protocol === 'http:' || url.protocol === 'https:' || url.protocol === 'file:' ? url.href : null
  } catch {
    return /^(?:https?:)?\/\//.test(text) ? text : null
  }
}

function baseOf(document: Document): string | null {
  const uri = document.baseURI
  return /^(?:https?|file):/.test(uri) ? uri : null
}

/** The largest picture that a `srcset` names. */
export function largestOfSrcset(srcset: string | null): { url: string; width: number } | null {
  if (!srcset) return null
  let best: { url: string; width: number } | null = null
  for (const part of srcset.split(/,(?=\s*[^\s,])/)) {
    const [url, descriptor = '1x'] = part.trim().split(/\s+/)
    if (!url || url.startsWith('data:')) continue
    const size = Number.parseFloat(descriptor) || 1
    const width = descriptor.endsWith('w') ? size : size * 300
    if (best === null || width > best.width) best = { url, width }
  }
  return best
}

/** The best address that an image element and the elements right around it name. */
export function largestVariant(evidence: PageEvidence, at: number): string | null {
  const { index } = evidence
  const node = index.nodes[at]!
  const { element } = node
  for (const name of LARGE_ATTRIBUTES) {
    const value = element.getAttribute(name)
    if (value && value.length > 4 && /[/.]/.test(value)) return value
  }
  const dynamic = element.getAttribute('data-a-dynamic-image')
  if (dynamic) {
    const sizes = [...dynamic.matchAll(/"(https?:[^"]+)"\s*:\s*\[\s*(\d+)/g)].sort(
      (a, b) => Number(b[2]) - Number(a[2]),
    )
    if (sizes[0]) return sizes[0][1]!
  }
  for (let up = node.parent, step = 0; up >= 0 && step < 3; up = index.nodes[up]!.parent, step += 1) {
    const holder = index.nodes[up]!
    for (const name of LARGE_ATTRIBUTES) {
      const value = holder.element.getAttribute(name)
      if (value && IMAGE_FILE.test(value)) return value
    }
    if (holder.tag === 'a') {
      const href = holder.element.getAttribute('href')
      if (href && IMAGE_FILE.test(href)) return href
      break
    }
  }
  let best = largestOfSrcset(element.getAttribute('srcset') ?? element.getAttribute('data-srcset'))
  const parent = index.nodes[node.parent]
  if (parent?.tag === 'picture') {
    for (const source of parent.element.children) {
      if (source.localName !== 'source') continue
      const found = largestOfSrcset(source.getAttribute('srcset') ?? source.getAttribute('data-srcset'))
      if (found && (best === null || found.width > best.width)) best = found
    }
  }
  if (best) return best.url
  for (const name of LAZY_ATTRIBUTES) {
    const value = element.getAttribute(name)
    if (value && value.length > 4 && /[/.]/.test(value) && !value.startsWith('{')) return value
  }
  const src = element.getAttribute('src')
  return src && !src.startsWith('data:') && !src.startsWith('blob:') ? src : null
}

/** Two addresses of one picture in different sizes have one key. */
export function variantKey(url: string): string {
  let path = url
  let query = ''
  try {
    const parsed = new URL(url, 'http://x.invalid')
    path = parsed.hostname.split('.').slice(-2).join('.') + decodeURIComponent(parsed.pathname)
    const kept = [...parsed.searchParams].filter(
      ([name, value]) =>
        !/^(?:w|h|width|height|size|q|quality|fit|crop|format|fm|auto|dpr|v|ver|version|t|ts|resize|rs|sz|sig|s|imwidth|wid|hei|op_sharpen|tr|scale|ixlib|cs|strip|name|mode|rule|bg|downsize)$/i.test(
          name,
        ) && value.length < 200,
    )
    query = kept.map(([name, value]) => `${name}=${value}`).join('&')
  } catch {}
  const plain = path
    .toLowerCase()
    .replace(/\.(?:jpe?g|png|webp|avif|gif)$/, '')
    .replace(/\.(?:jpe?g|png|webp)/g, '')
    .replace(
      /\/(?:thumbs?|thumbnails?|small|medium|large|full|zoom|originals?|preview|mini|big|xl|xs|xxl|sm|md|lg|hires|s|m|l|t|images?\d*x\d*|\d{2,4}x\d{2,4}|\d{2,4}x|w\d{2,4}|h\d{2,4}|s\d{2,4}|(?:[a-z]{1,2}_[^/,]+,?)+)(?=\/)/g,
      '',
    )
    .replace(
      /[._-](?:thumbs?|thumbnail|small|medium|large|full|zoom|original|preview|mini|big|xl|xs|xxl|sm|md|lg|hires|s|m|l|t)(?=$|[._-])/g,
      '',
    )
    .replace(/\/s-l\d+/g, '/s-l')
    .replace(/[._-]\d{2,4}x\d{0,4}(?=$|[._@-])/g, '')
    .replace(/\._[a-z0-9_,]+_/g, '')
    .replace(/@[23]x/g, '')
    .replace(/[._-]w?\d{2,4}(?:px|w|h)(?=$|[._-])/g, '')
  return query ? `${plain}?${query}` : plain
}

function declaredSize(element: Element): number | null {
  const width = Number.parseInt(element.getAttribute('width') ?? '', 10)
  const height = Number.parseInt(element.getAttribute('height') ?? '', 10)
  if (Number.isNaN(width) && Number.isNaN(height)) return null
  return Math.max(Number.isNaN(width) ? 0 : width, Number.isNaN(height) ? 0 : height)
}

export function isPhotoUrl(url: string): boolean {
  return (
    !url.startsWith('data:') &&
    !/\.svg(?:$|[?#])/i.test(url) &&
    !NOT_A_PHOTO.test(decodeSafely(url.replace(/^https?:\/\/[^/]+/, '').replace(/[?#].*$/, '')))
  )
}

function decodeSafely(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}

interface Shot {
  readonly url: string
  readonly alt: string | null
  readonly key: string
  readonly node: number
  readonly score: number
}

export function readGallery(
  evidence: PageEvidence,
  place: {
    headline: Headline | null
    groups: readonly RecordGroup[]
    record: OfferRecord | null
    descriptionNode: number | null
  },
): ListingPhoto[] {
  const { index, metadata } = evidence
  const { headline, groups, record } = place
  const stated = [...(record?.images ?? []), ...metadata.images.map((image) => image.url)]
    .map((url) => resolveUrl(evidence, url))
    .filter((url): url is string => url !== null && isPhotoUrl(url))
  const statedKeys = new Set(stated.map(variantKey))
  const headlineLine = headline ? lineOfNode(evidence, headline.node) : 0
  const headlineRegion = headline ? index.nodes[headline.node]!.region : 0
  const shots: Shot[] = []
  for (const at of evidence.images) {
    const node = index.nodes[at]!
    const raw = largestVariant(evidence, at)
    const url = resolveUrl(evidence, raw)
    if (!url || !isPhotoUrl(url)) continue
    const alt = node.element.getAttribute('alt')?.trim() || null
    const key = variantKey(url)
    const marks = marksOfImage(evidence, at)
    if (NOT_A_PHOTO.test(node.marks) || (alt && alt.length < 30 && NOT_A_PHOTO.test(alt))) continue
    const size = declaredSize(node.element)
    const named = statedKeys.has(key)
    const src = node.element.getAttribute('src')
    if (size !== null && size < ICON_SIZE && !named && raw === src && !GALLERY_MARKS.test(marks)) continue
    const box = evidence.probe.box(node.element)
    let score = 0
    if (named) score += 4
    if (GALLERY_MARKS.test(marks)) score += 1.5
    if (alt && headline && overlap(headline.text, alt) > 0.5) score += 2
    else if (alt && headline && overlap(alt, headline.text) > 0.6 && alt.length > 8) score += 1
    if (size !== null && size >= 250) score += 1
    if (box && box.width >= 200) score += 1
    if (box && box.width > 0 && box.width < 40 && raw === src) score -= 2
    if (raw !== src && raw !== null && LARGE_ATTRIBUTES.some((name) => node.element.hasAttribute(name))) score += 1
    const line = lineOfNode(evidence, at)
    if (Math.abs(line - headlineLine) <= 12) score += 1
    else if (line - headlineLine > 60) score -= 1.5
    const region = node.region & ~headlineRegion
    if (region & REGION.chrome) score -= 3
    if (region & REGION.related) score -= 4
    if (region & REGION.aside) score -= 1
    const group = groupAt(index, groups, at)
    if (
      group &&
      (group.group.priced >= 0.3 || index.nodes[group.row]!.lastRun - index.nodes[group.row]!.firstRun > 1)
    ) {
      if (!(headline && groupAt(index, groups, headline.node)?.row === group.row)) score -= 4
    }
    if (linksElsewhere(evidence, at)) score -= 2
    if (node.hidden && !named) score -= 0.5
    shots.push({ url, alt, key, node: at, score })
  }
  const best = shots.reduce<Shot | null>((top, shot) => (top === null || shot.score > top.score ? shot : top), null)
  const kept: Shot[] = []
  if (best && best.score >= 1) {
    const folder = folderOf(best.url)
    for (const shot of shots) {
      const sameFolder = folderOf(shot.url) === folder
      const near = Math.abs(shot.node - best.node) < 120
      if (shot.score >= Math.max(1.5, best.score - 3.5) || (shot.score >= 0.5 && sameFolder && near)) kept.push(shot)
    }
  }
  const photos = new Map<string, { url: string; alt: string | null }>()
  for (const shot of kept) {
    const known = photos.get(shot.key)
    if (!known) photos.set(shot.key, { url: shot.url, alt: shot.alt })
    else {
      known.url = larger(known.url, shot.url)
      known.alt ??= shot.alt
    }
  }
  for (const url of stated) {
    const key = variantKey(url)
    const known = photos.get(key)
    if (known) known.url = larger(known.url, url)
    // The head's picture alone is often a cropped card for sharing: taken only where the page shows none.
    else if ((record?.images ?? []).some((image) => resolveUrl(evidence, image) === url) || photos.size === 0)
      photos.set(key, {
        url,
        alt: metadata.images.find((image) => resolveUrl(evidence, image.url) === url)?.alt ?? null,
      })
  }
  return [...photos.values()].slice(0, PHOTO_LIMIT)
}

/** Of two variants the one whose address names the greater size. */
function larger(a: string, b: string): string {
  const sizeOf = (url: string): number => {
    if (/(?:original|full|zoom|large|hires|xxl|max)(?:$|[/._-])/i.test(url)) return 2000
    const numbers = [...url.matchAll(/(?:[/_=.,x-]|s-l|w_|h_|w|h)(\d{2,4})(?=$|[xw/_.,&-]|px)/g)]
      .map((match) => Number(match[1]))
      .filter((size) => size >= 30 && size <= 6000)
    if (/(?:thumb|small|mini|preview)/i.test(url)) return 80
    return numbers.length > 0 ? Math.max(...numbers) : 700
  }
  return sizeOf(b) > sizeOf(a) ? b : a
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
    if (href === '' || /^(?:#|javascript:)/i.test(href) || IMAGE_FILE.test(href)) return false
    const target = resolveUrl(evidence, href)
    return target !== null && target.replace(/[?#].*$/, '') !== (evidence.url ?? '').replace(/[?#].*$/, '')
  }
  return false
}
