/**
 * `npm run e2e`: builds the extension, finds both browsers (or installs Debian's, where that is possible), and runs the flows
 * in each. A browser that is not there is skipped with a line that says so; in CI that is a failure.
 */
import { spawnSync } from 'node:child_process'
import { type Family, findBrowser, installBrowser } from '../../src/demo/browsers.ts'

const FAMILIES: readonly Family[] = ['chromium', 'firefox']

const present: Family[] = []
for (const family of FAMILIES) {
  if (findBrowser(family) ?? installBrowser(family)) present.push(family)
  else console.log(`skipped: ${family} is not installed here, so nothing was tried in it`)
}
if (present.length < FAMILIES.length && process.env.CI) {
  console.error('CI does not skip a browser')
  process.exit(1)
}
if (present.length === 0) process.exit(0)

function run(program: string, ...args: string[]): void {
  const { status } = spawnSync(process.execPath, [program, ...args], {
    stdio: 'inherit',
    env: { ...process.env, TOUCHSTONE_E2E_BROWSERS: present.join(',') },
  })
  if (status !== 0) process.exit(status ?? 1)
}

for (const family of present) run('node_modules/vite/bin/vite.js', 'build', '--mode', family, '--logLevel', 'warn')
run('node_modules/vitest/vitest.mjs', 'run', '--config', 'tests/e2e/vitest.config.ts', ...process.argv.slice(2))
