/** axe-core's rules for WCAG 2.2 A and AA on a page of the extension as it stands. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults } from 'axe-core'
import type { Page } from 'puppeteer-core'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** One line a violation; an empty list is a pass. Throws when axe looked at nothing. */
export async function findViolations(page: Page): Promise<string[]> {
  await page.evaluate(`${AXE}; undefined`)
  const results = (await page.evaluate(
    `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(TAGS)} } })
      .then(({ violations, passes }) => ({ violations, passes: passes.length }))`,
  )) as Pick<AxeResults, 'violations'> & { passes: number }
  if (results.passes < 10) throw new Error(`axe passed only ${results.passes} rules: it did not see the page`)
  return results.violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} – ${node.target.join(' ')}: ${node.failureSummary?.replace(/\s+/g, ' ')}`),
  )
}
