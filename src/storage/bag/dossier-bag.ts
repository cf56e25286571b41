/**
 * One dossier as a BagIt bag: original bytes, page, every revision, messages, log, inspection, a readable report, and what the hashes
 * prove. JSON inside is canonical (RFC 8785). Bytes come one file at a time from whoever keeps them.
 */
import { strToU8 } from 'fflate'
import { deriveState } from '../../domain/dossier/derive-state.ts'
import type { Dossier } from '../../domain/dossier.ts'
import type { Translate } from '../../domain/translate.ts'
import { canonicalJson } from './canonical-json.ts'
import { type ReportPicture, writeReport } from './report.ts'
import { type BagFile, type BagOptions, type Signature, writeBag } from './write-bag.ts'

export interface KeptBytes {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly mediaType: string
}

/** Which program and which rules: a verdict can be made again only with both. */
export interface ProgramVersions {
  readonly program: { readonly name: string; readonly version: string }
  /** Each with the SHA-256 of its canonical JSON. */
  readonly rules: readonly { readonly file: string; readonly sha256: string }[]
}

/** Something else that belongs to the dossier, such as a comparison with an exemplar. */
export interface ExtraFile {
  /** Below `data/`. */
  readonly path: string
  readonly bytes: () => Promise<Uint8Array<ArrayBuffer>>
}

export interface DossierBagOptions {
  readonly createdAt: string
  readonly versions: ProgramVersions
  readonly texts: Translate
  /** BCP 47 tag of `texts`. */
  readonly language: string
  readonly readBlob: (sha256: string) => Promise<KeptBytes | null>
  /** The picture small enough to stand in the report; `null` where it cannot be drawn. */
  readonly shrink: (picture: KeptBytes) => Promise<KeptBytes | null>
  readonly extras?: readonly ExtraFile[]
  readonly sink: BagOptions['sink']
  readonly sign?: (bytes: Uint8Array<ArrayBuffer>) => Promise<Signature>
  readonly signal?: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress?: (share: number) => void
}

export interface BagMade {
  readonly name: string
  readonly files: number
  /** Hashes of bytes that the dossier names and nobody had. The bag says so too. */
  readonly missing: readonly string[]
}

const ENDINGS: Readonly<Record<string, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
  'image/avif': 'avif',
  'image/gif': 'gif',
  'text/html': 'html',
  'video/mp4': 'mp4',
}

export function nameBag({ capturedAt, id }: Pick<Dossier, 'capturedAt' | 'id'>): string {
  return `touchstone-${capturedAt.slice(0, 10)}-${id.replace(/[^\w-]/g, '').slice(0, 8)}`
}

export async function bagDossier(dossier: Dossier, options: DossierBagOptions): Promise<BagMade> {
  const { createdAt, versions, texts: t, language, readBlob, extras = [], signal, onProgress } = options
  const name = nameBag(dossier)
  const state = deriveState(dossier.log)
  const missing: string[] = []
  const shown: ReportPicture[] = []
  const plan = planBytes(dossier)
  // Photos, texts and report; only to say how far it is.
  const expected = plan.length + textFiles(dossier).length + extras.length + 4

  async function* files(): AsyncGenerator<BagFile> {
    for (const { path, sha256, caption } of plan) {
      const kept = await readBlob(sha256)
      if (kept === null) {
        missing.push(sha256)
        continue
      }
      const full = `${path}.${ENDINGS[kept.mediaType] ?? 'bin'}`
      yield { path: full, bytes: async () => kept.bytes, compress: kept.mediaType.startsWith('text/') }
      if (caption === null) continue
      const small = await options.shrink(kept)
      shown.push({ path: full, sha256, caption, source: small && dataAddress(small) })
    }
    for (const [path, text] of textFiles(dossier)) yield textFile(path, text)
    for (const extra of extras) yield { ...extra, compress: true }
    yield textFile('versions.json', canonicalJson(versions))
    if (missing.length > 0) yield textFile('missing.txt', missing.map((hash) => `${hash}\n`).join(''))
    yield textFile('READ-ME.txt', readMe(t, options.sign !== undefined))
    const [screenshot] = shown.filter(({ path }) => path.startsWith('page/'))
    const report = writeReport(
      {
        dossier,
        state,
        photos: shown.filter(({ path }) => path.startsWith('photos/')),
        screenshot: screenshot ?? null,
        missing,
        versions: [
          `${versions.program.name} ${versions.program.version}`,
          ...versions.rules.map(({ file, sha256 }) => `${file} (SHA-256 ${sha256})`),
        ],
        bagName: name,
        createdAt,
      },
      t,
      language,
    )
    // Stored as it is: nearly all of it is pictures, which no compression makes smaller.
    yield { path: 'report.html', bytes: async () => bytesOf(report), compress: false }
  }

  let count = 0
  await writeBag(files(), {
    name,
    createdAt,
    info: [
      ['Bag-Software-Agent', `${versions.program.name} ${versions.program.version}`],
      ['External-Identifier', dossier.id],
      ['External-Description', dossier.title],
    ],
    sink: options.sink,
    sign: options.sign,
    signal,
    onFile(done) {
      count = done
      onProgress?.(Math.min(1, done / expected))
    },
  })
  onProgress?.(1)
  return { name, files: count, missing }
}

interface PlannedBytes {
  /** Without ending. */
  readonly path: string
  readonly sha256: string
  /** Under the picture in the report; `null`: not shown there. */
  readonly caption: string | null
}

/** Every hash that the dossier names, once, photos in their order. */
function planBytes(dossier: Dossier): PlannedBytes[] {
  const plan: PlannedBytes[] = []
  const planned = new Set<string>()
  const add = (sha256: string | null | undefined, path: string, caption: string | null) => {
    if (!sha256 || planned.has(sha256)) return
    planned.add(sha256)
    plan.push({ path, sha256, caption })
  }
  dossier.photos.forEach((photo, index) => {
    const number = String(index + 1).padStart(2, '0')
    add(photo.sha256, `photos/${number}`, photo.alt === null ? photo.url : `${photo.alt} – ${photo.url}`)
  })
  add(dossier.screenshot, 'page/screenshot', dossier.url ?? dossier.title)
  add(dossier.savedPage, 'page/page', null)
  for (const { photos } of dossier.comparisons ?? [])
    for (const { sha256 } of photos) add(sha256, `comparisons/photo-${sha256.slice(0, 12)}`, null)
  dossier.revisions?.forEach((revision, index) => {
    const folder = `revisions/${index + 1}`
    add(revision.screenshot, `${folder}/screenshot`, null)
    for (const photo of revision.photos) add(photo.sha256, `${folder}/photo-${(photo.sha256 ?? '').slice(0, 12)}`, null)
  })
  return plan
}

function textFiles(dossier: Dossier): [string, string][] {
  const { requests, answers } = deriveState(dossier.log)
  const messages = [
    ...requests.map(({ at, words }) => ({ at, words, kind: 'asked' })),
    ...answers.map(({ at, words }) => ({ at, words, kind: 'answered' })),
  ].sort((a, b) => (a.at < b.at ? -1 : 1))
  return [
    ['dossier.json', canonicalJson(dossier)],
    ['inspection.json', canonicalJson(dossier.inspection)],
    ['log.json', canonicalJson(dossier.log)],
    ['page/page-text.txt', dossier.pageText],
    ...(dossier.comparisons ?? []).map((comparison, index): [string, string] => [
      `comparisons/${String(index + 1).padStart(2, '0')}.json`,
      canonicalJson(comparison),
    ]),
    ...messages.map(({ at, words, kind }, index): [string, string] => [
      `messages/${String(index + 1).padStart(2, '0')}-${kind}-${at.slice(0, 10)}.txt`,
      words,
    ]),
    ...(dossier.revisions ?? []).flatMap((revision, index): [string, string][] => [
      [`revisions/${index + 1}/revision.json`, canonicalJson(revision)],
      [`revisions/${index + 1}/page-text.txt`, revision.pageText],
    ]),
  ]
}

function readMe(t: Translate, signed: boolean): string {
  const paragraphs = [
    'bag.title',
    'bag.proof.does',
    'bag.proof.does-not',
    'bag.proof.check',
    ...(signed ? ['bag.signed'] : []),
  ]
  return `${paragraphs.map((key) => t(key)).join('\n\n')}

sha256sum -c manifest-sha256.txt
sha512sum -c manifest-sha512.txt
sha512sum -c tagmanifest-sha512.txt
${signed ? 'openssl pkeyutl -verify -rawin -pubin -inkey signature/public-key.pem -in tagmanifest-sha512.txt -sigfile signature/tagmanifest-sha512.sig\n' : ''}
${t('bag.caution')}
`
}

function textFile(path: string, text: string): BagFile {
  return { path, bytes: async () => bytesOf(text), compress: true }
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return strToU8(text) as Uint8Array<ArrayBuffer>
}

/** Bytes a piece: `String.fromCharCode` takes its arguments from the stack. */
const PIECE = 0x6000

export function dataAddress({ bytes, mediaType }: KeptBytes): string {
  let base64 = ''
  for (let at = 0; at < bytes.length; at += PIECE)
    base64 += btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE)))
  return `data:${mediaType};base64,${base64}`
}
