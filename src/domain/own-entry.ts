/**
 * Looking a stranger's word up in a table of ours. Every object also answers to `constructor` and the like, and a page may say so:
 * only what was written into the table counts.
 */
export function ownEntry<Value>(table: Readonly<Record<string, Value>>, word: string): Value | undefined {
  return Object.hasOwn(table, word) ? table[word] : undefined
}
