/** The buyer's choices, one record. Missing keys of an older version take their default. */
import { DEFAULT_SETTINGS, type Settings } from '../domain/settings.ts'
import { announce } from './changes.ts'
import type { Database } from './database.ts'

export async function readSettings(database: Database): Promise<Settings> {
  return { ...DEFAULT_SETTINGS, ...(await database.get('settings', 'settings')) }
}

export async function changeSettings(database: Database, change: Partial<Settings>): Promise<Settings> {
  const transaction = database.transaction('settings', 'readwrite')
  const changed = { ...DEFAULT_SETTINGS, ...(await transaction.store.get('settings')), ...change }
  await transaction.store.put(changed, 'settings')
  await transaction.done
  announce({ store: 'settings', id: 'settings' })
  return changed
}
