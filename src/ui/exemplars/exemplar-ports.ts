/** What exemplars and the light table ask of the world outside them. A port rejects with a `Fault`. */
import type {
  Examination,
  ExaminationRecord,
  ExemplarDraft,
  ExemplarRecord,
  MeasuredComparison,
  StoredPicture,
} from '../../domain/examination.ts'
import type { PieceCorners, Size, SquarePicture } from '../light-table/square-picture.ts'

export interface ExemplarPorts {
  listExemplars(): Promise<readonly ExemplarRecord[]>
  openExemplar(id: string): Promise<ExemplarRecord | null>
  createExemplar(draft: ExemplarDraft): Promise<ExemplarRecord>
  /** Refused when the stored one is no longer at `revision`. */
  saveExemplar(id: string, draft: ExemplarDraft, revision: number): Promise<ExemplarRecord>
  deleteExemplar(id: string): Promise<void>
  restoreExemplar(id: string): Promise<void>
  keepPicture(picture: Blob): Promise<StoredPicture>
  /** Rejects with `no-card-found` where the corners have to come from the person. */
  laySquare(picture: Blob, corners: PieceCorners, size: Size, signal: AbortSignal): Promise<SquarePicture>
  /** One file to the browser's download. */
  exportExemplar(id: string): Promise<void>
  /** Checks every file first. What lies here under the same name already is merged with it. */
  importExemplars(
    files: readonly File[],
  ): Promise<{ readonly ids: readonly string[]; readonly added: number; readonly merged: number }>
  /** A printed page for teaching, to the browser's download. */
  exportGuide(id: string, signal: AbortSignal): Promise<void>

  listExaminations(): Promise<readonly ExaminationRecord[]>
  openExamination(id: string): Promise<ExaminationRecord | null>
  createExamination(examination: Examination): Promise<ExaminationRecord>
  saveExamination(id: string, examination: Examination, revision: number): Promise<ExaminationRecord>
  deleteExamination(id: string): Promise<void>
  restoreExamination(id: string): Promise<void>
  measure(
    exemplar: ExemplarRecord,
    photos: ExaminationRecord['photos'],
    signal: AbortSignal,
  ): Promise<MeasuredComparison>
  /** The conclusion into the dossier that the photos came from. */
  keepComparison(examination: ExaminationRecord): Promise<void>
  /** @returns the package's id. */
  exportBlindPackage(examination: ExaminationRecord): Promise<string>
  exportBlindAnswer(examination: ExaminationRecord, by: string): Promise<void>
  /** A package becomes an examination of its own; an answer goes to the examination that it answers. @returns that one's id. */
  readBlindFile(file: File): Promise<{ readonly kind: 'package' | 'answer'; readonly examination: string }>
}
