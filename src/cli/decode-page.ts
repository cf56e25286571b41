/**
 * The bytes of a saved page to its text, by the HTML standard's encoding sniffing: byte order mark, then `<meta>`,
 * then a guess. The guess follows the standard's note that UTF-8 has a highly detectable pattern: bytes that are
 * valid UTF-8 are UTF-8, anything else is windows-1252.
 * https://html.spec.whatwg.org/multipage/parsing.html#encoding-sniffing-algorithm
 */
import { isUtf8 } from 'node:buffer'
import sniffEncoding from 'html-encoding-sniffer'

export function decodePage(bytes: Uint8Array): string {
  const guess = isUtf8(bytes) ? 'UTF-8' : 'windows-1252'
  const encoding = sniffEncoding(bytes, { defaultEncoding: guess })
  try {
    return new TextDecoder(encoding).decode(bytes)
  } catch {
    // "replacement" and "x-user-defined" are encodings of the standard that Node's decoder does not have.
    return new TextDecoder(guess).decode(bytes)
  }
}
