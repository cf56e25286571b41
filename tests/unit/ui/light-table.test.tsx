// @vitest-environment jsdom
/** Exemplars and the light table as a person meets them: drawing by keyboard, keeping by itself, undo, the order of looking, weightless points. */
import { afterEach, beforeAll, describe, expect, it, vi } from 'vitest'
import type { ExemplarDraft } from '../../../src/domain/examination.ts'
import { POINT_KIND_IDS } from '../../../src/domain/exemplar-kinds.ts'
import { CANNOT_TELL_CODES, cannotTell } from '../../../src/imaging/cannot-tell.ts'
import { Desk } from '../../../src/ui/desk/Desk.tsx'
import { createDeskModel } from '../../../src/ui/desk/desk-model.ts'
import type { DeskPorts } from '../../../src/ui/desk/desk-ports.ts'
import { Fault } from '../../../src/ui/fault.ts'
import type { SquarePicture } from '../../../src/ui/light-table/square-picture.ts'
import { examinations, exemplars, SIZE } from '../../ui-gallery/quiet-exemplars.ts'
import { quietDeskPorts } from '../../ui-gallery/quiet-ports.ts'
import { drawScreen, englishWording, wordingOf } from './screen.tsx'

const bitmap = { width: 924, height: 1106, close() {} } as ImageBitmap
const square: SquarePicture = {
  levels: [bitmap],
  pxPerMm: 14,
  marginMm: 3,
  size: SIZE,
  photo: bitmap,
  toPhoto: [14, 0, 42, 0, 14, 42, 0, 0, 1],
  corners: [
    [0.1, 0.1],
    [0.9, 0.1],
    [0.9, 0.9],
    [0.1, 0.9],
  ],
  photoPxPerMm: 14,
}

beforeAll(() => {
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 600 })
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, get: () => 800 })
  URL.createObjectURL = () => 'blob:drawn'
  URL.revokeObjectURL = () => {}
  HTMLCanvasElement.prototype.getContext = () => null
  globalThis.ResizeObserver = class {
    observe() {}
    unobserve() {}
    disconnect() {}
  } as never
})
afterEach(() => {
  history.replaceState(null, '', '#')
  vi.useRealTimers()
})

async function drawDesk(hash: string, ports: Partial<DeskPorts> = {}) {
  const model = createDeskModel(
    { ...quietDeskPorts, laySquare: async () => square, openBlob: async () => new Blob(['x']), ...ports },
    hash,
  )
  const screen = await drawScreen(<Desk model={model} wording={englishWording} />)
  // Opening, reading the bytes and laying square each take a turn.
  for (let n = 0; n < 4; n++) await screen.change(() => new Promise((done) => setTimeout(done, 5)) as never)
  return { model, ...screen }
}
type Screen = Awaited<ReturnType<typeof drawDesk>>

const glass = ({ root }: Screen) => root.querySelectorAll<HTMLElement>('.plate-glass')
const key = (screen: Screen, target: Element, init: KeyboardEventInit) =>
  screen.fire(target, new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init }))
const kept = () => {
  const drafts: ExemplarDraft[] = []
  const saveExemplar = vi.fn<DeskPorts['saveExemplar']>(async (id, draft, revision) => {
    drafts.push(draft)
    return { ...exemplars[0]!, ...draft, id, revision: revision + 1 }
  })
  return { drafts, saveExemplar, points: () => drafts.at(-1)!.exemplar.points }
}
const rest = (screen: Screen) => screen.change(() => new Promise((done) => setTimeout(done, 450)) as never)

describe('an exemplar', () => {
  it('teaches while there is none', async () => {
    const { text } = await drawDesk('#exemplars', { listExemplars: async () => [] })
    for (const words of ['laid beside', 'square-on', 'Three such points']) expect(text()).toContain(words)
  })

  it('takes a new point by keyboard, keeps it by itself, and brings a deleted one back', async () => {
    const { saveExemplar, points } = kept()
    const screen = await drawDesk('#exemplars/e1', { saveExemplar })
    // The same above the picture and under the list.
    const [above] = screen.buttons('New point')
    await screen.fire(above!, new MouseEvent('click', { bubbles: true }))
    await key(screen, glass(screen)[0]!, { key: 'Enter' })
    await screen.type('Name', 'Anchor')
    await rest(screen)
    expect(points()).toHaveLength(6)
    const added = points()[5]!
    expect(added).toMatchObject({ name: 'Anchor', side: 'front' })
    // In the middle of what was shown.
    expect(added.region.x + added.region.width / 2).toBeCloseTo(SIZE.widthMm / 2, 0)

    await screen.press('Delete: Anchor')
    await rest(screen)
    expect(points()).toHaveLength(5)
    await screen.press('Undo')
    await rest(screen)
    expect(points()[5]).toEqual(added)
  })

  it('moves a place by arrow keys and sizes it with Shift, and never off the card', async () => {
    const { saveExemplar, points } = kept()
    const screen = await drawDesk('#exemplars/e1', { saveExemplar })
    await screen.press(/^2Sails/)
    const mark = screen.root.querySelector('.mark.is-active')!
    await key(screen, mark, { key: 'ArrowRight' })
    await key(screen, screen.root.querySelector('.mark.is-active')!, { key: 'ArrowDown', shiftKey: true })
    await rest(screen)
    expect(points()[1]!.region).toEqual({ x: 22.5, y: 18, width: 9, height: 12.5 })
  })

  it('gives a point of another kind all that its kind needs', async () => {
    const { saveExemplar, points } = kept()
    const screen = await drawDesk('#exemplars/e1', { saveExemplar })
    await screen.press(/^2Sails/)
    await screen.press('Another kind')
    const radios = [...screen.root.querySelectorAll<HTMLInputElement>('.kind-option input')]
    expect(radios).toHaveLength(POINT_KIND_IDS.length)
    await screen.fire(radios[POINT_KIND_IDS.indexOf('gap')]!, new MouseEvent('click', { bubbles: true }))
    await rest(screen)
    expect(points()[1]).toMatchObject({ kind: 'gap', axis: 'x', other: { width: 9, height: 12 } })
    expect(points()[1]).not.toHaveProperty('neutral')
  })

  it('asks for the four corners where no card is found', async () => {
    const laySquare = async () => {
      throw new Fault('no-card-found', '')
    }
    const screen = await drawDesk('#exemplars/e1', { laySquare })
    expect(screen.text()).toContain('No card was found by itself')
  })

  it('says that it could not be kept, and loses nothing', async () => {
    const screen = await drawDesk('#exemplars/e1', {
      saveExemplar: async () => {
        throw new Fault('storage-full', '')
      },
    })
    await screen.press('Delete: Left border')
    await rest(screen)
    expect(screen.root.querySelector('.exemplar-head [role="alert"]')?.textContent).toContain('no room')
  })
})

describe('the light table', () => {
  it('shows the questioned card alone until the notes are locked, then measures at once', async () => {
    const measure = vi.fn(quietDeskPorts.measure)
    const screen = await drawDesk('#light-table/x1', { measure })
    expect(glass(screen)).toHaveLength(1)
    const lock = screen.button('Lock the notes and compare')
    expect(lock.disabled).toBe(true)
    await screen.type('Notes on this card alone', 'Heavy lettering.')
    expect(measure).not.toHaveBeenCalled()
    await screen.press('Lock the notes and compare')
    for (let n = 0; n < 4; n++) await screen.change(() => new Promise((done) => setTimeout(done, 5)) as never)
    expect(measure).toHaveBeenCalledTimes(1)
    expect(glass(screen)).toHaveLength(2)
    expect(screen.root.querySelector('.locked-notes')?.textContent).toContain('Heavy lettering.')
    expect(screen.root.querySelector('textarea[rows="6"]')).toBeNull()
  })

  it('says that agreement on a point which a known copy passes weighs nothing', async () => {
    const { root } = await drawDesk('#light-table/x2')
    const [first, second] = root.querySelectorAll('.verdict-row')
    expect(first!.textContent).toContain('Known copies pass this (Thick type): weighs nothing.')
    // One that differs weighs, whatever copies do.
    expect(second!.textContent).not.toContain('weighs nothing')
  })

  it('puts the person’s word over what was measured, and takes it back', async () => {
    const saved = vi.fn<DeskPorts['saveExamination']>(async (id, draft, revision) => ({
      ...examinations[1]!,
      ...draft,
      id,
      revision: revision + 1,
    }))
    const screen = await drawDesk('#light-table/x2', { saveExamination: saved })
    await screen.press(/^2Sails/)
    const word = (name: string) =>
      [...screen.root.querySelectorAll<HTMLLabelElement>('.word-choice .choice')].find(
        (label) => label.textContent?.trim() === name,
      )!
    await screen.fire(word('Differs, explained').querySelector('input')!, new MouseEvent('click', { bubbles: true }))
    expect(screen.text()).toContain('Say what explains it.')
    await screen.type('What explains the difference?', 'faded in the sun')
    await rest(screen)
    expect(saved.mock.calls.at(-1)![1].judged.sails).toEqual({
      verdict: 'differs-explained',
      words: 'faded in the sun',
    })
    await screen.fire(word('as measured').querySelector('input')!, new MouseEvent('click', { bubbles: true }))
    await rest(screen)
    expect(saved.mock.calls.at(-1)![1].judged).not.toHaveProperty('sails')
  })

  it('lets a second person answer, and shows nothing of a dossier to them', async () => {
    const exportBlindAnswer = vi.fn(async () => {})
    const screen = await drawDesk('#light-table/x3', { exportBlindAnswer })
    expect(screen.text()).not.toContain('Open the dossier')
    await screen.type('Your name or initials', 'T. Q.')
    await screen.press('Export the answer')
    expect(exportBlindAnswer).toHaveBeenCalledWith(expect.objectContaining({ answers: 'p1' }), 'T. Q.')
  })

  it('begins from a dossier’s photos', async () => {
    const createExamination = vi.fn(quietDeskPorts.createExamination)
    const screen = await drawDesk('#light-table/dossier%3Ad1', { createExamination })
    await screen.press('Take photo 2')
    await screen.press('Look at it alone first')
    expect(createExamination.mock.calls[0]![0]).toMatchObject({ dossier: 'd1', exemplar: 'e1', lockedAt: null })
    expect(createExamination.mock.calls[0]![0].photos).toHaveLength(1)
  })
})

it.each(CANNOT_TELL_CODES)('has words for %s', (code) => {
  for (const language of ['en', 'de'] as const) {
    const sentence = wordingOf(language).t(`cannot-tell.${code}`, cannotTell(code).cause.figures)
    expect(sentence).toMatch(/^\p{Lu}.*\.$/u)
  }
})
