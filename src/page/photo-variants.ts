/**
 * Addresses of pictures: which ones are the same picture in another size, and which of them is the largest that the page names.
 * Works on addresses and attributes only; nothing is fetched.
 */
import { ownEntry } from '../domain/own-entry.ts'
import type { PageEvidence } from './page-evidence.ts'

const IMAGE_FILE = /\.(?:jpe?g|png|webp|avif|gif|bmp|tiff?)(?:$|[?#])/i
/** Of no use in any position: a name that holds one of these is furniture of the site. */
const FURNITURE =
  /(?:^|[\s/_.-])(?:avatars?|sprites?|favicon|captcha|placeholder|spinner|loader|1x1|no-?image|noimg|default-?image|(?:app|play)-?store|user-?(?:pic|photo|image))(?:$|[\s/_.-])/i
/** Furniture only where little else is said: a card's photo may be called `label-close-up` or `stars-17`. */
const FURNITURE_ALONE = new Set(
  'logo logos icon icons badge badges flag flags payment payments rating ratings star stars banner pixel tracking spacer loading profile user emoji qr code qrcode blank transparent social share arrow chevron close play trust seal promo ad ads werbung header kopf bg background newsletter teaser separator bullet'.split(
    ' ',
  ),
)
/** Words of a file name or caption beyond which it speaks of the thing, not of the site. */
const FEW_WORDS = 2

/** Words that name a size, with a rough width in pixels, for comparing variants of one picture only. */
const SIZE_WORDS: Readonly<Record<string, number>> = {
  orig: 5000,
  original: 5000,
  originals: 5000,
  full: 4500,
  fullsize: 4500,
  fullxfull: 4500,
  max: 4500,
  master: 4500,
  maximum: 4500,
  raw: 4500,
  hires: 4000,
  highres: 4000,
  hd: 3000,
  zoom: 3500,
  huge: 3500,
  xxxl: 3500,
  xxl: 3000,
  xl: 2200,
  big: 2000,
  gross: 2000,
  groß: 2000,
  grande: 2000,
  grand: 2000,
  gd: 2000,
  groot: 2000,
  duze: 2000,
  duzy: 2000,
  velka: 2000,
  velky: 2000,
  stor: 2000,
  stora: 2000,
  gr: 2000,
  kl: 250,
  mala: 250,
  maly: 250,
  liten: 250,
  lille: 250,
  sma: 250,
  grandes: 2000,
  large: 1600,
  lg: 1600,
  l: 1600,
  high: 1600,
  detail: 1200,
  display: 900,
  normal: 800,
  standard: 700,
  std: 700,
  web: 700,
  medium: 600,
  med: 600,
  mid: 600,
  md: 600,
  m: 600,
  mittel: 600,
  moyen: 600,
  mediana: 600,
  middel: 600,
  preview: 400,
  gallery: 900,
  small: 250,
  sm: 250,
  s: 250,
  klein: 250,
  petit: 250,
  pequena: 250,
  piccola: 250,
  mini: 120,
  thumb: 110,
  thumbs: 110,
  thumbnail: 110,
  thumbnails: 110,
  th: 110,
  tn: 110,
  t: 110,
  xs: 90,
  xxs: 60,
  tiny: 60,
  icon: 50,
  square: 150,
  vignette: 110,
  miniatura: 110,
  low: 200,
  cropped: 300,
  crop: 300,
}
/** Pixel widths that picture servers use; a bare number in an address counts as a size only if it is one of them. */
const COMMON_SIZES = new Set([
  32, 40, 48, 50, 56, 60, 64, 70, 72, 75, 80, 90, 96, 100, 110, 120, 125, 128, 140, 144, 150, 160, 170, 175, 180, 190,
  192, 200, 210, 220, 225, 230, 240, 250, 256, 260, 270, 280, 290, 300, 310, 320, 330, 340, 350, 360, 370, 375, 380,
  400, 414, 420, 430, 440, 450, 460, 480, 500, 512, 520, 540, 550, 560, 576, 580, 600, 620, 630, 640, 650, 660, 680,
  700, 720, 740, 750, 760, 768, 780, 800, 820, 828, 840, 850, 860, 880, 900, 920, 940, 960, 980, 1000, 1024, 1050, 1080,
  1100, 1125, 1140, 1200, 1242, 1250, 1280, 1300, 1320, 1344, 1350, 1366, 1400, 1440, 1500, 1536, 1600, 1680, 1700,
  1800, 1900, 1920, 2000, 2048, 2100, 2160, 2200, 2400, 2500, 2560, 2800, 3000, 3200, 3500, 3600, 3840, 4000, 4096,
])
const SIZE_PARAMETERS =
  /^(?:w|h|width|height|wid|hei|size|sz|q|qlt|quality|fit|crop|format|fm|fmt|auto|dpr|v|ver|version|ts|t|resize|rs|sig|s|imwidth|im|op_\w+|tr|scale|ixlib|cs|strip|mode|rule|bg|downsize|max|maxw|maxh|max-?width|dim|thumb|preset|profile|variant|ancho|alto|tamano|taille|largeur|breite|groesse|grootte|rozmiar|tamanho|largura|sw|sh|mw|mh|ar|canvas|optimize|background|cache|cb|_|\$\w*\$)$/i
/** A picture whose address names no size is most often the original; ours, checked on fixtures. */
const UNNAMED_SIZE = 1550

export function isPhotoUrl(url: string): boolean {
  if (url.startsWith('data:') || /\.svg(?:$|[?#])/i.test(url)) return false
  const path = decodeSafely(url.replace(/^https?:\/\/[^/]+/, '').replace(/[?#].*$/, ''))
  const folders = path.toLowerCase().split('/')
  const file = folders.pop() ?? ''
  return !FURNITURE.test(path) && !folders.some((folder) => FURNITURE_ALONE.has(folder)) && !isFurniture(file)
}

/** Whether a caption, or the class and id of an element, may belong to a photo of the thing. */
export function isPhotoWord(text: string): boolean {
  return !FURNITURE.test(text) && !isFurniture(text)
}

function isFurniture(name: string): boolean {
  const words = name
    .toLowerCase()
    .replace(/\.\w{2,5}$/, '')
    .split(/[\s_.-]+/)
    .filter((word) => word !== '' && !/^\d+(?:x\d+|px|w|h)?$/.test(word))
  if (words.length === 0) return false
  if (words.length <= FEW_WORDS) return words.some((word) => FURNITURE_ALONE.has(word))
  return /^(?:logo|icon|banner)s?$/.test(words.at(-1)!)
}

export function isImageFile(url: string): boolean {
  return IMAGE_FILE.test(url)
}

function decodeSafely(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}

interface Reduced {
  readonly key: string
  readonly size: number
}

function sizeOfToken(token: string): number | null {
  const word = ownEntry(SIZE_WORDS, token)
  if (word !== undefined) return word
  const pair = /^(\d{2,4})x(?:n|(\d{2,4}))?$|^x(\d{2,4})$/.exec(token)
  if (pair) return Math.max(Number(pair[1] ?? 0), Number(pair[2] ?? 0), Number(pair[3] ?? 0))
  const tagged = /^(?:s-?l|s|w|h|z|sx|sy|ux|sl|wid|size|q|c|width|ac)(\d{2,4})$|^(\d{2,4})(?:px|w|h|x)$/.exec(token)
  if (tagged) {
    const size = Number(tagged[1] ?? tagged[2])
    // "h41" and "s7" are names of folders and pictures.
    return size >= 60 ? size : null
  }
  if (/^\d{2,4}$/.test(token) && COMMON_SIZES.has(Number(token))) return Number(token)
  return null
}

const RESIZED_COPY = /\/cache(?:\/\d{1,3})?\/[\w-]+(?:\/\d*x\d*)?(?:\/[\da-f]{16,})?(?=\/)/i
const FENCED_SIZE = /(?<=[._/])_[a-z]{1,3}(\d{2,4})_/gi
/** An address that asks for some named variant which is not among the words known: smaller than one that asks for none. */
const UNKNOWN_VARIANT = 800

const reducedCache = new Map<string, Reduced>()

/** The address without what names its size, and that size. */
export function reduceUrl(url: string): Reduced {
  const known = reducedCache.get(url)
  if (known) return known
  let host = ''
  let path = url
  const kept: string[] = []
  let size = 0
  let named = 0
  try {
    const parsed = new URL(url, 'http://x.invalid')
    host = parsed.hostname.split('.').slice(-2).join('.')
    // "…/cache/<settings>/…": a resized copy whose size nobody names; "._SL1500_." and the like: its size in a fence of its own.
    path = decodeSafely(parsed.pathname)
      .replace(RESIZED_COPY, () => {
        named = 600
        return ''
      })
      .replace(FENCED_SIZE, (_, number: string) => {
        size = Math.max(size, Number(number))
        return ''
      })
    for (const [name, value] of parsed.searchParams) {
      const token = sizeOfToken(value.toLowerCase().replace(/^\$_?|\$$/g, ''))
      if (SIZE_PARAMETERS.test(name)) {
        if (/^(?:q|qlt|quality|dpr|v|ver|version|ts|t|sig|cb|_|format|fm|fmt|auto)$/i.test(name)) continue
        if (token !== null) size = Math.max(size, token)
        else {
          const words = value.toLowerCase().split(/[^a-z\d]+/)
          const word = words.map(sizeOfToken).find((each) => each !== null)
          if (/^(?:rule|preset|profile|variant|thumb)$/i.test(name)) named = Math.max(named, word ?? UNKNOWN_VARIANT)
        }
        continue
      }
      if (token !== null && !/id|nr|no$|^n$|^i$|^p$|pic|img|bild|foto/i.test(name)) {
        size = Math.max(size, token)
        continue
      }
      if (value.length < 200) kept.push(`${name}=${value}`)
    }
  } catch {}
  const segments = path
    .toLowerCase()
    .replace(/\.(?:jpe?g|png|webp|avif|gif)/g, '')
    .split('/')
  const words = segments.map((segment) =>
    segment
      .split(/([._,-]+)/)
      .filter((part) => {
        const token = /^[._,-]+$/.test(part) ? null : sizeOfToken(part)
        if (token === null) return true
        // A number says more than a word: "/l/7/1-200.webp" is 200 wide.
        if (ownEntry(SIZE_WORDS, part) === undefined) size = Math.max(size, token)
        else named = Math.max(named, token)
        return false
      })
      .join('')
      .replace(/[._,-]+/g, '-')
      .replace(/^-|-$/g, ''),
  )
  const key = `${host}/${words.filter(Boolean).join('/')}${kept.length > 0 ? `?${kept.sort().join('&')}` : ''}`
  const reduced = { key, size: size || named || UNNAMED_SIZE }
  // Bounded: a page of ten thousand pictures must not keep them all for ever.
  if (reducedCache.size > 5000) reducedCache.clear()
  reducedCache.set(url, reduced)
  return reduced
}

/** Two addresses of one picture in different sizes have one key. */
export function variantKey(url: string): string {
  return reduceUrl(url).key
}

/** The largest picture that a `srcset` names. */
export function largestOfSrcset(srcset: string | null): { url: string; width: number } | null {
  if (!srcset) return null
  let best: { url: string; width: number } | null = null
  for (const part of srcset.split(/,\s+|,(?=https?:|\/)/)) {
    const [url, descriptor = '1x'] = part.trim().split(/\s+/)
    if (!url || url.startsWith('data:')) continue
    const size = Number.parseFloat(descriptor) || 1
    const width = descriptor.endsWith('w') ? size : size * 300
    if (best === null || width > best.width) best = { url, width }
  }
  return best
}

export interface Variants {
  /** Addresses by the key of their picture, in the order met. */
  readonly byKey: ReadonlyMap<string, readonly string[]>
  /** Lists of pictures that the page's own data keeps together, as keys. */
  readonly lists: readonly (readonly string[])[]
}

/** Characters of script text that are looked through. */
const SCRIPT_BUDGET = 1_500_000
const URL_IN_SCRIPT = /["']((?:https?:)?(?:\\?\/|\\u002[fF])(?:[^\s"'<>()\\]|\\\/|\\u00[\dA-Fa-f]{2}){4,800})["']/g

/** Every picture address that scripts name, and the arrays they stand in. */
export function collectScriptImages(evidence: PageEvidence, resolve: (raw: string) => string | null): Variants {
  const byKey = new Map<string, string[]>()
  const lists: string[][] = []
  let budget = SCRIPT_BUDGET
  const addText = (raw: string): void => {
    const text = raw.length > budget ? raw.slice(0, budget) : raw
    budget -= text.length
    let list: string[] = []
    let end = -1
    const flush = (): void => {
      if (list.length >= 2) lists.push(list)
      list = []
    }
    for (const match of text.matchAll(URL_IN_SCRIPT)) {
      const found = match[1]!
        .replaceAll('\\/', '/')
        .replaceAll('\\u0026', '&')
        .replaceAll('\\u002F', '/')
        .replaceAll('&amp;', '&')
      if (
        !isImageFile(found) &&
        !/\/(?:images?|img|photos?|pics?|media|bilder|fotos?|i|api\/v\d)\//i.test(found) &&
        !/[?&](?:w|width|rule|size)=/i.test(found)
      )
        continue
      const url = resolve(found)
      if (!url || !isPhotoUrl(url)) continue
      const { key } = reduceUrl(url)
      const known = byKey.get(key)
      if (!known) byKey.set(key, [url])
      else if (!known.includes(url) && known.length < 12) known.push(url)
      // A closing bracket between two addresses ends an array.
      const gap = end < 0 ? '' : text.slice(end, match.index)
      if (end >= 0 && (gap.length > 400 || /\]/.test(gap))) flush()
      if (!list.includes(key)) list.push(key)
      end = match.index + match[0].length
      if (byKey.size > 3000) break
    }
    flush()
  }
  for (const script of evidence.index.scripts) {
    if (budget <= 0) break
    const type = script.getAttribute('type') ?? ''
    if (/ld\+json/i.test(type) || script.hasAttribute('src')) continue
    const text = script.textContent ?? ''
    if (text.length > 20) addText(text)
  }
  for (const list of evidence.dataLists) addText(list)
  return { byKey, lists }
}
