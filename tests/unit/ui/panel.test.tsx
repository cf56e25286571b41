// @vitest-environment jsdom
/**
 * What a person does in the panel reaches the right port with the right words, and what comes back is said.
 * Long because every state of the panel starts from the same made-up listing and ports.
 */
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import { Fault } from '../../../src/ui/fault.ts'
import { Panel } from '../../../src/ui/panel/Panel.tsx'
import { createPanelModel } from '../../../src/ui/panel/panel-model.ts'
import type { PanelPorts } from '../../../src/ui/panel/panel-ports.ts'
import type { ListingState, PanelState } from '../../../src/ui/panel/panel-state.ts'
import { quietPanelPorts } from '../../ui-gallery/quiet-ports.ts'
import { cleanState, listingState, unseenState } from '../../ui-gallery/samples.ts'
import { drawScreen, englishWording } from './screen.tsx'

beforeAll(() => {
  // jsdom has the element and not its methods.
  HTMLDialogElement.prototype.showModal = function () {
    this.open = true
  }
})
afterEach(() => vi.restoreAllMocks())

async function drawPanel(state: PanelState, ports: Partial<PanelPorts> = {}) {
  const model = createPanelModel({ ...quietPanelPorts, ...ports }, state)
  return { model, ...(await drawScreen(<Panel model={model} wording={englishWording} />)) }
}

const without = <K extends keyof ListingState>(change: Pick<ListingState, K>): ListingState => ({
  ...listingState,
  ...change,
})

describe('what is offered', () => {
  it('shows markup of the page as text and characters that hide as their code', async () => {
    const { root, text } = await drawPanel(unseenState)
    expect(root.querySelector('b')).toBeNull()
    expect(text()).toContain('<b>rare</b>')
    expect([...root.querySelectorAll('.offered .hidden-character')].map((element) => element.textContent)).toEqual([
      'U+200B',
      'U+202E',
    ])
    expect(root.querySelector('[data-notice="hidden"]')?.textContent).toContain('U+200B and U+202E')
  })

  it('names what is not stated instead of listing empty fields', async () => {
    const { root } = await drawPanel(listingState)
    expect(root.querySelector('.offered > .not-stated')?.textContent).toBe('Not stated: Certificate.')
    expect([...root.querySelectorAll('.offered dt')].map((term) => term.textContent)).not.toContain('Certificate')
  })

  it('explains a field on focus, goes to it on a click, and closes with Escape without losing focus', async () => {
    const scrollTo = vi.fn(async () => true)
    const { root, button, fire } = await drawPanel(listingState, { scrollTo })
    const price = button('€610.00')
    await fire(price, new FocusEvent('focus'))
    expect(root.querySelector('[role="tooltip"]')?.textContent).toContain('The page as shown')
    expect(price.getAttribute('aria-describedby')).toBe(root.querySelector('[role="tooltip"]')?.id)
    await fire(price, new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }))
    expect(root.querySelector('[role="tooltip"]')).toBeNull()
    await fire(price, new MouseEvent('click', { bubbles: true }))
    expect(scrollTo).toHaveBeenCalledWith({ where: '#main', quote: 'Current bid: €610.00' })
  })

  it('says so when the place is no longer on the page', async () => {
    const { button, fire, text } = await drawPanel(listingState, { scrollTo: async () => false })
    await fire(button(/ZWY 8 NM-MT.*Title/), new MouseEvent('click', { bubbles: true }))
    expect(text()).toContain('The page does not show these words any more.')
  })

  it('shows both values where the page and its data disagree', async () => {
    const { root } = await drawPanel(listingState)
    const words = root.querySelector('[data-notice="disagreement-price"]')?.textContent
    expect(words).toContain('€610.00')
    expect(words).toContain('490.00')
  })
})

describe('photos', () => {
  it('open enlarged from a view and from the photos, and leave out what was not looked at', async () => {
    const [first, second, ...others] = listingState.photos
    const photos = [{ ...first!, thumbnail: null }, second!, ...others]
    const { root, buttons, fire } = await drawPanel({ ...listingState, photos })
    expect(buttons('Enlarge photo 1')).toEqual([])
    expect(buttons('Enlarge photo 2').length).toBeGreaterThan(1)
    for (const button of buttons('Enlarge photo 2')) {
      await fire(button, new MouseEvent('click', { bubbles: true }))
      const dialog = root.querySelector('dialog')!
      expect(dialog.open).toBe(true)
      expect(dialog.textContent).toContain(`Photo 1 of ${photos.length - 1}`)
      expect(dialog.querySelector('img')?.getAttribute('src')).toBe(second!.thumbnail)
      await fire(dialog, new Event('close'))
      expect(root.querySelector('dialog')).toBeNull()
    }
  })

  it('are shown pixel for pixel, and then the arrow keys scroll', async () => {
    const { root, buttons, fire, press } = await drawPanel(listingState)
    await fire(buttons('Enlarge photo 1')[0]!, new MouseEvent('click', { bubbles: true }))
    const dialog = root.querySelector('dialog')!
    const pane = dialog.querySelector('.viewer-pane')!
    const right = () => new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true, cancelable: true })
    await press('Pixel for pixel')
    expect(pane.classList).not.toContain('is-whole')
    await fire(pane, right())
    expect(dialog.textContent).toContain('Photo 1 of 4')
    await press('Pixel for pixel')
    await fire(pane, right())
    expect(dialog.textContent).toContain('Photo 2 of 4')
  })
})

describe('concerns', () => {
  it('shows quote, reason, request, what settles it and what its weight rests on', async () => {
    const { root } = await drawPanel(listingState)
    const words = root.querySelector('[data-rule="screw-down-holder"]')?.textContent
    for (const part of [
      'medium',
      'comes in a screw-down case',
      'its pressure can alter a card',
      'Out of the holder, Edges and Light from the side',
      'Photos of the card out of the holder.',
      'assumed from practice',
    ])
      expect(words).toContain(part)
    expect(root.querySelector('[data-rule="price-far-below-sales"]')?.textContent).toContain('learned from 23 outcomes')
  })

  it('reads a few whole, and of many only the strong ones until one is asked for', async () => {
    const { model, root, change } = await drawPanel(listingState)
    const open = listingState.inspection.concerns.filter(({ settledBy }) => settledBy === null)
    expect(open.length).toBeGreaterThan(3)
    const isWhole = (rule: string) => root.querySelector<HTMLDetailsElement>(`[data-rule="${rule}"] details`)?.open
    for (const { rule, strength } of open) expect(isWhole(rule)).toBe(strength === 'strong')
    await change(() => model.focusConcern('hedged-authenticity'))
    expect(isWhole('hedged-authenticity')).toBe(true)
    const few = { ...listingState.inspection, concerns: open.slice(-2) }
    await change(() => model.show(without({ inspection: few })))
    for (const { rule } of few.concerns) expect(isWhole(rule)).toBe(true)
  })

  it('asks why before it settles, and offers to undo', async () => {
    const settle = vi.fn(async () => {})
    const unsettle = vi.fn(async () => {})
    const { press, type, button, submit } = await drawPanel(listingState, { settle, unsettle })
    await press('Settle it: Screw-down holder')
    expect(document.activeElement?.tagName).toBe('INPUT')
    expect(button('Settle it').disabled).toBe(true)
    await submit('.settle-form')
    expect(settle).not.toHaveBeenCalled()
    await type('Why is this settled?', '  seller sent the photo ')
    await submit('.settle-form')
    expect(settle).toHaveBeenCalledWith('screw-down-holder', 'seller sent the photo')
    await press('Undo')
    expect(unsettle).toHaveBeenCalledWith('screw-down-holder')
  })

  it('opens a settled one again', async () => {
    const unsettle = vi.fn(async () => {})
    const { press } = await drawPanel(listingState, { unsettle })
    await press('Open again: No returns')
    expect(unsettle).toHaveBeenCalledWith('no-returns')
  })

  it('leaves the focus where one can go on', async () => {
    const { press, type, submit, root } = await drawPanel(listingState)
    await press('Settle it: Screw-down holder')
    await press('Cancel')
    expect(document.activeElement?.getAttribute('aria-label')).toBe('Settle it: Screw-down holder')
    await press('Settle it: Screw-down holder')
    await type('Why is this settled?', 'photo came')
    await submit('.settle-form')
    expect(document.activeElement).toBe(root.querySelector('#concerns-heading'))
  })

  it('keeps the focus in the panel when its control is gone', async () => {
    const { model, button, change, root } = await drawPanel(listingState)
    await change(() => button('Do not accept').focus())
    await change(() => model.show(without({ unknownGrader: null })))
    expect(document.activeElement).toBe(root.querySelector('main'))
  })

  it('brings forward the one that the page asks for', async () => {
    const { model, change } = await drawPanel(listingState)
    await change(() => model.focusConcern('hedged-authenticity'))
    expect(document.activeElement?.getAttribute('data-rule')).toBe('hedged-authenticity')
  })

  it('says of "nothing open" that it proves nothing', async () => {
    const { root } = await drawPanel(cleanState)
    expect(root.querySelector('.stance')?.textContent).toContain('That is no proof that the card is genuine.')
  })
})

describe('views', () => {
  it('takes the word of a person for what a photo shows, by choice', async () => {
    const assignView = vi.fn(async () => {})
    const { type } = await drawPanel(listingState, { assignView })
    await type('Photo 3 shows', 'edges')
    expect(assignView).toHaveBeenCalledWith(listingState.photos[2]!.url, 'edges')
    await type('Photo 4 shows', '')
    expect(assignView).toHaveBeenLastCalledWith(listingState.photos[3]!.url, null)
  })

  it('gives a photo back to what it was before', async () => {
    const assignView = vi.fn(async () => {})
    const { type, press } = await drawPanel(listingState, { assignView })
    const { url, assigned } = listingState.photos[2]!
    await type('Photo 3 shows', 'edges')
    await press('Undo')
    expect(assignView).toHaveBeenLastCalledWith(url, assigned)
  })

  it('takes a photo that is dragged onto a line', async () => {
    const assignView = vi.fn(async () => {})
    const { root, fire } = await drawPanel(listingState, { assignView })
    const row = [...root.querySelectorAll('.view-row')].find((element) =>
      /Back of the holder/.test(element.textContent ?? ''),
    )!
    const drop = new Event('drop', { bubbles: true, cancelable: true })
    Object.assign(drop, { dataTransfer: { types: [], getData: () => listingState.photos[1]!.url } })
    await fire(row, drop)
    expect(assignView).toHaveBeenCalledWith(listingState.photos[1]!.url, 'holder-back')
  })

  it('asks for the site from a press, and says for which hosts', async () => {
    const requestSite = vi.fn(async () => 'granted' as const)
    const { root, press } = await drawPanel(unseenState, { requestSite })
    expect(root.querySelector('[data-notice="photos"]')?.textContent).toContain('photos.quayside-lots.example')
    await press('Look at the photos on this site')
    expect(requestSite).toHaveBeenCalledOnce()
  })

  it('counts while photos are looked at, and can be stopped', async () => {
    const cancelPhotos = vi.fn()
    const { root, fire } = await drawPanel(without({ photoProgress: { done: 3, total: 12 } }), { cancelPhotos })
    const note = root.querySelector('[data-notice="progress"]')!
    expect(note.textContent).toContain('Looking at photo 3 of 12')
    await fire(note.querySelector('button')!, new MouseEvent('click', { bubbles: true }))
    expect(cancelPhotos).toHaveBeenCalledOnce()
  })
})

describe('the message', () => {
  it('copies what stands in the box', async () => {
    const copyText = vi.fn(async (_text: string) => {})
    const { type, press, text } = await drawPanel(listingState, { copyText })
    await type('Text of the message', 'Hello, one photo of the back, please.')
    await press('Copy')
    expect(copyText).toHaveBeenCalledWith('Hello, one photo of the back, please.')
    expect(text()).toContain('Message copied.')
  })

  it('counts against the limit of the page and refuses to overfill its box', async () => {
    const { button, text, type } = await drawPanel(unseenState)
    expect(text()).toContain('414 of 400 characters: too long for this page')
    expect(button('Put into the page’s box').disabled).toBe(true)
    await type('Text of the message', 'Short.')
    expect(button('Put into the page’s box').disabled).toBe(false)
  })

  it('passes on why the box did not take it', async () => {
    const { press, text } = await drawPanel(listingState, {
      fillMessage: async () => ({ filled: false, reason: 'The box is read-only.' }),
    })
    await press('Put into the page’s box')
    expect(text()).toContain('The box is read-only.')
  })

  it('keeps an edited text over a second reading, never over a change of page', async () => {
    const { model, type, change, field } = await drawPanel(listingState)
    await type('Text of the message', 'My own words.')
    await change(() => model.show(without({ update: 'changed' })))
    expect(field('Text of the message').value).toBe('My own words.')
    const other = {
      ...listingState.inspection,
      listing: { ...listingState.inspection.listing, url: 'https://other.example/' },
    }
    await change(() => model.show(without({ inspection: other })))
    expect(field('Text of the message').value).toBe(listingState.inspection.request.text)
  })

  it('can be cut to the best three', async () => {
    const setMessageMostViews = vi.fn(async () => {})
    const { root, fire } = await drawPanel(listingState, { setMessageMostViews })
    const box = root.querySelector<HTMLInputElement>('.message input[type="checkbox"]')!
    box.checked = true
    await fire(box, new Event('change', { bubbles: true }))
    expect(setMessageMostViews).toHaveBeenCalledWith(3)
  })

  it('takes what was said of one listing off with it', async () => {
    const { model, press, change, text } = await drawPanel(listingState)
    await press('Copy')
    await change(() => model.show(without({ update: 'changed' })))
    expect(text()).toContain('Message copied.')
    await change(() => model.show({ phase: 'none', host: null }))
    expect(text()).not.toContain('Message copied.')
  })

  it('says where to look when concerns are open and no view is left to ask for', async () => {
    const inspection = { ...listingState.inspection, request: { ...listingState.inspection.request, text: '' } }
    const { root, model, change } = await drawPanel(without({ inspection }))
    expect(root.querySelector('.message')?.textContent).toContain('No view is left to ask for')
    await change(() => model.show(without({ inspection: { ...inspection, concerns: [] } })))
    expect(root.querySelector('.message')?.textContent).toContain('There is nothing to ask for')
  })

  it('goes back to the suggested text', async () => {
    const { type, press, field } = await drawPanel(listingState)
    await type('Text of the message', 'x')
    await press('Back to the suggested text')
    expect(field('Text of the message').value).toBe(listingState.inspection.request.text)
  })
})

describe('keeping and teaching', () => {
  it('keeps with the notes', async () => {
    const save = vi.fn(async () => {})
    const { type, press } = await drawPanel(listingState, { save })
    await type('Notes', 'ask on Tuesday')
    await press('Keep this listing')
    expect(save).toHaveBeenCalledWith('ask on Tuesday')
  })

  it('shows a failure with its remedy and loses nothing', async () => {
    const { type, press, text, field } = await drawPanel(listingState, {
      save: async () => {
        throw new Fault('storage-full', 'quota exceeded')
      },
    })
    await type('Notes', 'ask on Tuesday')
    await press('Keep this listing')
    expect(text()).toContain('The browser has no room left for this.')
    expect(text()).toContain('Nothing was lost.')
    expect(field('Notes').value).toBe('ask on Tuesday')
  })

  it('puts an unknown grader into the book with one press', async () => {
    const addGrader = vi.fn(async () => {})
    const { press } = await drawPanel(listingState, { addGrader })
    await press('Do not accept')
    expect(addGrader).toHaveBeenCalledWith({ name: 'ZWY', abbreviations: ['ZWY'], accepted: false })
  })

  it('takes a grader out of the book again', async () => {
    const removeGrader = vi.fn(async () => {})
    const { press } = await drawPanel(listingState, { removeGrader })
    await press('Accept')
    await press('Undo')
    expect(removeGrader).toHaveBeenCalledWith('ZWY')
  })

  it('asks for the conditions of a grader accepted with some', async () => {
    const addGrader = vi.fn(async () => {})
    const { press, type, submit } = await drawPanel(listingState, { addGrader })
    await press('With conditions')
    await type('On which conditions?', 'not before 1998')
    await submit('.teach form')
    expect(addGrader).toHaveBeenCalledWith({
      name: 'ZWY',
      abbreviations: ['ZWY'],
      accepted: true,
      conditions: 'not before 1998',
    })
  })

  it('puts an issue on the list of those often copied', async () => {
    const addRiskyIssue = vi.fn(async () => {})
    const { press, type, submit, text } = await drawPanel(listingState, { addRiskyIssue })
    await press('Put this issue on your list of risky ones …')
    await type('Makes of copy known', 're-screened\n\nink-jet')
    await type('Worth if genuine, in EUR', '1.100')
    await submit('[aria-labelledby="risky-heading"] form')
    expect(addRiskyIssue).not.toHaveBeenCalled()
    expect(text()).toContain('Write the amount in digits')
    await type('Worth if genuine, in EUR', '1100,50')
    await submit('[aria-labelledby="risky-heading"] form')
    expect(addRiskyIssue).toHaveBeenCalledWith({
      name: 'Pellwick & Sons Skerryball Stars 1931-32 Odo Marrable',
      words: ['Pellwick & Sons Skerryball Stars', '1931-32', 'Odo Marrable'],
      worthIfGenuine: { amount: '1100.50', currency: 'EUR' },
      copies: ['re-screened', 'ink-jet'],
      exemplar: null,
      askFor: null,
    })
  })
})

describe('other phases', () => {
  it('offers to point at the price where there is no listing', async () => {
    const pickField = vi.fn(async () => true)
    const { press } = await drawPanel({ phase: 'none', host: null }, { pickField })
    await press('Point at the price')
    expect(pickField).toHaveBeenCalledWith('price')
  })

  it.each([
    [{ phase: 'forbidden' } as const, 'This page cannot be read'],
    [{ phase: 'failed', fault: new Fault('timed-out', '') } as const, 'The page did not answer in time.'],
    [{ phase: 'reading', host: 'a.example' } as const, 'Reading a.example'],
  ])('says what is the matter: %o', async (state, words) => {
    const { text } = await drawPanel(state)
    expect(text()).toContain(words)
  })

  it('always has the cautions at hand', async () => {
    const { root } = await drawPanel({ phase: 'forbidden' })
    expect(root.querySelectorAll('.cautions li').length).toBeGreaterThanOrEqual(5)
  })
})
