// @vitest-environment jsdom
import fc from 'fast-check'
import { beforeEach, describe, expect, it } from 'vitest'
import { findText } from '../../../src/marking/find-text.ts'

const isVisible = (element: Element) => element.closest('[hidden]') === null
const find = (quote: string) => findText(document.body, quote, { isVisible })

function page(markup: string): void {
  document.body.innerHTML = markup
}

describe('quoted words', () => {
  beforeEach(() => page(''))

  it('are found across elements', () => {
    page('<p>sold <b>as is</b>, no <i>ret</i>urns</p>')
    const range = find('as is, no')
    expect(range?.toString()).toBe('as is, no')
    expect(range?.startContainer.parentElement?.localName).toBe('b')
  })

  it('are found whatever white space, case and unseen characters stand between them', () => {
    page('<p>Not\n\t a&nbsp;re&shy;print,\u200b at all</p>')
    expect(find('NOT A REPRINT, at  all')?.toString()).toContain('re\u00adprint')
  })

  it('are not found inside other words', () => {
    page('<p>casino returns</p><p>no returnsaccepted</p>')
    expect(find('no returns')).toBeNull()
    page('<p>casino returns, and no returns</p>')
    expect(find('no returns')?.startOffset).toBe(20)
  })

  it('are found where blocks meet without a space', () => {
    page('<ul><li>Returns</li><li>No returns</li><li>Post</li></ul>')
    expect(find('No returns')?.toString()).toBe('No returns')
  })

  it('are found where they are seen, rather than where they are hidden', () => {
    page('<p hidden>odd label</p><p id="seen">odd label</p>')
    expect(find('odd label')?.startContainer.parentElement?.id).toBe('seen')
    page('<p hidden id="only">odd label</p>')
    expect(find('odd label')?.startContainer.parentElement?.id).toBe('only')
  })

  it('are found in open shadow roots', () => {
    page('<div></div>')
    const root = document.querySelector('div')!.attachShadow({ mode: 'open' })
    root.append('shadow words')
    expect(find('shadow words')?.startContainer.getRootNode()).toBe(root)
  })

  it('are not looked for in scripts, styles and fields', () => {
    page('<script>secret</script><style>secret</style><textarea>secret</textarea><template>secret</template>')
    expect(find('secret')).toBeNull()
  })

  it('that are empty are nowhere', () => {
    page('<p>words</p>')
    expect(find(' \u200b ')).toBeNull()
  })

  it('of any page are found on that page, and the page stays as it is', () => {
    const word = fc.stringMatching(/^[a-zäß0-9"'<&]{1,8}$/)
    fc.assert(
      fc.property(
        fc.array(fc.array(word, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 6 }),
        fc.nat(),
        (blocks, n) => {
          document.body.replaceChildren(
            ...blocks.map((words) => {
              const block = document.createElement('p')
              for (const one of words)
                block.append(Object.assign(document.createElement('span'), { textContent: one }), ' ')
              return block
            }),
          )
          const before = document.body.innerHTML
          const quote = blocks[n % blocks.length]!.join(' ')
          expect(find(quote)?.toString().replace(/\s+/g, '')).toBe(quote.replace(/\s+/g, ''))
          expect(document.body.innerHTML).toBe(before)
        },
      ),
    )
  })
})
