/**
 * `npm run bench [-- NAME…]`: runs the measurements of this folder one after the other and says on what machine.
 * Every figure that the documents state comes from here. Seeds are fixed.
 */
import { spawnSync } from 'node:child_process'
import { readdirSync } from 'node:fs'
import { arch, cpus, hostname, platform, release, totalmem } from 'node:os'
import { basename, join } from 'node:path'

const wanted = process.argv.slice(2)
const names = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.bench.ts'))
  .map((file) => basename(file, '.bench.ts'))
const chosen = names.filter((name) => wanted.length === 0 || wanted.includes(name))
const unknown = wanted.filter((name) => !names.includes(name))
if (unknown.length > 0) {
  console.error(`There is no bench ${unknown.join(', ')}. There are: ${names.join(', ')}.`)
  process.exit(2)
}

const processors = cpus()
console.log(
  `Machine ${hostname()}: ${processors.length} × ${processors[0]?.model.trim() || 'unnamed processor'}, ` +
    `${Math.round(totalmem() / 2 ** 30)} GiB, ${platform()} ${release()} ${arch()}, Node ${process.versions.node}`,
)
let failed = 0
for (const name of chosen) {
  console.log(`\n── ${name} ──`)
  const run = spawnSync('node_modules/.bin/tsx', [join(import.meta.dirname, `${name}.bench.ts`)], { stdio: 'inherit' })
  if (run.status !== 0) failed++
}
process.exitCode = failed === 0 ? 0 : 1
