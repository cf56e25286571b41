/** Which entries of the append-only log still count. Nothing is ever altered or removed; taking back is an entry of its own. */
import type { LogEntry } from '../dossier.ts'

/** How an entry is called: by its id, in older dossiers by its place. */
export function entryName(log: readonly LogEntry[], index: number): string {
  return log[index]?.id ?? `#${index}`
}

/** The entries that count, in order, each with its name. What was taken back is left out, and so is every `undone`. */
export function standingEntries(log: readonly LogEntry[]): { name: string; entry: LogEntry }[] {
  const takenBack = new Set<string>()
  const standing: { name: string; entry: LogEntry }[] = []
  // From the newest: whether an `undone` counts is known before the entry that it takes back.
  for (let index = log.length - 1; index >= 0; index--) {
    const entry = log[index]!
    const name = entryName(log, index)
    if (takenBack.has(name)) continue
    if (entry.event === 'undone') takenBack.add(entry.entry)
    else standing.push({ name, entry })
  }
  return standing.reverse()
}
