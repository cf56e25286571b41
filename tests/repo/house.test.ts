/** The conventions of the house that a machine can hold: sizes of files, texts in both languages, licences, leftovers. */
import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'

const tracked = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
  encoding: 'utf8',
})
  .split('\0')
  .filter((path) => path !== '' && existsSync(path))
const code = tracked.filter((path) => /^(src|tests)\/.*\.(ts|tsx|css)$/.test(path))
const packageJson = JSON.parse(readFileSync('package.json', 'utf8'))

/** Lines; a file that needs more says why in its first lines with "Long because". */
const LONGEST_FILE = 400

describe('files', () => {
  it.each(code)('%s does one thing', (path) => {
    const text = readFileSync(path, 'utf8')
    const lines = text.split('\n').length
    const excused = /Long because/.test(text.slice(0, 1500))
    expect(lines <= LONGEST_FILE || excused, `${lines} lines`).toBe(true)
    expect(text).not.toMatch(leftover())
  })

  it('are named in kebab-case, components in PascalCase', () => {
    const odd = tracked
      .filter((path) => /^(src|rules)\//.test(path))
      .filter(
        (path) =>
          !/^[a-z0-9-]+(\.[a-z0-9-]+)*$/.test(nameOf(path)) && !/^[A-Z][A-Za-z]+\.(tsx|css)$/.test(nameOf(path)),
      )
      .filter((path) => nameOf(path) !== 'README.md')
    expect(odd).toEqual([])
  })

  it('have a header that says what they are for', () => {
    const bare = code
      .filter((path) => /^src\/.*\.(ts|tsx)$/.test(path) && !path.endsWith('.d.ts'))
      .filter((path) => !/^(#!.*\n)?\/\*\*/.test(readFileSync(path, 'utf8')))
    expect(bare).toEqual([])
  })
})

describe('texts', () => {
  const languages = readdirSync('assets/_locales')
  const catalogues = readdirSync('assets/_locales/en', { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.json'),
  )
  it.each(catalogues)('%s is complete in every language, with the same places to fill', (file) => {
    const english = readCatalogue('en', file)
    for (const language of languages) {
      const other = readCatalogue(language, file)
      expect(Object.keys(other).sort(), `${language}/${file}`).toEqual(Object.keys(english).sort())
      for (const [key, text] of Object.entries(english)) {
        expect(places(other[key] ?? ''), `${language}/${file}: ${key}`).toEqual(places(text))
        expect((other[key] ?? '').trim(), `${language}/${file}: ${key}`).not.toBe('')
      }
    }
  })
})

it('depends only on what its licence lets it depend on', () => {
  const allowed =
    /^\(?(MIT|ISC|BSD-2-Clause|BSD-3-Clause|Apache-2\.0|MPL-2\.0|CC0-1\.0|0BSD|OFL-1\.1|Unlicense|BlueOak-1\.0\.0)\b/
  const refused = Object.keys({ ...packageJson.dependencies, ...packageJson.devDependencies }).filter((name) => {
    const { license } = JSON.parse(readFileSync(`node_modules/${name}/package.json`, 'utf8'))
    return !allowed.test(String(license))
  })
  expect(refused).toEqual([])
})

it('pins every dependency', () => {
  const loose = Object.entries({ ...packageJson.dependencies, ...packageJson.devDependencies }).filter(
    ([, version]) => !/^\d/.test(String(version)),
  )
  expect(loose).toEqual([])
})

function leftover(): RegExp {
  // Put together from parts, so that this file does not find itself.
  return new RegExp(
    `\\b(${['TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X'].join('|')})\\b|\\b(it|test|describe)\\.(${'sk' + 'ip'}|only|${'to' + 'do'})\\(`,
  )
}

function nameOf(path: string): string {
  return path.split('/').at(-1) ?? path
}

function readCatalogue(language: string, file: string): Record<string, string> {
  const raw = JSON.parse(readFileSync(`assets/_locales/${language}/${file}`, 'utf8')) as Record<
    string,
    string | { message: string }
  >
  return Object.fromEntries(
    Object.entries(raw).map(([key, value]) => [key, typeof value === 'string' ? value : value.message]),
  )
}

function places(text: string): string[] {
  return [...new Set(text.match(/\{\w+\}|\$\w+\$/g) ?? [])].sort()
}
