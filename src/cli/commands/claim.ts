/** `claim`: the words of a title in, what they say the card is out. */
import { parseClaims } from '../../domain/claim/parse-claims.ts'
import { BadInput } from '../bad-input.ts'
import type { Answer, Arguments } from '../command.ts'
import { loadGraders } from '../load-book.ts'
import { loadKnowledge } from '../load-packs.ts'
import { claimText } from '../text/claim-text.ts'

export async function run(args: Arguments): Promise<Answer> {
  const [title = ''] = args.positionals
  if (title.trim() === '') throw new BadInput('The title is empty.')
  const knowledge = await loadKnowledge(await loadGraders(args.text('graders')))
  const claims = parseClaims({ title, specifics: {}, description: null }, knowledge)
  return {
    // One card is an object, several are a list, as the contract says.
    json: claims.length === 1 ? claims[0] : claims,
    text: claims.map((one, i) => (claims.length > 1 ? `Card ${i + 1}\n` : '') + claimText(one)).join('\n\n'),
  }
}
