import { describe, expect, it, vi } from 'vitest'
import { classifyRefusal } from '../../../src/platform/content-scripts.ts'
import { originPattern } from '../../../src/platform/permissions.ts'

vi.mock('webextension-polyfill', () => ({ default: {} }))

describe('a host permission', () => {
  it.each([
    ['https://lots.example', 'https://lots.example/*'],
    ['https://lots.example/lot/7?x=1', 'https://lots.example/*'],
    ['http://127.0.0.1:8123', 'http://127.0.0.1/*'],
  ])('for %s covers that host and no other', (origin, pattern) => {
    expect(originPattern(origin)).toBe(pattern)
  })
})

// The browsers' own words, as Chromium 156 and Firefox 153 gave them.
describe('a page that cannot be read', () => {
  it.each([
    ['Cannot access a chrome:// URL', null, 'forbidden-page'],
    ['The extensions gallery cannot be scripted.', null, 'forbidden-page'],
    [
      'Cannot access contents of the page. Extension manifest must request permission to access the respective host.',
      null,
      'no-permission',
    ],
    ['Missing host permission for the tab', null, 'no-permission'],
    ['Missing host permission for the tab', 'about:config', 'forbidden-page'],
    ['Missing host permission for the tab', 'https://lots.example/1', 'no-permission'],
  ] as const)('%s (%s): %s', (message, url, refusal) => {
    expect(classifyRefusal(message, url)).toBe(refusal)
  })
})
