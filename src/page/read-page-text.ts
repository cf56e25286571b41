/** The page's visible text, one line a block, cut at a limit: what a dossier keeps and a highlight is looked for in. */
import { indexDocument } from './index-document.ts'

/** At most `limit` UTF-16 units. */
export function readPageText(document: Document, limit: number): string {
  const { lines } = indexDocument(document)
  let text = ''
  for (const line of lines) {
    if (line.hidden || line.text === '') continue
    text += text === '' ? line.text : `\n${line.text}`
    if (text.length >= limit) return text.slice(0, limit)
  }
  return text
}
