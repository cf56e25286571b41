/**
 * The one decision: what is known about an offer, the buyer's book and the packs in; the Inspection out. Pure and
 * deterministic. Panel, page marks, triage, command line and tests show its result; nothing else decides.
 */

import { type ClaimReading, parseClaims, readClaims } from './claim/parse-claims.ts'
import type { Claim } from './claim.ts'
import type { Facts } from './facts.ts'
import type { Book } from './grader-book.ts'
import type { Concern, Evidence, Inspection, Strength, TraceLine } from './inspection.ts'
import type { Listing } from './listing.ts'
import { neededViews, nextQuestion, orderViews } from './request/order-views.ts'
import { writeRequest } from './request/write-request.ts'
import { estimateWorth, findRiskyIssue } from './rules/estimate-worth.ts'
import { evaluate, type Grounds } from './rules/evaluate.ts'
import { type Packs, textKey } from './rules/packs.ts'
import { bestLabel, createFactReader, type KnownAboutOffer, type Part, say } from './rules/read-fact.ts'
import type { Rule } from './rules/rule.ts'
import { takeStance } from './stance/take-stance.ts'
import { type NormalisedText, normaliseText } from './text/normalise-text.ts'
import { countDifferentPhotos, findViews, joinPhotos } from './views/find-views.ts'
import type { ViewFinding, ViewId } from './views.ts'
import { combineEvidence } from './weighing/combine-evidence.ts'
import { weighRule } from './weighing/learn-weight.ts'
import { describeWeight } from './weighing/verbal-scale.ts'

const STRENGTH_ORDER = { strong: 0, medium: 1, weak: 2 } as const

/** More quotes than this for one concern say nothing new; ours. */
const MOST_QUOTES = 8

export function inspect(facts: Facts, book: Book, packs: Packs): Inspection {
  const { listing } = facts
  const { translate } = packs
  const knowledge = { graders: book.graders, vocabulary: packs.vocabulary }
  const { title, specifics, description } = listing
  const reading = readClaims({ title, specifics, description }, knowledge)
  const { claims } = reading
  const claim = claims[0]!
  const examined = facts.photos.filter((photo) => photo.examined)
  const pack = isEncapsulated(claim, facts) ? packs.views.encapsulated : packs.views.raw
  const views = findViews(facts, pack, packs.viewWords, translate)
  const issue = findRiskyIssue(listing, book.riskyIssues)
  const texts = textsOf(listing, reading)
  const known: KnownAboutOffer = {
    facts,
    book,
    claim,
    issue,
    texts,
    translate,
    language: packs.language,
    examined,
    worth: estimateWorth(listing, facts.valuation, issue, book),
    photoCount: joinPhotos(facts).length,
    differentPhotos: countDifferentPhotos(facts, packs.viewWords, pack.id === 'encapsulated'),
    claimOf: createPartReader(facts, reading, knowledge),
  }
  const raised = new Map<string, Strength>()
  const grounds: Grounds = {
    read: createFactReader(known),
    phrases: packs.searchPhrases(texts),
    views,
    graders: book.graders,
    raised,
    translate,
  }
  const concerns: Concern[] = []
  const trace: TraceLine[] = []
  for (const rule of packs.rules) {
    const concern = raiseConcern(rule, grounds, book, packs, trace)
    if (concern === null) continue
    raised.set(rule.id, concern.strength)
    // Only by one at least as strong: else a sign more would leave less open.
    const by = rule.supersededBy?.find(
      (id) => STRENGTH_ORDER[raised.get(id) ?? 'weak'] <= STRENGTH_ORDER[concern.strength] && raised.has(id),
    )
    if (by === undefined) concerns.push(concern)
    else trace[trace.length - 1] = { ...trace.at(-1)!, reason: `${trace.at(-1)!.reason}; superseded by ${by}` }
  }
  concerns.sort(compareConcerns)

  const seen = doubtViews(views, concerns, packs)
  const needed = neededViews(pack, concerns).map((view) => seen.get(view)!)
  const beyond = [...seen.values()].filter((finding) => finding.status === 'shown' && !needed.includes(finding))
  const open = orderViews(
    needed.filter((finding) => finding.status !== 'shown'),
    concerns,
    pack,
  )
  const message = packs.messages.get(facts.messageLanguage) ?? packs.messages.get('en')
  const { stance, reason } = takeStance(concerns, needed, translate)
  return {
    stance,
    stanceReason: reason,
    listing,
    claim,
    claims,
    concerns,
    views: [...needed, ...beyond],
    request: message
      ? writeRequest({
          open: open.filter(({ view }) => !facts.viewsRefused?.includes(view)),
          pack: message,
          maxLength: facts.messageMaxLength,
          mostViews: facts.messageMostViews,
          style: facts.messageStyle,
          // Where nothing is open there is nothing to ask, the buyer's own words for the issue included.
          issueAsk: stance === 'nothing-open' ? null : (issue?.askFor ?? null),
        })
      : { text: '', language: facts.messageLanguage, views: [], leftOut: open.map((finding) => finding.view) },
    weighing: combineEvidence(concerns),
    nextQuestion: nextQuestion(open, concerns),
    valuation: facts.valuation,
    trace,
  }
}

/** By the words; where they leave it open, by what the photos show. */
function isEncapsulated(claim: Claim, facts: Facts): boolean {
  if (claim.encapsulation !== 'unclear') return claim.encapsulation === 'encapsulated'
  return facts.photos.some((photo) => photo.examined && photo.holderKind === 'sealed')
}

function textsOf(listing: Listing, reading: ClaimReading): ReadonlyMap<string, NormalisedText> {
  const texts = new Map<string, NormalisedText>()
  const add = (field: string, text: string | null, known: NormalisedText | null = null) => {
    if (text !== null && text.trim() !== '') texts.set(field, known ?? normaliseText(text))
  }
  add('title', listing.title, reading.texts.title)
  for (const [name, value] of Object.entries(listing.specifics)) add(`specifics.${name}`, value)
  add('condition', listing.condition)
  add('description', listing.description, reading.texts.description)
  add('payments', listing.payments.join('; '))
  add('captions', listing.photos.flatMap((photo) => photo.alt ?? []).join('\n\n'))
  return texts
}

/** Each part of the words on its own; the label's only when a rule asks for it. */
function createPartReader(
  facts: Facts,
  reading: ClaimReading,
  knowledge: Parameters<typeof parseClaims>[1],
): (part: Part) => Claim | null {
  // Several cards in one listing contradict nothing: each may be meant.
  const single = reading.claims.length === 1
  let label: Claim | null | undefined
  return (part) => {
    if (part !== 'label') return single ? reading.parts[part] : null
    if (label !== undefined) return label
    const lines = bestLabel(facts.photos.filter((photo) => photo.examined))?.lines ?? []
    const claims =
      lines.length === 0 ? [] : parseClaims({ title: lines.join(' '), specifics: {}, description: null }, knowledge)
    label = claims.length === 1 ? claims[0]! : null
    return label
  }
}

function raiseConcern(rule: Rule, grounds: Grounds, book: Book, packs: Packs, trace: TraceLine[]): Concern | null {
  let failed = ''
  for (const ruleCase of rule.cases) {
    const verdict = evaluate(ruleCase.when, grounds)
    if (!verdict.holds) {
      failed = failed === '' ? verdict.decided : `${failed}; ${verdict.decided}`
      continue
    }
    trace.push({ rule: rule.id, raised: true, reason: verdict.decided })
    const weight = weighRule(ruleCase.likelihoodRatio, book.outcomes?.[rule.id] ?? null)
    return {
      rule: rule.id,
      title: packs.translate(textKey(rule.id, 'title')),
      strength: ruleCase.strength,
      evidence: distinct(verdict.evidence, rule, grounds),
      why: packs.translate(textKey(rule.id, 'why')),
      request: rule.request,
      settles: packs.translate(textKey(rule.id, 'settles')),
      group: rule.group,
      weight: { ...weight, words: describeWeight(weight, packs.translate) },
      settledBy: book.settled[rule.id] ?? settledByFact(rule, grounds),
    }
  }
  trace.push({ rule: rule.id, raised: false, reason: failed })
  return null
}

/** A view that is shown, but that an open concern does not take at its word, is asked for again, with the concern as the reason. */
function doubtViews(
  views: ReadonlyMap<ViewId, ViewFinding>,
  concerns: readonly Concern[],
  { rules, translate }: Packs,
): ReadonlyMap<ViewId, ViewFinding> {
  const open = new Map(concerns.filter(({ settledBy }) => settledBy === null).map((concern) => [concern.rule, concern]))
  const doubted = new Map(views)
  for (const { id, doubts } of rules) {
    const concern = doubts && open.get(id)
    if (!concern) continue
    for (const view of doubts) {
      const finding = doubted.get(view)
      if (finding?.status !== 'shown') continue
      const reason = translate('view_reason_doubted', { concern: concern.title })
      doubted.set(view, { ...finding, status: 'not-readable', reason })
    }
  }
  return doubted
}

function settledByFact(rule: Rule, grounds: Grounds): string | null {
  if (!rule.settledWhen) return null
  const verdict = evaluate(rule.settledWhen, grounds)
  if (!verdict.holds) return null
  return verdict.evidence.map(({ quote }) => quote).join('; ') || grounds.translate('settled_by_fact')
}

/** Each quote once, words of the listing before sentences about it. A concern without evidence would be a bare claim. */
function distinct(evidence: readonly Evidence[], rule: Rule, grounds: Grounds): readonly Evidence[] {
  const seen = new Map<string, Evidence>()
  for (const item of evidence) seen.set(`${item.field}\u0000${item.start}\u0000${item.quote}`, item)
  const quotes = [...seen.values()].sort((a, b) => Number(a.field === null) - Number(b.field === null))
  return quotes.length > 0 ? quotes.slice(0, MOST_QUOTES) : [say(grounds.translate, textKey(rule.id, 'title'))]
}

function compareConcerns(a: Concern, b: Concern): number {
  return (
    Number(a.settledBy !== null) - Number(b.settledBy !== null) ||
    STRENGTH_ORDER[a.strength] - STRENGTH_ORDER[b.strength] ||
    b.weight.likelihoodRatio - a.weight.likelihoodRatio ||
    (a.rule < b.rule ? -1 : 1)
  )
}
