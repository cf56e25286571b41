// @vitest-environment jsdom
/**
 * The desk: finding, opening, deleting with undo, importing with a report, editing the books.
 * Long because every screen of the desk starts from the same made-up records and ports.
 */
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import { summarise } from '../../../src/domain/dossier-summary.ts'
import { Desk } from '../../../src/ui/desk/Desk.tsx'
import { createDeskModel, formatPlace, parsePlace } from '../../../src/ui/desk/desk-model.ts'
import type { DeskPorts } from '../../../src/ui/desk/desk-ports.ts'
import { dossiers, quietDeskPorts, quietLifePorts } from '../../ui-gallery/quiet-ports.ts'
import { drawScreen, englishWording } from './screen.tsx'

beforeAll(() => {
  // jsdom lays nothing out and makes no object URLs: every element is 800 × 600 here.
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 600 })
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, get: () => 800 })
  URL.createObjectURL = () => 'blob:drawn'
  URL.revokeObjectURL = () => {}
  HTMLDialogElement.prototype.showModal = function () {
    this.open = true
  }
  globalThis.ResizeObserver ??= class {
    observe() {}
    unobserve() {}
    disconnect() {}
  } as never
})
afterEach(() => {
  history.replaceState(null, '', '#')
})

async function drawDesk(hash: string, ports: Partial<DeskPorts> = {}) {
  const model = createDeskModel({ ...quietDeskPorts, ...ports }, hash)
  return { model, ...(await drawScreen(<Desk model={model} wording={englishWording} />)) }
}

const rows = (root: Element) => [...root.querySelectorAll<HTMLElement>('.dossier-row')]

describe('places', () => {
  it.each(['#dossiers', '#dossiers/a%2Fb', '#sales', '#risky-issues'])('%s comes back as it was', (hash) =>
    expect(formatPlace(parsePlace(hash))).toBe(hash),
  )
  it('takes an address that it does not know for the list of dossiers', () =>
    expect(parsePlace('#nowhere/x')).toEqual({ section: 'dossiers', id: null }))

  it('leave what was said of the place before behind, save an undo', async () => {
    const { model, text, change } = await drawDesk('#settings')
    await change(() => model.actions.say('It was imported.'))
    await change(() => model.go({ section: 'rules', id: null }))
    expect(text()).not.toContain('It was imported.')
    await change(() => model.actions.say('Sale deleted.', () => {}))
    await change(() => model.go({ section: 'sales', id: null }))
    expect(text()).toContain('Sale deleted.')
  })

  it('follows the address and takes the focus along', async () => {
    const { root, change } = await drawDesk('#dossiers')
    await change(() => {
      location.hash = '#rules'
      window.dispatchEvent(new HashChangeEvent('hashchange'))
    })
    expect(root.querySelector('h1')?.textContent).toBe('Rules')
    expect(document.activeElement?.tagName).toBe('MAIN')
    expect(document.title).toBe('Rules – Touchstone')
    expect(root.querySelector('[aria-current="page"]')?.textContent).toBe('Rules')
  })
})

describe('rules', () => {
  const ids = (root: Element) => [...root.querySelectorAll('.rules code')].map((code) => code.textContent)

  it('are found by any of their words, in any order, and counted', async () => {
    const { root, type, text } = await drawDesk('#rules')
    const { rules } = await quietDeskPorts.listRules()
    const all = rules.filter(({ own }) => !own)
    expect(ids(root)).toHaveLength(rules.length)
    const [first] = all
    await type('Search rules', first!.title.split(' ').reverse().join(' ').toUpperCase())
    expect(ids(root)).toContain(first!.id)
    const found = ids(root).length - (rules.length - all.length)
    expect(text()).toContain(`${found} of ${all.length} rules`)
    await type('Search rules', 'zzzz')
    expect(ids(root)).toHaveLength(rules.length - all.length)
    expect(text()).toContain('No rule has these words.')
  })

  it('lead to the others of their group', async () => {
    const { root, fire } = await drawDesk('#rules')
    const { rules: all } = await quietDeskPorts.listRules()
    await fire(root.querySelector('button.rule-group')!, new MouseEvent('click', { bubbles: true }))
    const shown = ids(root)
    const first = root.querySelector('.rules-group code')!.textContent
    const { group } = all.find(({ id }) => id === first)!
    expect(shown).toEqual(expect.arrayContaining(all.filter((rule) => rule.group === group).map(({ id }) => id)))
  })
})

describe('dossiers', () => {
  it('teaches when there is none', async () => {
    const { text } = await drawDesk('#dossiers', { listDossiers: async () => [], newestDossiers: async () => [] })
    expect(text()).toContain('Press “Keep”.')
  })

  it('finds by any word of the record and says how many', async () => {
    const { root, type, text } = await drawDesk('#dossiers')
    expect(rows(root)).toHaveLength(3)
    await type('Search', 'lantern hawk')
    expect(rows(root)).toHaveLength(1)
    expect(text()).toContain('1 of 3')
  })

  it('orders by stance, the most urgent first', async () => {
    const { root, type } = await drawDesk('#dossiers')
    await type('Order', 'stance')
    expect(rows(root).map((row) => row.querySelector('strong')?.textContent)).toEqual(['Wait', 'Ask', 'Nothing open'])
  })

  it('is one stop for Tab, and arrow keys, Home and End go through it', async () => {
    const { root, fire } = await drawDesk('#dossiers')
    expect(rows(root).map((row) => row.tabIndex)).toEqual([0, -1, -1])
    rows(root)[0]!.focus()
    const press = (key: string) =>
      fire(document.activeElement!, new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))
    await press('ArrowDown')
    expect(document.activeElement).toBe(rows(root)[1])
    await press('End')
    expect(document.activeElement).toBe(rows(root)[2])
    await press('ArrowDown')
    expect(document.activeElement).toBe(rows(root)[2])
    await press('Home')
    expect(document.activeElement).toBe(rows(root)[0])
    expect(rows(root).map((row) => row.tabIndex)).toEqual([0, -1, -1])
  })

  it('draws a few rows of 20,000', async () => {
    const many = Array.from({ length: 20_000 }, (_, index) => ({ ...summarise(dossiers[0]!), id: `d${index}` }))
    const { root } = await drawDesk('#dossiers', { listDossiers: async () => many })
    // The newest stand there at once; all of them as soon as they are read.
    await expect.poll(() => root.querySelector('.virtual-row')?.getAttribute('aria-setsize')).toBe('20000')
    expect(rows(root).length).toBeGreaterThan(5)
    expect(rows(root).length).toBeLessThan(60)
  })

  it('opens everything that was kept', async () => {
    const { text } = await drawDesk('#dossiers/d1')
    for (const part of [
      'Wait before paying',
      'Genuineness is hedged',
      'SHA-256',
      'Message copied',
      'The page’s text',
      'unknown-grader',
    ])
      expect(text()).toContain(part)
  })

  it('deletes at once and brings it back with undo', async () => {
    const deleteDossier = vi.fn(async () => {})
    const restoreDossier = vi.fn(async () => {})
    const { model, press, text } = await drawDesk('#dossiers/d1', { deleteDossier, restoreDossier })
    await press('Delete')
    expect(deleteDossier).toHaveBeenCalledWith('d1')
    expect(model.place.value).toEqual({ section: 'dossiers', id: null })
    expect(text()).toContain('Dossier deleted.')
    await press('Undo')
    expect(restoreDossier).toHaveBeenCalledWith('d1')
  })

  it('takes down how it ended', async () => {
    const addStep = vi.fn(quietLifePorts.addStep)
    const { type } = await drawDesk('#dossiers/d1', { life: { ...quietLifePorts, addStep } })
    await type('How did it end?', 'altered')
    expect(addStep).toHaveBeenCalledWith('d1', { event: 'closed', detail: '', outcome: 'altered' })
    await type('How did it end?', '')
    expect(addStep).toHaveBeenLastCalledWith('d1', { event: 'closed', detail: '', outcome: null })
  })

  it('exports the opened one alone', async () => {
    const exportDossier = vi.fn(async () => {})
    const { press } = await drawDesk('#dossiers/d1', { exportDossier })
    await press('Export')
    expect(exportDossier).toHaveBeenCalledWith('d1')
  })

  it('tells in words what happened to it', async () => {
    const [first] = dossiers
    const at = '2026-11-24T10:00:00Z'
    const { root } = await drawDesk('#dossiers/d1', {
      openDossier: async () => ({
        ...first!,
        log: [
          { at, event: 'concern-settled', detail: 'screw-down-holder: a photo: out of the holder' },
          { at, event: 'concern-settled', detail: 'screw-down-holder: –' },
          { at, event: 'note', detail: `${first!.photos[1]!.url}: label` },
          { at, event: 'note', detail: `${first!.photos[1]!.url}: –` },
          { at, event: 'outcome', detail: 'altered' },
          { at, event: 'outcome', detail: '' },
        ],
      }),
    })
    expect([...root.querySelectorAll('.log li > :last-child')].map((line) => line.textContent)).toEqual([
      'Concern settled Screw-down holder: a photo: out of the holder',
      'Concern opened again Screw-down holder',
      'Photo 2 shows, by your word: Close-up of the label',
      'Photo 2 left to the examination again ',
      'How it ended: altered',
      'How it ended: still open',
    ])
  })

  it('enlarges a photo, goes to the next and comes back with the last to the first', async () => {
    const { root, fire, buttons } = await drawDesk('#dossiers/d1')
    // The kept bytes come one by one.
    await vi.waitFor(() => expect(buttons('Enlarge photo 1').length).toBeGreaterThan(0))
    await fire(buttons('Enlarge photo 1').at(-1)!, new MouseEvent('click', { bubbles: true }))
    const dialog = root.querySelector('dialog')!
    const key = (name: string) =>
      fire(dialog, new KeyboardEvent('keydown', { key: name, bubbles: true, cancelable: true }))
    expect(dialog.textContent).toContain('Photo 1 of 4')
    await key('ArrowRight')
    expect(dialog.textContent).toContain('Photo 2 of 4')
    await key('ArrowLeft')
    await key('ArrowLeft')
    expect(dialog.textContent).toContain('Photo 4 of 4')
    await fire(dialog, new Event('close'))
    expect(root.querySelector('dialog')).toBeNull()
  })

  it('says so when the dossier is gone', async () => {
    const { text } = await drawDesk('#dossiers/nowhere')
    expect(text()).toContain('This dossier is no longer there.')
  })
})

const choose = (field: HTMLInputElement, file: File) => {
  Object.defineProperty(field, 'files', { configurable: true, value: [file] })
  return new Event('change', { bubbles: true })
}

describe('sales', () => {
  it('asks what a file leaves open, checks every row, and adds only when told to', async () => {
    const checkCsv = vi.fn(quietDeskPorts.checkCsv)
    const importCsv = vi.fn(quietDeskPorts.importCsv)
    const { root, press, text, fire } = await drawDesk('#sales', { checkCsv, importCsv })
    await press('From a CSV file')
    const field = root.querySelector<HTMLInputElement>('input[type="file"]')!
    await fire(field, choose(field, new File(['x'], 'sales.csv')))
    expect(text()).toContain('“03/04/2026”: which comes first?')
    const check = [...root.querySelectorAll('button')].find(({ textContent }) => textContent === 'Check every row')!
    expect(check.disabled).toBe(true)
    const order = [...root.querySelectorAll('select')].find((select) => select.textContent?.includes('the month'))!
    order.value = 'day-first'
    await fire(order, new Event('change', { bubbles: true }))
    await press('Check every row')
    expect(checkCsv).toHaveBeenCalledWith(
      expect.anything(),
      expect.objectContaining({ dateOrder: 'day-first' }),
      expect.anything(),
    )
    expect(text()).toContain('12 sales can be added.')
    expect(text()).toContain('2 are in the ledger already.')
    expect(text()).toContain('Line 7: the price "on request" is no amount')
    expect(importCsv).not.toHaveBeenCalled()
    await press('Add 12 sales')
    expect(importCsv).toHaveBeenCalledTimes(1)
    expect(text()).toContain('12 sales added')
  })

  it('shows a sale that is not counted hollow, with its reason, and lifts the mark', async () => {
    const liftMark = vi.fn(async () => {})
    const { root, press, text, fire } = await drawDesk('#sales', { liftMark })
    await vi.waitFor(() => expect(root.querySelector('.ledger-row.is-hollow')).not.toBeNull())
    const hollow = root.querySelector('.ledger-row.is-hollow')!
    expect(hollow.textContent).toContain('you do not count it: sold with three other cards')
    await fire(hollow, new MouseEvent('click', { bubbles: true }))
    await press('Count again')
    expect(liftMark).toHaveBeenCalledWith('m1')
    expect(text()).toContain('Counted again.')
  })
})

describe('books', () => {
  it('saves a grader with every field', async () => {
    const saveGrader = vi.fn(async () => {})
    const { press, type, submit } = await drawDesk('#graders', { saveGrader, listGraders: async () => [] })
    await press('Add a grader')
    await type('Abbreviations', 'KVX, Kestrel')
    await type('Name', 'Kestrel Vault Examiners')
    await type('Digits in certificate numbers', '7, 8')
    await type('Look-up address', 'http://kvx.example/')
    await submit('form')
    expect(saveGrader).not.toHaveBeenCalled()
    await type('Look-up address', 'https://kvx.example/{certificate}')
    await submit('form')
    expect(saveGrader).toHaveBeenCalledWith(
      {
        name: 'Kestrel Vault Examiners',
        abbreviations: ['KVX', 'Kestrel'],
        accepted: true,
        certificateDigits: [7, 8],
        lookUp: 'https://kvx.example/{certificate}',
      },
      null,
    )
  })

  it('keeps what the form does not show', async () => {
    const saveGrader = vi.fn(async () => {})
    const grader = {
      id: 'g',
      name: 'OLQ',
      abbreviations: ['OLQ'],
      accepted: true,
      qualifiers: { OC: 'off-centre' },
      halfGrades: true,
    }
    const { press, submit } = await drawDesk('#graders', { saveGrader, listGraders: async () => [grader] })
    await press('Edit: OLQ')
    await submit('form')
    const { id, ...kept } = grader
    expect(saveGrader).toHaveBeenCalledWith(kept, id)
  })

  it('deletes a risky issue and offers to undo', async () => {
    const restoreRiskyIssue = vi.fn(async () => {})
    const { press } = await drawDesk('#risky-issues', { restoreRiskyIssue })
    await press('Delete: Skerryball Stars 1931 no. 14')
    await press('Undo')
    expect(restoreRiskyIssue).toHaveBeenCalledWith('r1')
  })
})

describe('settings', () => {
  it('exports with progress and can be cancelled without an error', async () => {
    let signal: AbortSignal | null = null
    const { press, text } = await drawDesk('#settings', {
      exportAll: (progress) =>
        new Promise((_, reject) => {
          signal = progress.signal
          progress.onProgress(0.4)
          progress.signal.addEventListener('abort', () => reject(progress.signal.reason))
        }),
    })
    await press('Export everything')
    expect(document.querySelector('progress')?.value).toBe(0.4)
    await press('Cancel')
    expect(signal!.aborted).toBe(true)
    expect(text()).toContain('Export everything')
    expect(text()).not.toContain('Something went wrong')
  })

  it('names what an import did', async () => {
    const { root, fire, text } = await drawDesk('#settings')
    const field = root.querySelector<HTMLInputElement>('input[accept*="zip"]')!
    await fire(field, choose(field, new File(['x'], 'backup.zip')))
    expect(text()).toContain('3 added, 0 replaced, 1 were here already.')
  })

  it('takes a shared list in and says what it added', async () => {
    const importList = vi.fn(quietDeskPorts.importList)
    const { root, fire, text } = await drawDesk('#settings', { importList })
    const field = root.querySelector<HTMLInputElement>('.share-list input[type="file"]')!
    await fire(field, choose(field, new File(['x'], 'hints.json')))
    expect(importList.mock.calls[0]?.[0]).toBe('site-hints')
    expect(text()).toContain('2 added, 1 were here already.')
  })

  it('changes the currency and carries the limit along', async () => {
    const changeSettings = vi.fn(quietDeskPorts.changeSettings)
    const { type } = await drawDesk('#settings', { changeSettings })
    await type('Your currency', 'CHF')
    expect(changeSettings).toHaveBeenCalledWith({ currency: 'CHF', highValue: { amount: '500', currency: 'CHF' } })
  })
})
