/**
 * The message to the seller: only views that are missing or cannot be judged, most informative first.
 * It asks and explains; it never accuses, names no motive, and says nothing of concerns. It is never sent from here.
 */
import type { RequestMessage } from '../inspection.ts'
import type { ViewFinding, ViewId } from '../views.ts'
import type { MessagePack } from './message-pack.ts'
import { type MessageStyle, PLAIN_STYLE } from './message-style.ts'

export interface RequestInput {
  /** Open views, most informative first; those that are shown are passed over. */
  readonly open: readonly ViewFinding[]
  readonly pack: MessagePack
  /** In characters as JavaScript counts them; `null`: no limit. */
  readonly maxLength: number | null
  /** No more than this many lines, the buyer's own among them; absent: all. */
  readonly mostViews?: number
  /** The buyer's own words for this issue, `null` where there are none. */
  readonly issueAsk: string | null
  /** Absent: plain, a first message, no terms. */
  readonly style?: MessageStyle
}

/**
 * Empty text where nothing is to ask. Over `maxLength` the least informative lines are left out whole and named in
 * `leftOut`, for a second message; where not even one line fits, the text is empty and all are left out. Terms that the
 * buyer proposes are never left out: a message without them would say something else.
 */
export function writeRequest(input: RequestInput): RequestMessage {
  const { open, pack, maxLength, issueAsk, mostViews, style = PLAIN_STYLE } = input
  const asked = open.filter((finding) => finding.status !== 'shown')
  const lines = asked.map((finding) => ({ view: finding.view, text: writeLine(finding, pack, style) }))
  const own = issueAsk === null || issueAsk.trim() === '' ? null : pack.issue.replace('{ask}', () => issueAsk.trim())
  // The buyer's own question was written for this very issue: it is one of the few that are asked.
  const room = mostViews === undefined ? lines.length : mostViews - (own === null ? 0 : 1)
  for (let kept = Math.min(lines.length, Math.max(room, 0)); kept >= 0; kept--) {
    // Where the message box is too small it stands last and is the first to go.
    for (const last of own === null ? [null] : [own, null]) {
      const texts = [...lines.slice(0, kept).map((line) => line.text), ...(last === null ? [] : [last])]
      if (texts.length === 0 && style.terms.length === 0) continue
      const text = layOut(texts, pack, style)
      if (maxLength !== null && text.length > maxLength) continue
      return finish(text, kept)
    }
  }
  return finish('', 0)

  function finish(text: string, kept: number): RequestMessage {
    const views: ViewId[] = lines.map((line) => line.view)
    return { text, language: pack.language, views: views.slice(0, kept), leftOut: views.slice(kept) }
  }
}

function writeLine(finding: ViewFinding, pack: MessagePack, { tone }: MessageStyle): string {
  const { ask, because } = pack.views[finding.view]
  const lines = tone === 'brief' ? pack.shortLines : pack.lines
  const template = lines[finding.status as keyof MessagePack['lines']]
  return template.replace('{ask}', () => ask).replace('{because}', () => because)
}

function layOut(texts: readonly string[], pack: MessagePack, { tone, again, terms, returnDays }: MessageStyle): string {
  const words = pack.tones[tone]
  const numbered = texts.map((text, index) => `${index + 1}. ${text.charAt(0).toUpperCase()}${text.slice(1)}`)
  const proposed = terms.map((term) => `– ${pack.terms[term].replace('{days}', String(returnDays))}`)
  return [
    words.greeting,
    ...(numbered.length > 0 ? ['', again ? words.again : words.opening, '', ...numbered] : []),
    ...(proposed.length > 0 ? ['', pack.terms.opening, '', ...proposed] : []),
    // The closing speaks of files: without photos to ask for, it has nothing to say.
    ...(numbered.length > 0 ? ['', words.closing] : []),
  ].join('\n')
}
