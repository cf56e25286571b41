/** What pages and backups call an address or a picture is not believed: no other scheme is opened, nothing but bitmaps is shown. */
import { expect, it, vi } from 'vitest'

const create = vi.hoisted(() => vi.fn(async () => ({})))
vi.mock('webextension-polyfill', () => ({ default: { tabs: { create } } }))

import { pictureBlob } from '../../../src/platform/picture-blob.ts'
import { openPage } from '../../../src/platform/tabs.ts'

it.each(['http://quayside.example/lot/7', 'HTTPS://quayside.example/'])('opens %s', async (url) => {
  await openPage(url)
  expect(create).toHaveBeenLastCalledWith({ url })
})

it.each([
  'javascript:alert(1)',
  'data:text/html,<script>alert(1)</script>',
  'file:///etc/hosts',
  'chrome://settings',
  'about:config',
  ' java\tscript:alert(1)',
  '//quayside.example/',
  '',
])('does not open %j', async (url) => {
  create.mockClear()
  await expect(openPage(url)).rejects.toThrow('no address of the web')
  expect(create).not.toHaveBeenCalled()
})

it('names bitmaps, and nothing that a browser would open as a page', () => {
  for (const mediaType of ['image/jpeg', 'image/png', 'image/webp', 'image/avif'])
    expect(pictureBlob(new Uint8Array([1]), mediaType).type).toBe(mediaType)
  for (const mediaType of ['text/html', 'image/svg+xml', 'application/xhtml+xml', 'image/png;text/html', '', null])
    expect(pictureBlob(new Uint8Array([1]), mediaType).type).toBe('application/octet-stream')
})
