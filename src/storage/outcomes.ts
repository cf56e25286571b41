/** How the kept dossiers ended, counted up for the weights: one record to read, counted anew only after an ending changed. */
import type { Ending, OutcomeTally } from '../domain/ending.ts'
import { tallyEndings } from '../domain/weighing/tally-endings.ts'
import type { Database } from './database.ts'

export async function readOutcomeTally(database: Database): Promise<OutcomeTally> {
  const counted = await database.get('tallies', 'outcomes')
  if (counted !== undefined) return counted
  // One transaction, so that no ending can change between the counting and the keeping of the count.
  const transaction = database.transaction(['endings', 'tallies'], 'readwrite')
  const tally = tallyEndings(await transaction.objectStore('endings').getAll())
  await Promise.all([transaction.objectStore('tallies').put(tally, 'outcomes'), transaction.done])
  return tally
}

export const readEndings = (database: Database): Promise<Ending[]> => database.getAll('endings')
