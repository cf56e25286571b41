/** Shows on the page what the panel says. A page that went away meanwhile has nothing to mark: faults are of no interest here. */
import type { Inspection } from '../../domain/inspection.ts'
import type { Translate } from '../../domain/translate.ts'
import type { ResultsRowState } from '../../ui/panel/panel-state.ts'
import { marksOfListing, marksOfRows } from '../page-marks.ts'
import type { AttachedPage } from './page-link.ts'

export async function markListing(page: AttachedPage, inspection: Inspection, t: Translate): Promise<void> {
  await page.call('highlight', marksOfListing(inspection, t))
}

export async function markResults(page: AttachedPage, rows: readonly ResultsRowState[], t: Translate): Promise<void> {
  await page.call('markRows', { marks: marksOfRows(rows, t) })
}
