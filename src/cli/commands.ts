/**
 * The command table: names, arguments, options and where each command lives. Command modules are loaded when called, so that
 * `claim` does not wait for a page parser or an image decoder.
 */
import type { Command, CommandOption } from './command.ts'

const url: CommandOption = { type: 'string', value: 'URL', help: 'the address the page was saved from' }
const graders: CommandOption = { type: 'string', value: 'FILE', help: 'the grading companies that you know, as JSON' }

const inspectOptions: Command['options'] = {
  url,
  photos: { type: 'string', value: 'DIR', help: 'saved photos, matched by file name; others are additional' },
  sales: { type: 'string', value: 'FILE', help: 'finished sales, as CSV' },
  graders,
  'high-value': { type: 'string', value: 'N', help: 'from this worth on an unexamined card is a concern' },
  lang: { type: 'string', value: 'en|de', help: 'the language of the message; en if left out' },
}

export const COMMANDS: readonly Command[] = [
  {
    name: 'read',
    positionals: 'PAGE.html',
    minimum: 1,
    maximum: 1,
    summary: 'Read a saved page: the listing on it, or the rows of a results page.',
    options: { url, explain: { type: 'boolean', help: 'say where on the page each field came from' } },
    run: async (args) => (await import('./commands/read.ts')).run(args),
  },
  {
    name: 'claim',
    positionals: '"TITLE"',
    minimum: 1,
    maximum: 1,
    summary: 'Say what a title claims: year, set, subject, number, grader, grade and more.',
    options: { graders },
    run: async (args) => (await import('./commands/claim.ts')).run(args),
  },
  {
    name: 'inspect',
    positionals: 'PAGE.html',
    minimum: 1,
    maximum: 1,
    summary: 'Say what to ask about a listing before paying: concerns, missing views, the message.',
    options: inspectOptions,
    run: async (args) => (await import('./commands/inspect.ts')).run(args),
  },
  {
    name: 'request',
    positionals: 'PAGE.html',
    minimum: 1,
    maximum: 1,
    summary: 'Write the message that asks the seller for what is missing. Nothing is sent.',
    options: inspectOptions,
    run: async (args) => (await import('./commands/request.ts')).run(args),
  },
  {
    name: 'photos',
    positionals: 'FILE…',
    minimum: 1,
    maximum: Number.POSITIVE_INFINITY,
    summary: 'Say what photos and their files tell: size, fingerprint, blur, JPEG quality, codes.',
    options: {},
    run: async (args) => (await import('./commands/photos.ts')).run(args),
  },
  {
    name: 'compare',
    positionals: 'EXEMPLAR.zip PHOTO…',
    minimum: 2,
    maximum: Number.POSITIVE_INFINITY,
    summary: 'Compare photos with a known-genuine exemplar, point by point.',
    options: {
      corners: { type: 'string', value: '"X,Y …"', help: 'the card’s four corners in one photo, clockwise, in pixels' },
      earlier: { type: 'string', value: 'FILE', help: 'an earlier picture: does it show the same piece?' },
    },
    run: async (args) => (await import('./commands/compare.ts')).run(args),
  },
  {
    name: 'value',
    positionals: 'SALES.csv',
    minimum: 1,
    maximum: 1,
    summary: 'Say what finished sales say about a card and an asked price.',
    options: {
      title: { type: 'string', value: 'WORDS', help: 'what is offered, in the words of a listing (needed)' },
      on: { type: 'string', value: 'DATE', help: 'the day to value for, as 2024-08-31; today if left out' },
      ask: { type: 'string', value: 'N', help: 'the asked price, as 610 or "610 EUR"' },
      graders,
    },
    run: async (args) => (await import('./commands/value.ts')).run(args),
  },
  {
    name: 'bag',
    positionals: 'DOSSIER.json OUT.zip',
    minimum: 1,
    maximum: 2,
    summary: 'Make an evidence bag (BagIt) of an exported dossier, or check one with --verify BAG.',
    options: {
      files: {
        type: 'string',
        value: 'DIR',
        help: 'where its photos lie, found by their hash; beside DOSSIER.json if left out',
      },
      lang: { type: 'string', value: 'en|de', help: 'the language of the report; en if left out' },
      verify: { type: 'boolean', help: 'check the bag that is named, a zip or a folder: 0 valid, 1 not' },
    },
    run: async (args) => (await import('./commands/bag.ts')).run(args),
  },
  {
    name: 'check-rules',
    positionals: 'DIR',
    minimum: 1,
    maximum: 1,
    summary: 'Check rule packs: every fault with its file and its place.',
    options: {},
    run: async (args) => (await import('./commands/check-rules.ts')).run(args),
  },
]
