/** Words of a page: always text, never markup, in their own direction, with characters that hide shown by their code. */
import { splitHidden } from './hidden-characters.ts'

export function PageText({ text, lang }: { text: string; lang?: string | null }) {
  return (
    <bdi dir="auto" lang={lang ?? undefined}>
      {splitHidden(text).map(({ text: run, code }, index) =>
        code === null ? (
          run
        ) : (
          <span key={`${index}${code}`} class="hidden-character">
            {code}
          </span>
        ),
      )}
    </bdi>
  )
}
