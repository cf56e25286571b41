import { describe, expect, it } from 'vitest'
import { inspect } from '../../../src/domain/inspect.ts'
import { loadPacks } from '../rules/load-packs.ts'
import { BOOK, ENCAPSULATED, FACTS, LISTING, photo } from '../rules/sample-facts.ts'

const packs = loadPacks()

describe('clean offers', () => {
  it('raises nothing on a raw card under the limit with its views', () => {
    const result = inspect(FACTS, BOOK, packs)
    expect(result.concerns).toEqual([])
    expect(result.views.map(({ view, status }) => `${view} ${status}`)).toEqual([
      'front shown',
      'back shown',
      'corners shown',
    ])
    expect(result.request.text).toBe('')
    expect(result.stance).toBe('nothing-open')
  })

  it('raises nothing on an encapsulated card of an accepted grader', () => {
    const result = inspect({ ...FACTS, listing: ENCAPSULATED }, BOOK, packs)
    expect(result.concerns).toEqual([])
    expect(result.views.map(({ view, status }) => `${view} ${status}`)).toEqual([
      'holder-front shown',
      'holder-back shown',
      'label shown',
    ])
    expect(result.stance).toBe('nothing-open')
  })
})

it('leaves a trace line for every rule', () => {
  const { trace } = inspect(FACTS, BOOK, packs)
  expect(trace.map((line) => line.rule).sort()).toEqual(packs.rules.map((rule) => rule.id).sort())
})

it('asks for what one removed photo showed and for nothing else', () => {
  for (const gone of LISTING.photos) {
    const photos = LISTING.photos.filter((kept) => kept !== gone)
    const result = inspect({ ...FACTS, listing: { ...LISTING, photos } }, BOOK, packs)
    const open = result.views.filter((view) => view.status !== 'shown').map((view) => view.view)
    expect(open).toEqual([gone.url.replace(/^.*\/|\.jpg$/g, '')])
    expect(result.request.views).toEqual(open)
  }
})

it('calls a view missing only when every photo is accounted for', () => {
  const photos = [photo('IMG_0001'), photo('IMG_0002', 'Back')]
  const { views } = inspect({ ...FACTS, listing: { ...LISTING, photos } }, BOOK, packs)
  expect(views.map(({ view, status }) => [view, status])).toEqual([
    ['front', 'cannot-tell'],
    ['back', 'shown'],
    ['corners', 'cannot-tell'],
  ])
})
