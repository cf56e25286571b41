/**
 * `rules/README.md`, written from the packs, their texts and their fixtures: `npx tsx tests/repo/write-rules-readme.ts`.
 * `rules-readme.test.ts` says when it is stale.
 */
import { writeFileSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import type { Condition, Threshold } from '../../src/domain/rules/conditions.ts'
import { FACTS, type FactId, factKey } from '../../src/domain/rules/fact-ids.ts'
import { parsePack } from '../../src/domain/rules/packs.ts'
import type { PhrasePack } from '../../src/domain/rules/phrase-pack.ts'
import type { Rule, RulePack } from '../../src/domain/rules/rule.ts'
import type { ViewPack } from '../../src/domain/views/view-pack.ts'
import { RULES_DIRECTORY, readPackFiles, readTexts } from '../unit/rules/load-packs.ts'
import { readRuleFixtures } from '../unit/rules/rule-fixtures.ts'

export const README = `${RULES_DIRECTORY}README.md`

/** A table as the formatter writes it: every column as wide as its widest cell. */
function layOutTable(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const all = [head, ...rows]
  const widths = head.map((_, column) => Math.max(3, ...all.map((row) => [...row[column]!].length)))
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, column) => cell + ' '.repeat(widths[column]! - [...cell].length)).join(' | ')} |`
  return [line(head), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)]
}

function describe(condition: Condition): string {
  if ('all' in condition) return condition.all.map(describePart).join(' **and** ')
  if ('any' in condition) return condition.any.map(describePart).join(' **or** ')
  if ('not' in condition) return `**not** ${describePart(condition.not)}`
  if ('count' in condition) {
    return `**${condition.count.atLeast} or more of** ${condition.count.of.map(describe).join(', ')}`
  }
  if ('is' in condition) return `\`${condition.is.fact}\` is \`${condition.is.value}\``
  if ('oneOf' in condition) {
    return `\`${condition.oneOf.fact}\` is ${condition.oneOf.values.map((value) => `\`${value}\``).join(' or ')}`
  }
  if ('known' in condition) return `\`${condition.known.fact}\` is known`
  if ('unknown' in condition) return `\`${condition.unknown.fact}\` is unknown`
  if ('atLeast' in condition) return describeThreshold(condition.atLeast, 'at least')
  if ('below' in condition) return describeThreshold(condition.below, 'below')
  if ('differ' in condition) return `\`${condition.differ.fact}\` and \`${condition.differ.from}\` do not fit together`
  if ('phrase' in condition)
    return `a phrase of [${condition.phrase.list}](#phrase-lists) in ${condition.phrase.in.join(', ')}`
  if ('view' in condition) return `view \`${condition.view.view}\` is ${condition.view.status.join(' or ')}`
  return `[${condition.raised.rule}](#${condition.raised.rule}) is raised`
}

function describePart(condition: Condition): string {
  const joined = ('all' in condition && condition.all.length > 1) || ('any' in condition && condition.any.length > 1)
  return joined ? `(${describe(condition)})` : describe(condition)
}

function describeThreshold({ fact, threshold }: { fact: FactId; threshold: Threshold }, words: string): string {
  return `\`${fact}\` ${words} ${threshold.value} ${threshold.unit} (${threshold.reason})`
}

function describeRule(rule: Rule, texts: Record<string, string>): string[] {
  const text = (part: string) => texts[`rule_${rule.id.replace(/-/g, '_')}_${part}`] ?? rule.text?.title ?? ''
  const fixtures = readRuleFixtures().get(rule.id) ?? []
  const names = (wanted: boolean) =>
    fixtures
      .filter((item) => (item.expect !== null) === wanted)
      .map((item) => item.name)
      .join('; ')
  return [
    `### ${rule.id}`,
    '',
    `${text('title')}. ${text('why')}`,
    '',
    ...rule.cases.map(
      (item) => `- **${item.strength}**, assumed weight ${item.likelihoodRatio}: ${describe(item.when)}`,
    ),
    ...(rule.settledWhen ? [`- settled by the fact that ${describe(rule.settledWhen)}`] : []),
    `- settles it: ${text('settles')}`,
    ...(rule.request.length > 0 ? [`- asks for: ${rule.request.join(', ')}`] : []),
    ...(rule.doubts ? [`- while open, a photo is not taken at its word for: ${rule.doubts.join(', ')}`] : []),
    ...(rule.supersededBy
      ? [
          `- says nothing of its own where this is raised: ${rule.supersededBy.map((id) => `[${id}](#${id})`).join(', ')}`,
        ]
      : []),
    `- group: ${rule.group} · source: ${rule.source}`,
    `- raised: ${names(true)}`,
    `- silent: ${names(false)}`,
    '',
  ]
}

function describeViews(pack: ViewPack): string[] {
  return [
    `### views of a card that is ${pack.id}`,
    '',
    ...layOutTable(
      ['view', 'needed', 'must resolve', 'also seen on', 'bother'],
      pack.views.map((spec) => {
        const needs = [spec.pxPerMm, spec.longEdge].flatMap((limit) =>
          limit ? [`${limit.value} ${limit.unit} (${limit.reason})`] : [],
        )
        const also = (spec.alsoOn ?? []).map(({ view, pxPerMm }) => `${view} from ${pxPerMm.value} ${pxPerMm.unit}`)
        return [spec.view, spec.needed, needs.join('; ') || '–', also.join('; ') || '–', String(spec.bother)]
      }),
    ),
    '',
  ]
}

export function renderRulesReadme(): string {
  const texts = readTexts('en')
  const files = readPackFiles().filter(({ file }) => !file.startsWith('vocabulary/'))
  const packs = files.map(({ file, pack }) => ({ file, pack: parsePack(file, pack).pack! }))
  const rulePacks = packs.flatMap(({ file, pack }) => (pack.kind === 'rules' ? [{ file, pack: pack as RulePack }] : []))
  const phrasePacks = packs.flatMap(({ pack }) => (pack.kind === 'phrases' ? [pack as PhrasePack] : []))
  const viewPacks = packs.flatMap(({ pack }) => (pack.kind === 'views' ? [pack as ViewPack] : []))
  const total = rulePacks.reduce((sum, { pack }) => sum + pack.rules.length, 0)
  return `${[
    '# Rules',
    '',
    `Written from the packs by \`npx tsx tests/repo/write-rules-readme.ts\`; do not edit. ${total} rules in ${rulePacks.length} packs,`,
    `${phrasePacks.length} phrase lists. All weights are assumed: an order from practice, never a measurement.`,
    '',
    '## How packs are read',
    '',
    'JSON data, no code, no regular expression. `npm run touchstone -- check-rules DIR` names file, place and fault. The types and',
    'the schema stand in `src/domain/rules/rule.ts` and `conditions.ts`.',
    '',
    '1. Files are taken by name in UTF-16 order; vocabulary, phrases, views and messages before rules.',
    '2. A pack with a fault is left out whole; the others stay. Unknown keys, verbs, facts, views and lists are faults.',
    '3. An id stands once. A later pack cannot redefine a rule of an earlier one, only switch it off (`off`).',
    '4. Rules run in that order, each after those that it refers to by `raised`. A circle is a fault.',
    '5. Of a rule’s cases the first that holds raises the concern. What is unknown fails every verb but `unknown`; `not` turns that',
    '   round, so `not` over an unknown fact holds.',
    '6. A phrase that is denied ("not trimmed", "keine weiteren Interessenten") is no hit where its list says `negation: cancels`;',
    '   one that is only talked about ("beware of …") is none where it says `mention: cancels`.',
    '7. Rules of one group depend on each other; the group counts once, by its strongest.',
    '',
    ...layOutTable(
      ['verb', 'holds where'],
      [
        ['`all`, `any`, `not`, `count`', 'every part, one part, not the part, so many parts hold'],
        ['`is`, `oneOf`', 'the fact has this value, one of these'],
        ['`known`, `unknown`', 'the fact has a value, has none'],
        ['`atLeast`, `below`', 'the number reaches the threshold, stays under it; a threshold has a unit and a reason'],
        ['`differ`', 'two known facts of one kind contradict each other'],
        ['`phrase`', 'a phrase of the list stands in one of the fields'],
        ['`view`', 'the view has one of these statuses'],
        ['`raised`', 'another rule is raised'],
      ],
    ),
    '',
    ...rulePacks.flatMap(({ file, pack }) => [
      `## ${pack.id}`,
      '',
      `${pack.about} (\`${file}\`)`,
      '',
      ...pack.rules.flatMap((rule) => describeRule(rule, texts)),
    ]),
    '## Phrase lists',
    '',
    ...layOutTable(
      ['list', 'what for', 'phrases'],
      phrasePacks.map((pack) => {
        const counts = Object.entries(pack.phrases).map(([language, phrases]) => `${language} ${phrases.length}`)
        return [pack.id, pack.about, counts.join(', ')]
      }),
    ),
    '',
    '## Views',
    '',
    'Status: `shown`; `not-readable` (there, but too small, blurred or covered to judge, with the figures); `missing` (every photo is',
    'accounted for, or there is none); `cannot-tell` (a photo is left that nobody looked at and no word describes). The person’s word',
    'outranks pixels, pixels outrank words.',
    '',
    ...viewPacks.flatMap(describeViews),
    '## Facts',
    '',
    ...layOutTable(
      ['fact', 'kind', 'meaning'],
      Object.entries(FACTS).map(([fact, kind]) => [
        `\`${fact}\``,
        kind,
        texts[`fact_${factKey(fact as FactId)}`] ?? '',
      ]),
    ),
  ].join('\n')}\n`
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  writeFileSync(README, renderRulesReadme())
  console.log(`written: ${README}`)
}
