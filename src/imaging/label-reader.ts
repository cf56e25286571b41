/**
 * How a label is read: injected into the examination, since text recognition loads its models differently in a worker and in
 * Node, and is not loaded at all where there is no label.
 */
import type { PhotoLabel, Quadrilateral } from '../domain/photo-facts.ts'
import type { Pixels } from './pixels.ts'

/** What was read, and how many pixels wide the label is in the photo: too few, and nothing that was read counts. */
export interface LabelReading extends PhotoLabel {
  readonly widthPx: number
}

/**
 * @param where outline of the label, else of the holder that bears it; `null`: not known, look over the whole picture.
 * @returns `null` where no label was found. Where one was found but not read beyond doubt, its fields are `null` and its
 *   `lines` empty.
 */
export type ReadLabel = (
  pixels: Pixels,
  where: Quadrilateral | null,
  signal?: AbortSignal,
) => Promise<LabelReading | null>
