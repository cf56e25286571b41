/** `value`: sales and a title in, a Valuation out. */
import { parseClaims } from '../../domain/claim/parse-claims.ts'
import { BadInput } from '../bad-input.ts'
import type { Answer, Arguments } from '../command.ts'
import { loadGraders, parseMoneyOption } from '../load-book.ts'
import { loadKnowledge } from '../load-packs.ts'
import { loadSales } from '../load-sales.ts'
import { valuationText } from '../text/valuation-text.ts'

function parseDay(text: string | null): string {
  if (text === null) return new Date().toISOString().slice(0, 10)
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(Date.parse(text))) {
    throw new BadInput(`--on: "${text}" is no day; write it as 2024-08-31.`)
  }
  return text
}

export async function run(args: Arguments): Promise<Answer> {
  const title = args.text('title')
  if (title === null || title.trim() === '') throw new BadInput('value needs --title "WORDS": what is offered.')
  const on = parseDay(args.text('on'))
  const ask = parseMoneyOption('ask', args.text('ask'))
  const knowledge = await loadKnowledge(await loadGraders(args.text('graders')))
  const { sales, faults } = await loadSales(args.positionals[0] as string)
  const { valueClaim } = await import('../../domain/pricing/value-claim.ts')
  const [claim] = parseClaims({ title, specifics: {}, description: null }, knowledge)
  if (!claim) throw new BadInput('--title: no card is described by these words.')
  const valuation = valueClaim(claim, sales, { on, ask, knowledge, title })
  const skipped = faults.map(({ line, fault }) => `  line ${line}: ${fault}`)
  return {
    json: { ...valuation, claim, faults },
    text: [
      valuationText(valuation),
      ...(skipped.length > 0 ? ['', 'Lines that could not be read', ...skipped] : []),
    ].join('\n'),
  }
}
