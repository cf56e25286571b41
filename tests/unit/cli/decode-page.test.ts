/** The HTML standard's encoding sniffing, section 13.2.3.2, case by case. */
import { describe, expect, it } from 'vitest'
import { decodePage } from '../../../src/cli/decode-page.ts'

const latin1 = (text: string) => Buffer.from(text, 'latin1')
const utf8 = (text: string) => Buffer.from(text, 'utf8')

describe('decodePage', () => {
  it.each([
    [
      'a byte order mark before everything',
      Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), utf8('<meta charset="windows-1252">Möwe')]),
      'Möwe',
    ],
    [
      'UTF-16 by its byte order mark',
      Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from('<p>Möwe', 'utf16le')]),
      'Möwe',
    ],
    ['a meta charset', Buffer.concat([utf8('<meta charset="utf-8">'), utf8('Möwe 1.234,50 €')]), 'Möwe 1.234,50 €'],
    [
      'a meta http-equiv',
      Buffer.concat([utf8('<meta http-equiv="Content-Type" content="text/html; charset=iso-8859-1">'), latin1('Möwe')]),
      'Möwe',
    ],
    [
      'windows-1252 where latin1 is said, as the standard maps it',
      Buffer.concat([utf8('<meta charset="latin1">'), Buffer.from([0x80])]),
      '€',
    ],
    ['a meta charset that is wrong but said', Buffer.concat([utf8('<meta charset="windows-1252">'), utf8('ö')]), 'Ã¶'],
    ['UTF-8 by its pattern where nothing is said', utf8('<p>Möwe 5 €'), 'Möwe 5 €'],
    [
      'windows-1252 where nothing is said and it is no UTF-8',
      Buffer.concat([utf8('<p>'), Buffer.from([0x4d, 0xf6, 0x77, 0x65, 0x20, 0x80])]),
      'Möwe €',
    ],
    ['Shift_JIS by its meta', Buffer.concat([utf8('<meta charset="shift_jis">'), Buffer.from([0x83, 0x4a])]), 'カ'],
    ['no meta inside a comment', Buffer.concat([utf8('<!-- <meta charset="shift_jis"> -->'), utf8('Möwe')]), 'Möwe'],
    ['an encoding that nobody has', Buffer.concat([utf8('<meta charset="klingon">'), utf8('Möwe')]), 'Möwe'],
    ['the replacement encoding', Buffer.concat([utf8('<meta charset="iso-2022-kr">'), utf8('Möwe')]), 'Möwe'],
    ['an empty page', Buffer.alloc(0), ''],
  ])('%s', (_, bytes, expected) => {
    expect(
      decodePage(bytes)
        .replace(/<!--.*?-->|<[^>]*>/g, '')
        .trim(),
    ).toBe(expected)
  })
})
