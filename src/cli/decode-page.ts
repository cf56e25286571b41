/**
 * The bytes of a saved page to its text, by the HTML standard's encoding sniffing: byte order mark, then `<meta>`,
 * then a guess. The guess follows the standard's note that UTF-8 has a highly detectable pattern: bytes that are
 * valid UTF-8 are UTF-8, anything else is windows-1252.
 * https://html.spec.whatwg.org/multipage/parsing.html#encoding-sniffing-algorithm
 */
import { isUtf8 } from 'node:buffer'
// Not Node's own decoder: Node 20 reads windows-1252 as latin1, which loses the euro sign.
import { legacyHookDecode } from '@exodus/bytes/encoding.js'
import sniffEncoding from 'html-encoding-sniffer'

export function decodePage(bytes: Uint8Array): string {
  const guess = isUtf8(bytes) ? 'UTF-8' : 'windows-1252'
  const text = legacyHookDecode(bytes, sniffEncoding(bytes, { defaultEncoding: guess }))
  // The "replacement" encoding of the standard reads a whole page as one question mark; the guess is of more use.
  return text === '\ufffd' ? legacyHookDecode(bytes, guess) : text
}
