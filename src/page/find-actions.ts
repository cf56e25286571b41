/** What can be done on a page with the thing offered: buy it, bid on it, ask about it. Looks at buttons and links by their words. */
import { countLetters } from '../domain/letters.ts'
import { groupAt, type RecordGroup } from './find-record-groups.ts'
import { REGION } from './index-document.ts'
import type { PageEvidence } from './page-evidence.ts'

export interface Actions {
  readonly buy: readonly number[]
  readonly bid: readonly number[]
  readonly contact: readonly number[]
  /** Buttons inside records. */
  readonly rowActions: number
}

export function findActions(evidence: PageEvidence, groups: readonly RecordGroup[]): Actions {
  const { index, lexicon } = evidence
  const found = { buy: [] as number[], bid: [] as number[], contact: [] as number[], rowActions: 0 }
  for (const node of index.nodes) {
    if (node.hidden) continue
    const isInput = node.tag === 'input' && /^(?:submit|button|image)$/i.test(node.element.getAttribute('type') ?? '')
    const looksLikeButton =
      node.tag === 'button' ||
      node.tag === 'a' ||
      isInput ||
      node.role === 'button' ||
      (node.tag === 'label' && /btn|button/.test(node.marks)) ||
      (node.tag !== 'form' &&
        node.lastRun - node.firstRun === 1 &&
        /(?:^|[\s_-])(?:btn|button|cta)(?:$|[\s_-])/.test(node.marks))
    if (!looksLikeButton) continue
    let text: string
    if (isInput) text = node.element.getAttribute('value') ?? node.element.getAttribute('alt') ?? ''
    else {
      if (node.lastRun - node.firstRun > 3) continue
      text = ''
      for (let i = node.firstRun; i < node.lastRun; i += 1) text += ` ${index.runs[i]!.text}`
      text = text.trim() || (node.element.getAttribute('aria-label') ?? node.element.getAttribute('title') ?? '')
    }
    if (text === '' || text.length > 60) continue
    const concepts = lexicon.find(text)
    const letters = countLetters(text)
    const hit = concepts.find(
      (each) =>
        (each.concept === 'buy-action' ||
          each.concept === 'bid-action' ||
          each.concept === 'contact-action' ||
          each.concept === 'best-offer') &&
        countLetters(text.slice(each.start, each.end)) >= letters * 0.6,
    )
    if (!hit) continue
    if (node.region & REGION.chrome && hit.concept !== 'bid-action') continue
    const group = groupAt(index, groups, node.at)
    if (group && group.group.rows.length >= 3) {
      found.rowActions += 1
      continue
    }
    if (hit.concept === 'bid-action') found.bid.push(node.at)
    else if (hit.concept === 'contact-action' || hit.concept === 'best-offer') found.contact.push(node.at)
    else found.buy.push(node.at)
  }
  return found
}
