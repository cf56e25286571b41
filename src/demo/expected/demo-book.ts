/** What the demo's buyer knows: graders, risky issues, limits, sales. Read from the files that the command line also takes. */
import { readFileSync } from 'node:fs'
import type { Book, Grader, RiskyIssue } from '../../domain/grader-book.ts'
import type { Settings } from '../../domain/settings.ts'

function readJson(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../${name}`, import.meta.url), 'utf8'))
}

export const DEMO_GRADERS = readJson('graders.json') as readonly Grader[]
export const DEMO_RISKY_ISSUES = readJson('risky-issues.json') as readonly RiskyIssue[]
export const DEMO_SETTINGS = readJson('settings.json') as Settings

export const DEMO_BOOK: Book = {
  graders: DEMO_GRADERS,
  riskyIssues: DEMO_RISKY_ISSUES,
  limits: { highValue: DEMO_SETTINGS.highValue },
  settled: {},
}
