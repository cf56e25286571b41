/** The command line as scripts use it: exit codes, one clear line for bad input, JSON that parses. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { COMMANDS } from '../../../src/cli/commands.ts'
import { runCommand } from '../../../src/cli/run-command.ts'

const folder = mkdtempSync(join(tmpdir(), 'touchstone-cli-'))
afterAll(() => rmSync(folder, { recursive: true }))

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

async function run(...argv: string[]) {
  const out: string[] = []
  const error: string[] = []
  const code = await runCommand(argv, { out: (text) => out.push(text), error: (text) => error.push(text) })
  return { code, out: out.join('\n'), error: error.join('\n') }
}

const PAGE = file(
  'page.html',
  `<!doctype html><title>Offer</title><script type="application/ld+json">${JSON.stringify({
    '@context': 'https://schema.org',
    '@type': 'Product',
    name: '1958 Aurunda Tidal League #12 Odo Marrable KVX 6',
    image: ['https://images.quayside.example/a/front.jpg', 'https://images.quayside.example/a/back.jpg'],
    offers: { '@type': 'Offer', price: '610.00', priceCurrency: 'EUR' },
  })}</script><h1>1958 Aurunda Tidal League #12 Odo Marrable KVX 6</h1><p>610.00 EUR</p>`,
)
const EMPTY = file('empty.html', '<!doctype html><title>Weather</title><p>It rains.</p>')
const SALES = file('sales.csv', 'date,title,price,currency,venue,seller,url\n2024-05-01,Aurunda,12.00,EUR,,,\n')
const GRADERS = file(
  'graders.json',
  JSON.stringify([{ name: 'Kestrel Vault Examiners', abbreviations: ['KVX'], accepted: true }]),
)

describe('bad input leaves with 2 and one line', () => {
  it.each<[string, string[], RegExp]>([
    ['no such command', ['fetch'], /no command "fetch"/],
    ['no argument', ['read'], /Usage: touchstone read PAGE\.html/],
    ['too many arguments', ['read', PAGE, PAGE], /Usage/],
    ['an option that there is not', ['read', PAGE, '--colour'], /--colour/],
    ['an option without its value', ['inspect', PAGE, '--sales'], /--sales/],
    ['no such file', ['read', join(folder, 'nowhere.html')], /nowhere\.html: there is no such file\.$/],
    ['a folder for a file', ['read', folder], /it is a folder/],
    ['an address that is none', ['read', PAGE, '--url', 'quayside'], /not an http address/],
    ['a page without a listing', ['inspect', EMPTY], /no listing was found/],
    ['graders that are no JSON', ['inspect', PAGE, '--graders', file('g1.json', '[')], /is not JSON/],
    [
      'graders with a fault',
      ['inspect', PAGE, '--graders', file('g2.json', '[{"name":"KVX","abbreviations":"KVX"}]')],
      /0\.abbreviations/,
    ],
    [
      'a look-up address without https',
      [
        'inspect',
        PAGE,
        '--graders',
        file('g3.json', '[{"name":"K","abbreviations":[],"accepted":true,"lookUp":"javascript:{certificate}"}]'),
      ],
      /0\.lookUp/,
    ],
    ['sales without a header', ['inspect', PAGE, '--sales', file('s1.csv', '1,2,3\n')], /header/],
    ['no such language', ['request', PAGE, '--lang', 'xx'], /--lang/],
    ['a limit that is no amount', ['inspect', PAGE, '--high-value', 'lots'], /--high-value/],
    ['no such folder of photos', ['inspect', PAGE, '--photos', join(folder, 'none')], /--photos.*no such file/],
    ['an empty title', ['claim', ' '], /empty/],
    ['value without a title', ['value', SALES], /--title/],
    ['a day that is none', ['value', SALES, '--title', 'x', '--on', '31.8.2024'], /--on/],
    ['a folder without packs', ['check-rules', file('x.txt', '') && folder.replace(/$/, '/none')], /none/],
    ['an exemplar that is no zip', ['compare', PAGE, PAGE], /no zip file/],
    ['corners that make no card', ['compare', PAGE, PAGE, '--corners', '1,1 2,2 3,3'], /--corners/],
  ])('%s', async (_, argv, message) => {
    const { code, out, error } = await run(...argv)
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(error).toMatch(message)
    expect(error.split('\n')).toHaveLength(1)
  })
})

describe('read', () => {
  it('says kind none for a page without a listing, and leaves with 0', async () => {
    const { code, out } = await run('read', EMPTY, '--json')
    expect(code).toBe(0)
    expect(JSON.parse(out)).toMatchObject({ kind: 'none' })
  })

  it('reads a listing, resolved against --url', async () => {
    const { code, out } = await run('read', PAGE, '--url', 'https://quayside.example/lot/7', '--json')
    expect(code).toBe(0)
    expect(JSON.parse(out)).toMatchObject({
      kind: 'listing',
      url: 'https://quayside.example/lot/7',
      price: { amount: '610.00', currency: 'EUR' },
      photos: [
        { url: 'https://images.quayside.example/a/front.jpg' },
        { url: 'https://images.quayside.example/a/back.jpg' },
      ],
    })
  })

  it('explains where a field came from', async () => {
    const { out } = await run('read', PAGE, '--explain')
    expect(out).toMatch(/Where each field came from/)
    expect(out).toMatch(/price\s+(json-ld|page)\s+0\.\d+/)
  })

  it.each([
    ['bytes that are no text', Uint8Array.from({ length: 3000 }, (_, i) => (i * 91) % 256)],
    ['nothing', ''],
    ['a thousand open tags', '<div>'.repeat(1000)],
  ])('survives %s', async (_, content) => {
    const { code, out } = await run('read', file('odd.html', content as string), '--json')
    expect(code).toBe(0)
    expect(JSON.parse(out)).toHaveProperty('kind')
  })
})

describe('help', () => {
  it('lists every command', async () => {
    const { code, out } = await run('--help')
    expect(code).toBe(0)
    for (const { name } of COMMANDS) expect(out).toContain(name)
  })

  it.each(COMMANDS.map(({ name }) => name))('%s --help lists its options', async (name) => {
    const { code, out } = await run(name, '--help')
    expect(code).toBe(0)
    expect(out).toContain('--json')
  })

  it('without a command it is bad input', async () => {
    expect((await run()).code).toBe(2)
  })
})

describe('claim, inspect, request', () => {
  it('claim gives one object for one card', async () => {
    const { code, out } = await run(
      'claim',
      '1958 Aurunda Tidal League #12 Odo Marrable KVX 6',
      '--json',
      '--graders',
      GRADERS,
    )
    expect(code).toBe(0)
    expect(JSON.parse(out)).toMatchObject({ year: '1958', cardNumber: '12', grade: '6', encapsulation: 'encapsulated' })
  })

  it('inspect decides on what the options give', async () => {
    const { code, out } = await run('inspect', PAGE, '--json', '--graders', GRADERS, '--high-value', '100 EUR')
    expect(code).toBe(0)
    const inspection = JSON.parse(out)
    expect(inspection).toMatchObject({ listing: { kind: 'listing' }, claim: { grade: '6' } })
    expect(inspection.concerns.map((concern: { rule: string }) => concern.rule)).not.toContain('unknown-grader')
    const unknown = JSON.parse((await run('inspect', PAGE, '--json')).out)
    expect(unknown.concerns.map((concern: { rule: string }) => concern.rule)).toContain('unknown-grader')
  })

  it('request writes in the language that is asked for', async () => {
    const [english, german] = [await run('request', PAGE), await run('request', PAGE, '--lang', 'de')]
    expect([english.code, german.code]).toEqual([0, 0])
    expect(english.out).toMatch(/please/i)
    expect(german.out).toMatch(/bitte/i)
  })
})

describe('check-rules', () => {
  it('finds no fault in our own packs', async () => {
    expect(await run('check-rules', 'rules')).toMatchObject({ code: 0, error: '' })
  })

  it('names file, place and fault, and leaves with 2', async () => {
    const packs = mkdtempSync(join(folder, 'packs-'))
    writeFileSync(join(packs, 'broken.json'), '{"kind":')
    writeFileSync(join(packs, 'strange.json'), '{"kind":"spell"}')
    const { code, out, error } = await run('check-rules', packs, '--json')
    expect(code).toBe(2)
    expect(error).toMatch(/2 faults in 2 packs/)
    expect(JSON.parse(out).faults.map(({ file: name }: { file: string }) => name)).toEqual([
      'broken.json',
      'strange.json',
    ])
  })
})
