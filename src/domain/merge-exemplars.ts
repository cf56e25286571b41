/**
 * Two exemplars of one issue as one: pieces, pictures, makes of copy and points of both. Nothing of the first is altered; what
 * the second calls by a name that is taken gets a name of its own. Pure.
 */
import type { ExemplarDraft } from './examination.ts'

/** `name`, or `name-2` and so on where it is taken; a file keeps its ending. */
export function freeName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name
  const dot = name.lastIndexOf('.')
  const [stem, ending] = dot > 0 ? [name.slice(0, dot), name.slice(dot)] : [name, '']
  for (let n = 2; ; n++) {
    const next = `${stem}-${n}${ending}`
    if (!taken.has(next)) return next
  }
}

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b)

/** What of `more` is new beside `own`, with the ids under which it is added. */
function addNew<T extends { readonly id: string }>(own: readonly T[], more: readonly T[]) {
  const taken = new Set(own.map(({ id }) => id))
  const ids = new Map<string, string>()
  const added: T[] = []
  for (const item of more) {
    const known = own.find((one) => same(one, item))
    const id = known?.id ?? freeName(item.id, taken)
    ids.set(item.id, id)
    if (known !== undefined) continue
    taken.add(id)
    added.push({ ...item, id })
  }
  return { all: [...own, ...added], ids }
}

export function mergeExemplars(own: ExemplarDraft, more: ExemplarDraft): ExemplarDraft {
  const pieces = addNew(own.exemplar.pieces, more.exemplar.pieces)
  const copies = addNew(own.exemplar.copies, more.exemplar.copies)
  const hashes = new Set(Object.values(own.stored).map(({ sha256 }) => sha256))
  const files = new Set(own.exemplar.pictures.map(({ file }) => file))
  const stored = { ...own.stored }
  const pictures = [...own.exemplar.pictures]
  for (const picture of more.exemplar.pictures) {
    const bytes = more.stored[picture.file]
    if (bytes === undefined || hashes.has(bytes.sha256)) continue
    const file = freeName(picture.file, files)
    files.add(file)
    stored[file] = bytes
    pictures.push({ ...picture, file, piece: pieces.ids.get(picture.piece) ?? picture.piece })
  }
  const renamed = more.exemplar.points.map((point) => ({
    ...point,
    copies: Object.fromEntries(
      Object.entries(point.copies).map(([make, does]) => [copies.ids.get(make) ?? make, does]),
    ),
  }))
  const points = addNew(own.exemplar.points, renamed)
  return {
    exemplar: { ...own.exemplar, pieces: pieces.all, copies: copies.all, pictures, points: points.all },
    stored,
  }
}
