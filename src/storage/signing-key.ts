/** The key that signs evidence bags: made at the first wish, kept in this browser, never taken out. */
import { createSigningKey } from './bag/sign-bag.ts'
import type { Database } from './database.ts'

export async function readSigningKey(database: Database): Promise<CryptoKeyPair> {
  const kept = await database.get('keys', 'signing')
  if (kept !== undefined) return kept
  const made = await createSigningKey()
  // Another window may have made one meanwhile: the first that is kept is the one.
  const transaction = database.transaction('keys', 'readwrite')
  const first = await transaction.store.get('signing')
  if (first === undefined) await transaction.store.put(made, 'signing')
  await transaction.done
  return first ?? made
}
