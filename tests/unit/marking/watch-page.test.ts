// @vitest-environment jsdom
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { OWN_TAG } from '../../../src/marking/own-nodes.ts'
import { watchPage } from '../../../src/marking/watch-page.ts'

/** Lets jsdom deliver its mutation records, which come in a microtask, then `ms` pass. */
async function pass(ms: number): Promise<void> {
  await vi.advanceTimersByTimeAsync(0)
  await vi.advanceTimersByTimeAsync(ms)
}

const change = () => document.body.append(document.createElement('p'))

describe('a watched page', () => {
  let stop: AbortController
  let settled: string[]
  beforeEach(() => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance', 'Date'] })
    document.body.replaceChildren()
    history.replaceState(null, '', '/lot/1')
    stop = new AbortController()
    settled = []
    watchPage(window as never, { signal: stop.signal, onSettled: (url) => settled.push(new URL(url).pathname) })
  })
  afterEach(() => {
    stop.abort()
    vi.useRealTimers()
  })

  it('is told once it rests, not while it changes', async () => {
    for (let i = 0; i < 4; i++) {
      change()
      await pass(300)
    }
    expect(settled).toEqual([])
    await pass(500)
    expect(settled).toEqual(['/lot/1'])
  })

  it('that never rests is looked at all the same, less and less often', async () => {
    for (let i = 0; i < 600; i++) {
      change()
      await pass(200)
    }
    // Two minutes: doubling waits from half a second to half a minute.
    expect(settled.length).toBeGreaterThanOrEqual(4)
    expect(settled.length).toBeLessThanOrEqual(10)
  })

  it('is told at once when it goes to another address', async () => {
    change()
    await pass(600)
    history.pushState(null, '', '/lot/2')
    change()
    await pass(600)
    expect(settled).toEqual(['/lot/1', '/lot/2'])
    history.back()
    await vi.waitFor(() => expect(location.pathname).toBe('/lot/1'))
    await pass(600)
    expect(settled).toEqual(['/lot/1', '/lot/2', '/lot/1'])
  })

  it('does not hear what we put there', async () => {
    document.body.append(document.createElement(OWN_TAG))
    await pass(5_000)
    document.querySelector(OWN_TAG)?.remove()
    await pass(5_000)
    expect(settled).toEqual([])
  })

  it('is let go by its signal', async () => {
    change()
    await vi.advanceTimersByTimeAsync(0)
    stop.abort()
    await pass(5_000)
    change()
    await pass(5_000)
    expect(settled).toEqual([])
  })
})
