// @vitest-environment jsdom
/** First start: the four answers arrive together, or the whole of it is skipped. */
import { expect, it, vi } from 'vitest'
import { DEFAULT_SETTINGS } from '../../../src/domain/settings.ts'
import { Setup } from '../../../src/ui/setup/Setup.tsx'
import type { SetupPorts } from '../../../src/ui/setup/setup-ports.ts'
import { quietSetupPorts } from '../../ui-gallery/quiet-ports.ts'
import { drawScreen, englishWording } from './screen.tsx'

const drawSetup = (ports: Partial<SetupPorts> = {}) =>
  drawScreen(<Setup ports={{ ...quietSetupPorts, ...ports }} wording={englishWording} settings={DEFAULT_SETTINGS} />)

it('hands over the four answers', async () => {
  const finish = vi.fn(async () => {})
  const { type, submit, text } = await drawSetup({ finish })
  await type('Your currency', 'GBP')
  await type('High value begins at, in GBP', '750')
  await type('Language of your messages to sellers', 'de')
  await type('Abbreviations', 'KVX, Kestrel')
  await submit('form')
  expect(finish).toHaveBeenCalledWith({
    settings: {
      currency: 'GBP',
      highValue: { amount: '750', currency: 'GBP' },
      messageLanguage: 'de',
      interfaceLanguage: 'en',
    },
    graders: [{ name: 'KVX', abbreviations: ['KVX', 'Kestrel'], accepted: true }],
  })
  expect(text()).toContain('Ready')
})

it('takes no limit that it cannot read', async () => {
  const finish = vi.fn(async () => {})
  const { type, submit, text } = await drawSetup({ finish })
  await type('High value begins at, in EUR', 'a lot')
  await submit('form')
  expect(finish).not.toHaveBeenCalled()
  expect(text()).toContain('Write the amount in digits')
})

it('can be skipped whole', async () => {
  const skip = vi.fn(async () => {})
  const { press, text } = await drawSetup({ skip })
  await press('Skip all of this')
  expect(skip).toHaveBeenCalledOnce()
  expect(text()).toContain('Ready, with the usual values')
})

it('says what is never done and what it is not', async () => {
  const { text } = await drawSetup()
  expect(text()).toContain('There is no account and no server.')
  expect(text()).toContain('It does not authenticate cards.')
})
