/**
 * The checklist: for each view, whether a photo shows it. The person's word outranks the words beside a photo, and these outrank pixels.
 * A photo nobody looked at and no word describes may show anything: while one is left, nothing is called missing.
 */
import type { Facts } from '../facts.ts'
import type { PhotoFacts } from '../photo-facts.ts'
import type { Translate } from '../translate.ts'
import { VIEW_IDS, type ViewFinding, type ViewId } from '../views.ts'
import { fileNameOf, type ViewWords } from './read-view-words.ts'
import type { ViewPack, ViewSpec } from './view-pack.ts'

interface SeenPhoto {
  readonly url: string
  readonly facts: PhotoFacts | null
  /** `null`: neither a person nor the pixels nor the words say what it shows. */
  readonly views: readonly ViewId[] | null
  readonly by: 'person' | 'pixels' | 'words' | null
  readonly word: string | null
}

/** Faults of the picture itself that leave nothing to judge. `heavily-compressed` is a weakness, not a bar. */
const UNREADABLE = ['not-an-image', 'damaged', 'too-small', 'blurred', 'glare', 'dark', 'overexposed'] as const

// Sealed holders are about 81 mm wide, their labels a little less; from memory, used only to turn a holder's
// outline into a scale where no other is known.
const HOLDER_WIDTH_MM = 81

/** The photos of the page joined with what was measured: by URL first, by file name where that is unambiguous. */
export function joinPhotos(
  facts: Pick<Facts, 'listing' | 'photos'>,
): { url: string; alt: string | null; facts: PhotoFacts | null }[] {
  const byUrl = new Map(facts.photos.map((photo) => [photo.file, photo]))
  const byName = new Map<string, PhotoFacts | null>()
  for (const photo of facts.photos) {
    const name = fileNameOf(photo.file)
    byName.set(name, byName.has(name) ? null : photo)
  }
  const used = new Set<PhotoFacts>()
  const joined = facts.listing.photos.map(({ url, alt }) => {
    const found = byUrl.get(url) ?? byName.get(fileNameOf(url)) ?? null
    const measured = found && !used.has(found) ? found : null
    if (measured) used.add(measured)
    return { url, alt, facts: measured }
  })
  for (const photo of facts.photos) if (!used.has(photo)) joined.push({ url: photo.file, alt: null, facts: photo })
  return joined
}

function seePhotos(facts: Facts, words: ViewWords, encapsulated: boolean): SeenPhoto[] {
  return joinPhotos(facts).map(({ url, alt, facts: measured }) => {
    const corrected = facts.viewCorrections?.[url] ?? (measured ? facts.viewCorrections?.[measured.file] : undefined)
    const base = { url, facts: measured?.examined ? measured : null, word: null }
    if (corrected !== undefined) return { ...base, views: corrected === 'other' ? [] : [corrected], by: 'person' }
    const named = words.read(alt, url, encapsulated)
    if (named.length > 0) return { ...base, views: named.map(({ view }) => view), by: 'words', word: named[0]!.word }
    if (measured?.examined && measured.view !== 'cannot-tell') {
      return { ...base, views: measured.view === 'other' ? [] : [measured.view], by: 'pixels' }
    }
    return { ...base, views: null, by: null }
  })
}

function scaleOf(photo: PhotoFacts): number | null {
  if (photo.pxPerMm !== null) return photo.pxPerMm
  if (!photo.holder) return null
  const [topLeft, topRight] = photo.holder.corners
  return Math.hypot(topRight[0] - topLeft[0], topRight[1] - topLeft[1]) / HOLDER_WIDTH_MM
}

/** `null`: readable as far as is known. Else half a sentence with the figures. */
function unreadableBecause(photo: PhotoFacts | null, spec: ViewSpec | undefined, translate: Translate): string | null {
  if (!photo) return null
  for (const problem of UNREADABLE) {
    if (photo.problems.some((candidate) => candidate.problem === problem)) {
      // A problem's own detail is for engineers, in English.
      const size = { width: photo.width ?? '?', height: photo.height ?? '?' }
      return translate(`view_reason_${problem.replace(/-/g, '_')}`, size)
    }
  }
  const scale = scaleOf(photo)
  if (spec?.pxPerMm && scale !== null) {
    if (scale >= spec.pxPerMm.value) return null
    return translate('view_reason_scale', { has: scale.toFixed(1), needs: spec.pxPerMm.value })
  }
  const edge = Math.max(photo.width ?? 0, photo.height ?? 0)
  if (spec?.longEdge && edge > 0 && edge < spec.longEdge.value) {
    return translate('view_reason_long_edge', { has: edge, needs: spec.longEdge.value })
  }
  return null
}

/** How many photos show different things: several of one view count once, each that says nothing counts by itself. */
export function countDifferentPhotos(facts: Facts, words: ViewWords, encapsulated: boolean): number {
  const photos = seePhotos(facts, words, encapsulated)
  const shown = new Set(photos.flatMap((photo) => (photo.views === null ? [] : [photo.views.join(' ')])))
  return shown.size + photos.filter((photo) => photo.views === null).length
}

/** A finding for every view id, in the order of the ids. Which of them an offer needs is the caller's question. */
export function findViews(
  facts: Facts,
  pack: ViewPack,
  words: ViewWords,
  translate: Translate,
): ReadonlyMap<ViewId, ViewFinding> {
  const photos = seePhotos(facts, words, pack.id === 'encapsulated')
  const unaccounted = photos.filter((photo) => photo.views === null).length
  const specs = new Map(pack.views.map((spec) => [spec.view, spec]))
  return new Map(VIEW_IDS.map((view) => [view, findView(view)]))

  function findView(view: ViewId): ViewFinding {
    const spec = specs.get(view)
    const showing = photos.filter((photo) => photo.views?.includes(view))
    let unreadable: ViewFinding | null = null
    for (const photo of showing) {
      const because = unreadableBecause(photo.facts, spec, translate)
      if (because === null) {
        const by = photo.by === 'words' && photo.facts === null ? 'words_unseen' : photo.by
        const reason = translate(`view_reason_by_${by}`, { word: photo.word ?? '' })
        return { view, status: 'shown', photo: photo.url, reason }
      }
      unreadable ??= { view, status: 'not-readable', photo: photo.url, reason: because }
    }
    return findOnOthers(view, spec) ?? unreadable ?? findNowhere(view, spec)
  }

  /** A large photo of the front shows the corners too. Only measured scale counts here. */
  function findOnOthers(view: ViewId, spec: ViewSpec | undefined): ViewFinding | null {
    for (const other of spec?.alsoOn ?? []) {
      for (const photo of photos) {
        if (!photo.facts || !photo.views?.includes(other.view)) continue
        const needs = { view, needed: 'always', bother: 1, pxPerMm: other.pxPerMm } as const
        const scale = scaleOf(photo.facts)
        if (scale === null || unreadableBecause(photo.facts, needs, translate) !== null) continue
        const reason = translate('view_reason_also_on', {
          view: translate(`view_${other.view.replace(/-/g, '_')}`),
          has: scale.toFixed(1),
          needs: other.pxPerMm.value,
        })
        return { view, status: 'shown', photo: photo.url, reason }
      }
    }
    return null
  }

  function findNowhere(view: ViewId, spec: ViewSpec | undefined): ViewFinding {
    if (photos.length === 0) return { view, status: 'missing', photo: null, reason: translate('view_reason_no_photos') }
    if (spec?.medium === 'video')
      return { view, status: 'missing', photo: null, reason: translate('view_reason_video') }
    if (unaccounted > 0) {
      const reason = translate('view_reason_unaccounted', { count: unaccounted })
      return { view, status: 'cannot-tell', photo: null, reason }
    }
    return { view, status: 'missing', photo: null, reason: translate('view_reason_missing', { count: photos.length }) }
  }
}
