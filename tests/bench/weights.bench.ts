/**
 * What each weight of `src/page/data/weights.json` is worth: every feature is set to nothing in turn, and prices of the page fixtures
 * are read again. Prints what changes on the pages that weights may be fitted on and on those that only measure. A feature that
 * changes nothing on either is carried for pages that are not here, or is dead. Run: `npm run bench -- weights`.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { JSDOM } from 'jsdom'
import weights from '../../src/page/data/weights.json' with { type: 'json' }
import { createStaticProbe } from '../../src/page/layout-probe.ts'
import { readPage } from '../../src/page/read-page.ts'
import { type ExpectedMoney, isMoneyEqual } from '../page/compare-reading.ts'

const ROOT = resolve(import.meta.dirname, '../fixtures/pages')
const pages = readdirSync(ROOT)
  .sort()
  .flatMap((slug) => {
    const load = (name: string): string => readFileSync(resolve(ROOT, slug, name), 'utf8')
    const expected = JSON.parse(load('expected.json')) as { kind: string; price?: ExpectedMoney | null }
    const meta = JSON.parse(load('meta.json')) as { url: string; now: string; split: 'train' | 'validation' }
    return expected.kind === 'listing' && expected.price !== undefined
      ? [{ slug, expected, meta, document: new JSDOM(load('source.html'), { url: meta.url }).window.document }]
      : []
  })

interface Score {
  right: number
  wrong: number
  missing: number
}

function measure(): Record<'train' | 'validation', Score> {
  const score = { train: { right: 0, wrong: 0, missing: 0 }, validation: { right: 0, wrong: 0, missing: 0 } }
  for (const { expected, meta, document } of pages) {
    const reading = readPage(document, { url: meta.url, now: meta.now, probe: createStaticProbe(document) })
    const price = reading.kind === 'listing' ? reading.price : null
    const side = score[meta.split]
    if (isMoneyEqual(expected.price ?? null, price)) side.right += 1
    else if (price === null) side.missing += 1
    else side.wrong += 1
  }
  return score
}

const show = ({ right, wrong, missing }: Score): string => `right ${right}, wrong ${wrong}, missing ${missing}`
const base = measure()
console.log(
  `${pages.length} pages with a stated price; as weighted: train ${show(base.train)}; validation ${show(base.validation)}`,
)
const table = weights.price as Record<string, number>
for (const feature of Object.keys(table)) {
  const kept = table[feature]!
  if (kept === 0) continue
  table[feature] = 0
  const without = measure()
  table[feature] = kept
  const same = JSON.stringify(without) === JSON.stringify(base)
  console.log(
    `${feature.padEnd(24)} ${String(kept).padStart(5)}  without it: ${same ? 'no change here' : `train ${show(without.train)}; validation ${show(without.validation)}`}`,
  )
}
