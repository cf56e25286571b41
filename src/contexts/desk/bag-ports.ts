/** The desk's evidence bags: what is kept, the words of the report and the browser's drawing, handed to the storage. Wiring only. */
import { createTranslate } from '../../domain/translate.ts'
import { now } from '../../platform/clock.ts'
import { createFileSink } from '../../platform/file-sink.ts'
import { readProgram } from '../../platform/program.ts'
import { saveFile } from '../../platform/save-file.ts'
import { shrinkPicture } from '../../platform/shrink-picture.ts'
import { estimateStorage } from '../../platform/storage-room.ts'
import { canonicalJson } from '../../storage/bag/canonical-json.ts'
import { bagDossier, type ProgramVersions } from '../../storage/bag/dossier-bag.ts'
import { signBytes } from '../../storage/bag/sign-bag.ts'
import { digest } from '../../storage/digest.ts'
import { freeDeleted } from '../../storage/free-room.ts'
import { readSigningKey } from '../../storage/signing-key.ts'
import { Fault } from '../../ui/fault.ts'
import type { KeepingPorts } from '../../ui/keeping/keeping-ports.ts'
import type { InterfaceLanguage, InterfaceTexts } from '../interface-texts.ts'
import { BUILT_IN } from '../rule-packs.ts'
import type { Stores } from '../stores.ts'

const REPORT_TEXTS: Readonly<Record<InterfaceLanguage, () => Promise<{ default: Record<string, string> }>>> = {
  en: () => import('../../../assets/_locales/en/bag.json'),
  de: () => import('../../../assets/_locales/de/bag.json'),
}

/** Lines: enough to see where the room went. */
const MOST_LARGEST = 5

const utf8 = (text: string) => new TextEncoder().encode(text)

async function readVersions(stores: Stores): Promise<ProgramVersions> {
  const own = (await stores.rulePacks.list()).map(({ id, pack, phrases }) => ({
    file: `own/${id}`,
    pack: { pack, phrases },
  }))
  const rules = await Promise.all(
    [...BUILT_IN, ...own].map(async ({ file, pack }) => ({
      file,
      sha256: await digest('SHA-256', utf8(canonicalJson(pack))),
    })),
  )
  return { program: readProgram(), rules }
}

export function createBagPorts(stores: Stores, texts: () => InterfaceTexts): KeepingPorts {
  const { database, dossiers } = stores
  return {
    async makeBag(id, { sign, signal, onProgress }) {
      const dossier = await dossiers.get(id)
      if (dossier === null) throw new Fault('record-changed-elsewhere', id)
      const { language } = texts()
      const [{ default: words }, versions, keys] = await Promise.all([
        REPORT_TEXTS[language](),
        readVersions(stores),
        sign ? readSigningKey(database) : null,
      ])
      const file = createFileSink()
      const made = await bagDossier(dossier, {
        createdAt: now(),
        versions,
        texts: createTranslate(words, language),
        language,
        async readBlob(sha256) {
          const blob = await dossiers.readBlob(sha256)
          return blob && { bytes: new Uint8Array(blob.bytes), mediaType: blob.mediaType }
        },
        shrink: ({ bytes, mediaType }) => shrinkPicture(bytes, mediaType),
        sink: file.write,
        ...(keys === null ? {} : { sign: (bytes: Uint8Array<ArrayBuffer>) => signBytes(keys, bytes) }),
        signal,
        onProgress,
      })
      saveFile(`${made.name}.zip`, file.finish('application/zip'))
      return { name: made.name, files: made.files, missing: made.missing.length }
    },
    freeDeleted: (progress) => freeDeleted(database, { now: now(), ...progress }),
    async measureStorage() {
      const summaries = await dossiers.search('')
      const largest = summaries.filter(({ bytes = 0 }) => bytes > 0).sort((a, b) => (b.bytes ?? 0) - (a.bytes ?? 0))
      return {
        ...(await estimateStorage()),
        largest: largest.slice(0, MOST_LARGEST).map(({ id, title, bytes = 0 }) => ({ id, title, bytes })),
      }
    },
  }
}
