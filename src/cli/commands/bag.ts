/** `bag`: an exported dossier and its photos in, an evidence bag out; or a bag in and its faults out. */
import { createHash } from 'node:crypto'
import { open, readdir, readFile, rename, rm, stat } from 'node:fs/promises'
import { dirname, join, relative, resolve } from 'node:path'
import * as v from 'valibot'
import type { Dossier } from '../../domain/dossier.ts'
import { createTranslate } from '../../domain/translate.ts'
import { sniffMediaType } from '../../imaging/sniff-media-type.ts'
import { canonicalJson } from '../../storage/bag/canonical-json.ts'
import { bagDossier, type KeptBytes, type ProgramVersions } from '../../storage/bag/dossier-bag.ts'
import { type BagVerdict, verifyBag } from '../../storage/bag/verify-bag.ts'
import { digest } from '../../storage/digest.ts'
import { RECORD_SCHEMAS } from '../../storage/record-schemas.ts'
import { BadInput } from '../bad-input.ts'
import { createNodeHasher, openBag } from '../bag-sources.ts'
import type { Answer, Arguments } from '../command.ts'
import { readJson, reasonOf } from '../read-file.ts'
import { shrinkPicture } from '../shrink-picture.ts'

const ROOT = resolve(import.meta.dirname, '../../..')
const DOSSIER_LIMIT_BYTES = 256 * 2 ** 20
const PHOTO_LIMIT_BYTES = 64 * 2 ** 20
const LANGUAGES = ['en', 'de']

export async function run(args: Arguments): Promise<Answer> {
  const [first = '', out] = args.positionals
  if (args.given('verify')) {
    if (out !== undefined) throw new BadInput('bag --verify takes one bag.')
    return verify(first)
  }
  if (out === undefined) throw new BadInput('Usage: touchstone bag DOSSIER.json OUT.zip')
  const language = args.text('lang') ?? 'en'
  if (!LANGUAGES.includes(language)) throw new BadInput(`--lang: "${language}" is none of ${LANGUAGES.join(', ')}.`)
  const dossier = await readDossier(first)
  const folder = args.text('files')
  const files = await indexFiles(folder ?? dirname(resolve(first)), folder !== null, namedHashes(dossier))
  const made = await writeOut(out, async (sink) =>
    bagDossier(dossier, {
      createdAt: new Date().toISOString(),
      versions: await readVersions(),
      texts: createTranslate(
        JSON.parse(await readFile(join(ROOT, 'assets/_locales', language, 'bag.json'), 'utf8')),
        language,
      ),
      language,
      readBlob: async (sha256) => readKept(files.get(sha256)),
      shrink: shrinkPicture,
      sink,
    }),
  )
  const missing = made.missing.map((hash) => `  not found: ${hash}`)
  return {
    json: { out, ...made },
    text: [`${out}: ${made.files} files in ${made.name}.`, ...missing].join('\n'),
  }
}

async function readDossier(path: string): Promise<Dossier> {
  const parsed = v.safeParse(RECORD_SCHEMAS.dossiers, await readJson(path, DOSSIER_LIMIT_BYTES))
  if (parsed.success) return parsed.output as unknown as Dossier
  const [issue] = parsed.issues
  throw new BadInput(`${path}: is no dossier (${v.getDotPath(issue) ?? 'root'}: ${issue.message}).`)
}

function namedHashes(dossier: Dossier): ReadonlySet<string> {
  const revisions = dossier.revisions ?? []
  const hashes = [
    ...[...dossier.photos, ...revisions.flatMap(({ photos }) => photos)].map(({ sha256 }) => sha256),
    ...revisions.map(({ screenshot }) => screenshot),
    ...(dossier.comparisons ?? []).flatMap(({ photos }) => photos.map(({ sha256 }) => sha256)),
    dossier.screenshot,
    dossier.savedPage,
  ]
  return new Set(hashes.flatMap((hash) => hash ?? []))
}

/** Files are known by what is in them: names differ from one export to the next. */
async function indexFiles(
  folder: string,
  recursive: boolean,
  wanted: ReadonlySet<string>,
): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>()
  try {
    for (const entry of await readdir(folder, { recursive, withFileTypes: true })) {
      if (found.size === wanted.size) break
      if (!entry.isFile()) continue
      const path = join(entry.parentPath, entry.name)
      if ((await stat(path)).size > PHOTO_LIMIT_BYTES) continue
      const hash = createHash('sha256')
        .update(await readFile(path))
        .digest('hex')
      if (wanted.has(hash)) found.set(hash, path)
    }
  } catch (error) {
    throw new BadInput(`${folder}: ${reasonOf(error)}.`)
  }
  return found
}

async function readKept(path: string | undefined): Promise<KeptBytes | null> {
  if (path === undefined) return null
  const bytes = new Uint8Array(await readFile(path))
  const sniffed = sniffMediaType(bytes)
  return { bytes, mediaType: sniffed.kind === 'image' ? sniffed.mediaType : 'application/octet-stream' }
}

/** Beside its place first, so that a bag that was begun and not finished is none. */
async function writeOut<T>(out: string, write: (sink: (chunk: Uint8Array) => Promise<void>) => Promise<T>): Promise<T> {
  const draft = `${out}.part`
  try {
    const file = await open(draft, 'w')
    try {
      const result = await write(async (chunk) => void (await file.write(chunk)))
      await file.close()
      await rename(draft, out)
      return result
    } finally {
      await file.close().catch(() => {})
      await rm(draft, { force: true })
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall === undefined) throw error
    throw new BadInput(`${out}: ${reasonOf(error)}.`)
  }
}

async function readVersions(): Promise<ProgramVersions> {
  const { name, version } = JSON.parse(await readFile(join(ROOT, 'package.json'), 'utf8')) as Record<
    'name' | 'version',
    string
  >
  const folder = join(ROOT, 'rules')
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  const paths = entries
    .filter((entry) => entry.name.endsWith('.json') && !entry.name.endsWith('.schema.json'))
    .map((entry) => join(entry.parentPath, entry.name))
  const rules = await Promise.all(
    paths.sort().map(async (path) => ({
      file: relative(folder, path).replaceAll('\\', '/'),
      sha256: await digest('SHA-256', Buffer.from(canonicalJson(JSON.parse(await readFile(path, 'utf8'))))),
    })),
  )
  return { program: { name, version }, rules }
}

async function verify(path: string): Promise<Answer> {
  const verdict = await verifyBag(await openBag(path), { createHasher: createNodeHasher })
  const failed = verdict.valid ? {} : { failed: `${path}: ${verdict.faults.length} faults; the bag does not verify.` }
  return { json: verdict, text: verdictText(path, verdict), ...failed }
}

const WORDS: Readonly<Record<BagVerdict['faults'][number]['fault'], string>> = {
  missing: 'is missing',
  changed: 'was changed: its hash does not fit',
  'not-listed': 'is in no list',
  'not-listed-everywhere': 'is missing from a list',
  'listed-twice': 'is listed twice',
  'leads-out': 'names a path that leads out of the bag',
  'not-readable': 'cannot be read',
  'not-understood': 'cannot be understood',
  'unknown-algorithm': 'is made with a hash that is not known here',
  'to-be-fetched': 'would have to be fetched',
  'wrong-count': 'states another size than was found',
  'bad-signature': 'does not fit: the lists were not signed with this key, or were changed since',
}

function verdictText(
  path: string,
  { valid, faults, warnings, files, bytes, algorithms, version, signature }: BagVerdict,
): string {
  const head = valid
    ? `${path}: valid. BagIt ${version}, ${files} files, ${bytes} bytes, ${algorithms.join(' and ')}.`
    : `${path}: not valid.`
  return [
    head,
    ...faults.map(({ file, fault, detail }) => `  ${file} ${WORDS[fault]}${detail === '' ? '' : ` (${detail})`}`),
    ...warnings.map((warning) => `  warning: ${warning}`),
    ...(signature === null
      ? []
      : [`  Signed, ${signature.algorithm}; SHA-256 of the public key: ${signature.fingerprint}`]),
    ...(valid ? ['  Nothing changed since the bag was made. That does not prove that what it shows was true.'] : []),
  ].join('\n')
}
