/** Ids of records: random, so that two machines never give the same one. */
export function createId(): string {
  return crypto.randomUUID()
}
