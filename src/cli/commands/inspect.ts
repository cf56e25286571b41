/** `inspect`: a saved page and what else is known in, the Inspection out. */
import type { Answer, Arguments } from '../command.ts'
import { inspectPage } from '../inspect-page.ts'
import { inspectionText } from '../text/inspection-text.ts'

export async function run(args: Arguments): Promise<Answer> {
  const inspection = await inspectPage(args)
  return { json: inspection, text: inspectionText(inspection) }
}
