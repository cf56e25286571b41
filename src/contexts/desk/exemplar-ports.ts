/** The ports of exemplars and the light table onto storage, workers and files. Wiring only: nothing is judged here. */
import type { ExaminationRecord, ExemplarDraft, ExemplarRecord, KeptComparison } from '../../domain/examination.ts'
import { concludePoint } from '../../domain/examination.ts'
import { parseExemplar } from '../../domain/exemplar.ts'
import { mergeExemplars } from '../../domain/merge-exemplars.ts'
import { readExemplarFile, writeExemplarFile } from '../../imaging/exemplar-file.ts'
import { sniffMediaType } from '../../imaging/sniff-media-type.ts'
import { now } from '../../platform/clock.ts'
import { pictureBlob } from '../../platform/picture-blob.ts'
import { saveFile } from '../../platform/save-file.ts'
import { createWorkerQueue } from '../../platform/worker-queue.ts'
import { parseBlindAnswer, readBlindPackage, writeBlindAnswer, writeBlindPackage } from '../../storage/blind-package.ts'
import { createExemplars } from '../../storage/exemplars.ts'
import type { ExemplarPorts } from '../../ui/exemplars/exemplar-ports.ts'
import { Fault } from '../../ui/fault.ts'
import type { InterfaceTexts } from '../interface-texts.ts'
import type { Stores } from '../stores.ts'
import type { CompareExemplarResult, CompareExemplarTask } from '../worker/compare-exemplar.worker.ts'
import type { LaySquareResult, LaySquareTask } from '../worker/lay-square.worker.ts'
import { stripMetadata } from './strip-metadata.ts'
import { writeGuide } from './write-guide.ts'

type Bytes = Uint8Array<ArrayBuffer>

const squares = createWorkerQueue<LaySquareTask, LaySquareResult>({
  create: () => new Worker(new URL('../worker/lay-square.worker.ts', import.meta.url), { type: 'module' }),
})
// A row of large photos against several pieces takes a slow machine a while. Ours.
const COMPARE_TIMEOUT_MS = 180_000
const comparisons = createWorkerQueue<CompareExemplarTask, CompareExemplarResult>({
  create: () => new Worker(new URL('../worker/compare-exemplar.worker.ts', import.meta.url), { type: 'module' }),
  timeoutMs: COMPARE_TIMEOUT_MS,
})

export function createExemplarPorts(stores: Stores, texts: () => InterfaceTexts): ExemplarPorts {
  const { database, dossiers } = stores
  const { exemplars, examinations, keepPicture } = createExemplars(database, { now, newId: stores.newId })

  async function bytesOf(sha256: string): Promise<Bytes> {
    const blob = await dossiers.readBlob(sha256)
    if (blob === null) throw new Fault('image-not-loaded', `the picture ${sha256.slice(0, 12)} is no longer kept`)
    return new Uint8Array(blob.bytes.slice(0))
  }

  const laySquare: ExemplarPorts['laySquare'] = async (picture, corners, size, signal) => {
    const bytes = new Uint8Array(await picture.arrayBuffer())
    const laid = await squares.run({ bytes, corners, size }, [bytes.buffer], signal)
    if ('fault' in laid) throw new Fault(laid.fault === 'no-card' ? 'no-card-found' : 'image-not-loaded', laid.detail)
    return { ...laid, size }
  }

  async function fileOf({ id, exemplar, stored }: ExemplarRecord): Promise<Uint8Array> {
    // Blank names are what somebody has not come to yet; anything else that is missing is said.
    const whole = { ...exemplar, id, author: exemplar.author.trim() || '–', licence: exemplar.licence.trim() || '–' }
    const parsed = parseExemplar(whole)
    if ('fault' in parsed) throw new Fault('exemplar-incomplete', parsed.fault)
    const pictures = new Map<string, Uint8Array>()
    for (const { file } of exemplar.pictures) pictures.set(file, await bytesOf(stored[file]!.sha256))
    return writeExemplarFile({ exemplar: parsed.exemplar, pictures })
  }

  async function storeFile(bytes: Uint8Array): Promise<ExemplarDraft> {
    const read = readExemplarFile(bytes)
    if ('fault' in read) throw new Fault('damaged-file', read.fault)
    const stored: Record<string, ExemplarDraft['stored'][string]> = {}
    for (const [file, picture] of read.pictures) {
      const sniffed = sniffMediaType(picture)
      if (sniffed.kind === 'other') throw new Fault('damaged-file', `${file}: ${sniffed.what}`)
      stored[file] = await keepPicture(picture.slice().buffer, sniffed.mediaType)
    }
    return { exemplar: read.exemplar, stored }
  }

  const day = () => now().slice(0, 10)
  const named = (title: string) =>
    title
      .normalize('NFKD')
      .replace(/[^\w]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .toLowerCase()
      .slice(0, 40) || 'exemplar'
  const zipBlob = (bytes: Uint8Array) => new Blob([bytes as Bytes], { type: 'application/zip' })

  async function exemplarOf(examination: ExaminationRecord): Promise<ExemplarRecord> {
    const record = await exemplars.get(examination.exemplar)
    if (record === null) throw new Fault('record-changed-elsewhere', examination.exemplar)
    return record
  }

  return {
    async listExemplars() {
      return (await exemplars.list()).sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))
    },
    openExemplar: (id) => exemplars.get(id),
    createExemplar: (draft) => exemplars.add(draft),
    saveExemplar: (id, draft, revision) => exemplars.update(id, (current) => ({ ...current, ...draft }), revision),
    deleteExemplar: async (id) => void (await exemplars.remove(id)),
    restoreExemplar: async (id) => void (await exemplars.restore(id)),
    keepPicture: async (picture) => keepPicture(await picture.arrayBuffer(), picture.type),
    laySquare,
    async exportExemplar(id) {
      const record = await exemplars.get(id)
      if (record === null) throw new Fault('record-changed-elsewhere', id)
      saveFile(`exemplar-${named(record.exemplar.title)}-${day()}.zip`, zipBlob(await fileOf(record)))
    },
    async importExemplars(files) {
      const drafts: ExemplarDraft[] = []
      for (const file of files) drafts.push(await storeFile(new Uint8Array(await file.arrayBuffer())))
      let added = 0
      const ids = new Set<string>()
      for (const draft of drafts) {
        const present = await exemplars.get(draft.exemplar.id)
        ids.add(draft.exemplar.id)
        if (present === null) {
          await exemplars.add(draft, draft.exemplar.id)
          added += 1
        } else if (present.deletedAt === null) {
          await exemplars.update(present.id, (current) => ({ ...current, ...mergeExemplars(current, draft) }))
        } else {
          await exemplars.update(present.id, (current) => ({ ...current, ...draft, deletedAt: null }))
          added += 1
        }
      }
      return { ids: [...ids], added, merged: drafts.length - added }
    },
    async exportGuide(id, signal) {
      const record = await exemplars.get(id)
      if (record === null) throw new Fault('record-changed-elsewhere', id)
      const page = await writeGuide(record, texts(), async (picture) => {
        const { sha256, mediaType } = record.stored[picture.file]!
        const bytes = pictureBlob(await bytesOf(sha256), mediaType)
        const corners = picture.corners && { pixels: picture.corners }
        return laySquare(bytes, corners, record.exemplar.nominalSize, signal)
      })
      saveFile(`guide-${named(record.exemplar.title)}-${day()}.html`, new Blob([page], { type: 'text/html' }))
    },

    async listExaminations() {
      return (await examinations.list()).sort((a, b) => b.updatedAt.localeCompare(a.updatedAt))
    },
    openExamination: (id) => examinations.get(id),
    createExamination: (examination) => examinations.add(examination),
    saveExamination: (id, examination, revision) =>
      examinations.update(id, (current) => ({ ...current, ...examination }), revision),
    deleteExamination: async (id) => void (await examinations.remove(id)),
    restoreExamination: async (id) => void (await examinations.restore(id)),
    async measure({ exemplar, stored }, photos, signal) {
      const pictures = await Promise.all(
        exemplar.pictures.map(async ({ file }) => ({ file, bytes: await bytesOf(stored[file]!.sha256) })),
      )
      const questioned = await Promise.all(
        photos.map(async ({ file, sha256, corners }) => ({ file, corners, bytes: await bytesOf(sha256) })),
      )
      const moved = [...pictures, ...questioned].map(({ bytes }) => bytes.buffer)
      const result = await comparisons.run({ exemplar, pictures, photos: questioned }, moved, signal)
      return { at: now(), ...result }
    },
    async keepComparison(examination) {
      if (examination.dossier === null || examination.measured === null) return
      const { exemplar } = await exemplarOf(examination)
      const names = new Map(exemplar.points.map(({ id, name }) => [id, name]))
      const { measured, judged } = examination
      const kept: KeptComparison = {
        examination: examination.id,
        at: now(),
        exemplar: { id: examination.exemplar, title: exemplar.title },
        photos: examination.photos.map(({ file, sha256 }) => ({ file, sha256 })),
        registered: measured.registered,
        pxPerMm: measured.pxPerMm,
        points: measured.points.map((point) => ({
          ...concludePoint(point, judged[point.point]),
          name: names.get(point.point) ?? point.point,
        })),
        notes: examination.notes,
        lockedAt: examination.lockedAt,
        verifications: examination.verifications,
      }
      await dossiers.record(examination.dossier, 'note', exemplar.title, (current) => ({
        comparisons: [...(current.comparisons ?? []).filter((one) => one.examination !== examination.id), kept],
      }))
    },
    async exportBlindPackage(examination) {
      const exemplarFile = await fileOf(await exemplarOf(examination))
      const id = stores.newId()
      const photos = await Promise.all(
        examination.photos.map(async ({ sha256, mediaType, corners }, index) => ({
          file: `photo-${index + 1}.${mediaType.split('/')[1]!.replace(/\W.*/, '')}`,
          mediaType,
          corners: corners as never,
          bytes: stripMetadata(await bytesOf(sha256), mediaType),
        })),
      )
      saveFile(`blind-${id.slice(0, 8)}.zip`, zipBlob(writeBlindPackage({ id, exemplarFile, photos })))
      return id
    },
    async exportBlindAnswer({ answers, lockedAt, notes, laterNotes, measured, judged }, by) {
      if (answers === null || lockedAt === null || measured === null) return
      const text = writeBlindAnswer({
        package: answers,
        by,
        lockedAt,
        answeredAt: now(),
        notes: [notes, laterNotes].filter(Boolean).join('\n\n'),
        points: measured.points.map((point) => ({
          point: point.point,
          verdict: concludePoint(point, judged[point.point]).verdict,
          words: judged[point.point]?.words ?? '',
        })),
      })
      saveFile(`blind-answer-${answers.slice(0, 8)}.json`, new Blob([text], { type: 'application/json' }))
    },
    async readBlindFile(file) {
      const bytes = new Uint8Array(await file.arrayBuffer())
      if (bytes[0] === 0x7b) {
        const answer = parseBlindAnswer(await file.text())
        const asked = (await examinations.list()).find(({ packages }) => packages.includes(answer.package))
        if (asked === undefined) throw new Fault('blind-answer-unknown', answer.package)
        await examinations.update(asked.id, (current) => ({
          ...current,
          verifications: [...current.verifications.filter((one) => one.answeredAt !== answer.answeredAt), answer],
        }))
        return { kind: 'answer', examination: asked.id }
      }
      const blind = readBlindPackage(bytes)
      const draft = await storeFile(blind.exemplarFile)
      const present = await exemplars.get(draft.exemplar.id)
      const exemplar =
        present === null
          ? await exemplars.add(draft, draft.exemplar.id)
          : present.deletedAt === null
            ? present
            : await exemplars.restore(present.id)
      const photos = await Promise.all(
        blind.photos.map(async ({ file: name, mediaType, corners, bytes: content }) => ({
          file: name,
          corners: corners as never,
          ...(await keepPicture(content.slice().buffer, mediaType)),
        })),
      )
      const { id } = await examinations.add({
        title: exemplar.exemplar.title,
        exemplar: exemplar.id,
        dossier: null,
        photos,
        notes: '',
        lockedAt: null,
        laterNotes: '',
        measured: null,
        judged: {},
        answers: blind.id,
        packages: [],
        verifications: [],
      })
      return { kind: 'package', examination: id }
    },
  }
}
