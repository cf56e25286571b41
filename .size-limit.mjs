/**
 * Budgets in gzipped bytes. A page of ours is counted with all that its HTML loads before it shows anything: the chunks that are
 * imported statically, found in the built files; workers and what is loaded when it is asked for are not in it.
 */
import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

const DIST = 'dist/chromium'
const STATIC_IMPORT = /(?:import|from)\s*["'](\.\.?\/[^"']+\.js)["']/g

function loadedBy(page) {
  const html = join(DIST, page, 'index.html')
  if (!existsSync(html)) throw new Error(`${html} is not there: build first`)
  const waiting = [...readFileSync(html, 'utf8').matchAll(/(?:src|href)="\/?([^"]+\.js)"/g)].map(([, file]) =>
    join(DIST, file),
  )
  const loaded = new Set()
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (loaded.has(file)) continue
    loaded.add(file)
    for (const [, next] of readFileSync(file, 'utf8').matchAll(STATIC_IMPORT)) waiting.push(join(dirname(file), next))
  }
  return [...loaded]
}

export default [
  { name: 'page script', path: `${DIST}/content/*.js`, limit: '76 kB', gzip: true },
  { name: 'panel, all that it loads before it shows anything', path: loadedBy('panel'), limit: '285 kB', gzip: true },
  { name: 'desk, all that it loads before it shows anything', path: loadedBy('desk'), limit: '430 kB', gzip: true },
]
