/**
 * `npm test`: every check of the house in the order in which it fails fastest, each as a process of its own.
 * Prints one line a step and, last, how many passed. Goes on after a failure, so that one run tells all.
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, writeFileSync } from 'node:fs'

interface Step {
  readonly name: string
  readonly command: readonly string[]
  /** Looks at what a step printed and says what is wrong with it although it exited 0. */
  readonly verify?: (output: string) => string | null
}

const TYPE_PROJECTS = [
  'tsconfig.json',
  'src/domain/tsconfig.json',
  'src/page/tsconfig.json',
  'src/marking/tsconfig.json',
]

const STEPS: readonly Step[] = [
  { name: 'lint', command: ['biome', 'ci', '--colors=off', '.'] },
  ...TYPE_PROJECTS.map((project) => ({ name: `types (${project})`, command: ['tsc', '--noEmit', '-p', project] })),
  {
    name: 'direction of imports',
    command: ['depcruise', 'src', 'rules', '--config', '.dependency-cruiser.cjs'],
    // A wrong TypeScript version makes it see nothing and call that clean.
    verify: (output) =>
      Number(/\((\d+) modules/.exec(output)?.[1] ?? 0) > 50 ? null : 'fewer than 50 modules were looked at',
  },
  { name: 'unused files and exports', command: ['knip'] },
  { name: 'unit, page, imaging, storage, repo', command: ['vitest', 'run'] },
  { name: 'build', command: ['npm', 'run', '--silent', 'build'] },
  { name: 'size budgets', command: ['size-limit'] },
  {
    name: 'manifest (web-ext lint)',
    command: ['web-ext', 'lint', '--source-dir', 'dist/firefox', '--output', 'text', '--no-config-discovery'],
  },
  { name: 'end to end', command: ['npm', 'run', '--silent', 'e2e'] },
]

const only = process.argv.slice(2)
let passed = 0
const failed: string[] = []
mkdirSync('.cache', { recursive: true })
for (const step of STEPS) {
  if (only.length > 0 && !only.some((word) => step.name.includes(word))) continue
  const started = performance.now()
  const [program, ...args] = step.command
  const run = spawnSync(program === 'npm' ? 'npm' : `node_modules/.bin/${program}`, args, {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    env: { ...process.env, FORCE_COLOR: '0', NO_COLOR: '1' },
  })
  const output = `${run.stdout ?? ''}${run.stderr ?? ''}${run.error === undefined ? '' : String(run.error)}`
  const fault = run.status === 0 ? (step.verify?.(output) ?? null) : `exit ${run.status}`
  const seconds = ((performance.now() - started) / 1000).toFixed(1)
  writeFileSync(`.cache/test-${step.name.replace(/\W+/g, '-')}.log`, output)
  if (fault === null) passed++
  else failed.push(step.name)
  console.log(
    `${fault === null ? 'ok    ' : 'FAILED'} ${step.name} (${seconds} s)${fault === null ? '' : `: ${fault}`}`,
  )
  if (fault !== null) console.log(output.split('\n').slice(-120).join('\n'))
  else
    for (const line of output.split('\n'))
      if (/left out|skipped:|cannot be tested/i.test(line)) console.log(`       ${line.trim()}`)
}
if (failed.length > 0) console.log(`failed: ${failed.join(', ')}`)
console.log(`${passed} passed, ${failed.length} failed`)
process.exit(failed.length === 0 && passed > 0 ? 0 : 1)
