/**
 * One pass over the document into a flat list of elements and lines of text; everything else in this room works on that list.
 * Reads only. Cost is linear, and stops at a stated number of elements, saying so.
 * Long because the one pass keeps the state of everything that it finds; taken apart it would be several passes.
 */

/** Where an element stands by the page's own landmarks. */
export const REGION = { none: 0, chrome: 1, aside: 2, related: 4, dialog: 8, main: 16, form: 32 } as const

export interface IndexedNode {
  readonly element: Element
  readonly at: number
  readonly tag: string
  /** Index of the parent, −1 for the root. */
  readonly parent: number
  readonly depth: number
  /** One past the last descendant. */
  end: number
  /** Class, id and test names in small letters, for telling words. */
  readonly marks: string
  /** `REGION` flags, inherited. */
  region: number
  /** Not shown by its own or an ancestor's attributes. */
  readonly hidden: boolean
  readonly role: string | null
  /** Has a style attribute. */
  readonly styled: boolean
  /** Carries microdata (1) or RDFa (2). */
  readonly markup: number
  /** First text run at or after the element's start, and one past its last. */
  firstRun: number
  lastRun: number
  /** Number of child elements. */
  children: number
}

export interface TextRun {
  readonly node: number
  readonly text: string
  readonly line: number
  /** UTF-16 offset in the line's text. */
  readonly offset: number
}

/** Text that reads as one line: runs that no block-level element or line break parts. */
export interface Line {
  readonly at: number
  text: string
  /** The element that holds the first run. */
  readonly node: number
  readonly firstRun: number
  lastRun: number
  readonly hidden: boolean
}

export interface PageIndex {
  readonly document: Document
  readonly nodes: readonly IndexedNode[]
  readonly runs: readonly TextRun[]
  readonly lines: readonly Line[]
  /** Characters of all runs before each run. */
  readonly textBefore: Uint32Array
  readonly byElement: ReadonlyMap<Element, number>
  readonly scripts: readonly Element[]
  readonly metas: readonly Element[]
  readonly cut: boolean
}

/** Elements that are read before the reader stops: at about 1.5 µs each this keeps a reading well under a fifth of a second. */
export const NODE_BUDGET = 60_000
/** Characters of text kept of one run; longer runs are prose, whose start is enough. */
const RUN_LIMIT = 20_000
/** Characters of text kept in all. */
const TEXT_BUDGET = 2_000_000
/** Nesting that is followed; deeper markup is a fault or an attack. */
const DEPTH_LIMIT = 250

const SKIPPED = new Set([
  'script',
  'style',
  'noscript',
  'template',
  'svg',
  'iframe',
  'object',
  'canvas',
  'math',
  'link',
  'base',
  'datalist',
])
const INLINE = new Set([
  'a',
  'abbr',
  'b',
  'bdi',
  'bdo',
  'big',
  'cite',
  'code',
  'data',
  'del',
  'dfn',
  'em',
  'font',
  'i',
  'ins',
  'kbd',
  'label',
  'mark',
  'nobr',
  'q',
  's',
  'small',
  'span',
  'strike',
  'strong',
  'sub',
  'sup',
  'time',
  'tt',
  'u',
  'var',
  'wbr',
  'meta',
  'output',
])
const CHROME_ROLES = /^(?:navigation|banner|contentinfo|search|menu|menubar|toolbar)$/
const CHROME_MARKS =
  /(?:^|[\s_-])(?:nav|navbar|navigation|menu|megamenu|breadcrumbs?|site-?header|page-?header|site-?footer|footer|cookies?|consent|masthead|topbar|top-bar|newsletter|language-?switch\w*)(?:$|[\s_-])/
const RELATED_MARKS =
  /(?:related|similar|recommend|recently|also-?(?:viewed|bought|like)|you-?may|upsell|cross-?sell|more-?(?:from|items|like)|sponsored|advert|suggest(?:ed|ion)|merch-?(?:placement|module)|other-?(?:items|listings|products)|aehnlich|ähnlich|empfehl|similaire|parecid|relacionad|correlat|podobne|gerelateerd)/
const DIALOG_MARKS =
  /(?:^|[\s_-])(?:modal|popup|pop-up|dialog|lightbox|overlay|tooltip|flyout|drawer|mini-?cart|off-?canvas)(?:$|[\s_-])/
const CENT_MARKS = /(?:cent|fraction|decimal|sup\b)/
const HIDING_STYLE = /(?:display\s*:\s*none|visibility\s*:\s*hidden)/i

/** The tree that is shown in place of an element's children, where it is open; a closed one cannot be read. */
function shadowOf(element: Element): (ParentNode & Node) | null {
  if (element.shadowRoot) return element.shadowRoot
  const first = element.firstElementChild
  if (first?.localName !== 'template') return null
  // A saved page carries shadow trees as markup; a parser that does not know them leaves the template in place.
  const declared = first.hasAttribute('shadowrootmode') || first.hasAttribute('shadowroot')
  return declared ? (first as HTMLTemplateElement).content : null
}

/** What the attributes of one element say, asked once: most elements have none, and every question costs. */
interface Attributes {
  names: string
  role: string | null
  hidden: boolean
  styled: boolean
  markup: number
}

const PLAIN: Attributes = { names: '', role: null, hidden: false, styled: false, markup: 0 }

function readAttributes(element: Element, tag: string): Attributes {
  if (!element.hasAttributes()) return PLAIN
  const found: Attributes = { names: '', role: null, hidden: false, styled: false, markup: 0 }
  for (const name of element.getAttributeNames()) {
    switch (name) {
      case 'class':
      case 'id':
      case 'data-testid':
      case 'data-test':
      case 'data-qa':
      case 'data-name':
        found.names += found.names === '' ? element.getAttribute(name)! : ` ${element.getAttribute(name)!}`
        break
      case 'role':
        found.role = element.getAttribute(name)
        break
      case 'hidden':
      case 'popover':
        found.hidden = true
        break
      case 'style':
        found.styled = true
        if (HIDING_STYLE.test(element.getAttribute(name)!)) found.hidden = true
        break
      case 'type':
        if (tag === 'input' && element.getAttribute(name) === 'hidden') found.hidden = true
        break
      case 'itemprop':
      case 'itemscope':
        found.markup |= 1
        break
      case 'property':
      case 'typeof':
      case 'rev':
        found.markup |= 2
        break
    }
  }
  return found
}

interface Marks {
  readonly text: string
  readonly chrome: boolean
  readonly header: boolean
  readonly region: number
}

const NO_MARKS: Marks = { text: '', chrome: false, header: false, region: 0 }

/** `itemPrice` and `item_price` read alike. The same few names stand on thousands of elements. */
function readMarks(names: string, memo: Map<string, Marks>): Marks {
  if (names === '') return NO_MARKS
  let known = memo.get(names)
  if (!known) {
    const text = names
      .slice(0, 400)
      .replace(/([a-z])([A-Z])/g, '$1-$2')
      .toLowerCase()
    known = {
      text,
      chrome: CHROME_MARKS.test(text),
      header: text.includes('header'),
      region: (RELATED_MARKS.test(text) ? REGION.related : 0) | (DIALOG_MARKS.test(text) ? REGION.dialog : 0),
    }
    memo.set(names, known)
  }
  return known
}

function regionOf(tag: string, role: string | null, marks: Marks, inherited: number, depth: number): number {
  let region = inherited
  if (tag === 'main' || role === 'main') region = (region | REGION.main) & ~REGION.chrome
  if (tag === 'nav' || tag === 'footer' || (role && CHROME_ROLES.test(role))) region |= REGION.chrome
  // A header inside an article or section belongs to it; only the page's own is furniture.
  else if (tag === 'header' && depth <= 6 && !(inherited & REGION.main)) region |= REGION.chrome
  else if (tag === 'aside' || role === 'complementary') region |= REGION.aside
  else if (tag === 'form') region |= REGION.form
  if (tag === 'dialog' || role === 'dialog' || role === 'tooltip' || role === 'alertdialog') region |= REGION.dialog
  if (marks.text !== '' && tag !== 'body' && tag !== 'html') {
    if (marks.chrome && tag !== 'main' && depth <= 12 && !(marks.header && region & REGION.main))
      region |= REGION.chrome
    region |= marks.region
  }
  return region
}

/** An inline element that only holds other elements, two or more, is drawn as a block: a tile that is one link. */
function isCard(element: Element): boolean {
  if (
    element.childElementCount < 2 ||
    (element.localName !== 'a' && element.localName !== 'span' && element.localName !== 'label')
  )
    return false
  let long = 0
  for (let child = element.firstChild; child; child = child.nextSibling) {
    if (child.nodeType === 3 && /\S/.test((child as Text).data)) return false
    if (
      child.nodeType === 1 &&
      (child as Element).localName !== 'br' &&
      ((child as Element).childElementCount > 0 || (child.textContent ?? '').length > 6)
    )
      long += 1
  }
  return long >= 2
}

function isGlued(left: string, right: string): boolean {
  const a = left.at(-1)!
  const b = right[0]!
  if (/\d/.test(a) && /\d/.test(b)) return /[.,]\d+$/.test(left) || !/^\d\d(?!\d)/.test(right)
  if (/\p{Ll}/u.test(a)) return /[\p{Lu}\d$€£¥₹]/u.test(b)
  if (/\p{Lu}/u.test(a)) return /\d{3}/.test(right.slice(0, 3))
  return /[\d)%!€]/.test(a) && /\p{L}/u.test(b)
}

/** Nodes walked between two chances to pause. */
const STEP = 1500

export function indexDocument(document: Document, budget = NODE_BUDGET): PageIndex {
  const steps = indexInSteps(document, budget)
  for (;;) {
    const step = steps.next()
    if (step.done) return step.value
  }
}

/** The same in steps: between two of them the page may do what it has to. What it changes meanwhile may be read or not. */
export function* indexInSteps(document: Document, budget = NODE_BUDGET): Generator<undefined, PageIndex> {
  const nodes: IndexedNode[] = []
  const runs: TextRun[] = []
  const lines: Line[] = []
  const scripts: Element[] = []
  const metas: Element[] = []
  const byElement = new Map<Element, number>()
  let cut = false
  let textLeft = TEXT_BUDGET
  let line: Line | null = null
  let lineBroken = true
  let lastOwner = -1
  const memo = new Map<string, Marks>()

  const addText = (raw: string, owner: IndexedNode): void => {
    if (textLeft <= 0) {
      cut = true
      return
    }
    const limited = raw.length > RUN_LIMIT ? raw.slice(0, RUN_LIMIT) : raw
    const text = limited.replace(/[\s\u00a0]+/g, ' ')
    if (text === '' || (text === ' ' && (lineBroken || line === null))) return
    if (lineBroken || line === null) {
      line = {
        at: lines.length,
        text: '',
        node: owner.at,
        firstRun: runs.length,
        lastRun: runs.length,
        hidden: owner.hidden,
      }
      lines.push(line)
      lineBroken = false
    }
    let piece = line.text === '' || line.text.endsWith(' ') ? text.replace(/^ /, '') : text
    if (piece === '') return
    // "12" beside a raised "99" is 12.99; joined plainly it would be 1299.
    const raised = owner.tag === 'sup' || (owner.tag !== 'sub' && CENT_MARKS.test(owner.marks))
    if (raised && /^\d\d\b/.test(piece) && /\d$/.test(line.text)) piece = `.${piece}`
    // Neighbours that only a style sheet keeps apart: "£212.00" and "11 bids", "Estimate" and "GBP 12,000".
    else if (
      line.text !== '' &&
      !line.text.endsWith(' ') &&
      !piece.startsWith(' ') &&
      owner.at !== lastOwner &&
      isGlued(line.text, piece)
    ) {
      // Sisters without so much as a space between them are blocks or cells of their own.
      if (piece.length >= 4 && lastOwner >= 0 && nodes[lastOwner]!.parent === owner.parent) {
        line = {
          at: lines.length,
          text: '',
          node: owner.at,
          firstRun: runs.length,
          lastRun: runs.length,
          hidden: owner.hidden,
        }
        lines.push(line)
      } else line.text += ' '
    }
    lastOwner = owner.at
    runs.push({ node: owner.at, text: piece, line: line.at, offset: line.text.length })
    line.text += piece
    line.lastRun = runs.length
    textLeft -= piece.length
  }

  const open = (element: Element, parent: IndexedNode | null): IndexedNode => {
    const tag = element.localName
    const attributes = readAttributes(element, tag)
    const marks = readMarks(attributes.names, memo)
    const depth = parent ? parent.depth + 1 : 0
    const node: IndexedNode = {
      element,
      at: nodes.length,
      tag,
      parent: parent ? parent.at : -1,
      depth,
      end: nodes.length + 1,
      marks: marks.text,
      region: regionOf(tag, attributes.role, marks, parent ? parent.region : 0, depth),
      // A dialog that is not open is not shown.
      hidden: (parent?.hidden ?? false) || attributes.hidden || (tag === 'dialog' && !element.hasAttribute('open')),
      role: attributes.role,
      styled: attributes.styled,
      markup: attributes.markup,
      firstRun: runs.length,
      lastRun: runs.length,
      children: 0,
    }
    if (parent) parent.children += 1
    nodes.push(node)
    byElement.set(element, node.at)
    return node
  }

  const close = (node: IndexedNode): void => {
    node.end = nodes.length
    node.lastRun = runs.length
    if (!INLINE.has(node.tag) || (node.children >= 2 && isCard(node.element))) lineBroken = true
  }

  const root = document.documentElement
  if (root) {
    /** `resume`: where to go on after this element; `light`: its own children, when its shadow tree is read first. */
    const stack: { node: IndexedNode; resume: ChildNode | null; light: ChildNode | null }[] = []
    const enter = (node: IndexedNode, resume: ChildNode | null): ChildNode | null => {
      const shadow = shadowOf(node.element)
      stack.push({ node, resume, light: shadow ? node.element.firstChild : null })
      return shadow ? shadow.firstChild : node.element.firstChild
    }
    let child = enter(open(root, null), null)
    let walked = 0
    while (stack.length > 0) {
      walked += 1
      if (walked % STEP === 0) yield undefined
      const frame = stack[stack.length - 1]!
      const owner = frame.node
      if (child === null) {
        if (frame.light) {
          child = frame.light
          frame.light = null
          continue
        }
        stack.pop()
        close(owner)
        child = frame.resume
        continue
      }
      const next: ChildNode | null = child.nextSibling
      if (child.nodeType === 3) {
        if (owner.tag !== 'head' && owner.tag !== 'html') addText((child as Text).data, owner)
        child = next
        continue
      }
      if (child.nodeType !== 1) {
        child = next
        continue
      }
      const element = child as unknown as Element
      const tag = element.localName
      if (nodes.length >= budget) {
        cut = true
        // Closing what is open keeps every range true.
        while (stack.length > 0) close(stack.pop()!.node)
        break
      }
      if (tag === 'script') scripts.push(element)
      else if (tag === 'meta') metas.push(element)
      if (tag === 'script' || tag === 'style' || tag === 'noscript' || tag === 'template') {
        child = next
        continue
      }
      if (
        !INLINE.has(tag) &&
        tag !== 'img' &&
        tag !== 'svg' &&
        tag !== 'input' &&
        tag !== 'picture' &&
        tag !== 'source'
      )
        lineBroken = true
      if (INLINE.has(tag) && isCard(element)) lineBroken = true
      const node = open(element, owner)
      // Text of an option, a text box or the document's title is no text of the page, but the element itself is kept.
      const opaque =
        SKIPPED.has(tag) || tag === 'option' || tag === 'textarea' || tag === 'title' || stack.length >= DEPTH_LIMIT
      if (opaque) {
        close(node)
        child = next
      } else child = enter(node, next)
    }
  }
  for (const each of lines) each.text = each.text.trimEnd()
  const textBefore = new Uint32Array(runs.length + 1)
  for (let i = 0; i < runs.length; i += 1) textBefore[i + 1] = textBefore[i]! + runs[i]!.text.length
  return { document, nodes, runs, lines, textBefore, byElement, scripts, metas, cut }
}

/** What the main heading stands in is the main part of the page, whatever its class says: those flags are taken off around it. */
export function clearRegionsAround(index: PageIndex, at: number): void {
  const flags = index.nodes[at]!.region & (REGION.chrome | REGION.aside | REGION.related | REGION.dialog)
  if (flags === 0) return
  let top = at
  while (index.nodes[top]!.parent >= 0 && index.nodes[index.nodes[top]!.parent]!.region & flags)
    top = index.nodes[top]!.parent
  for (let inner = top; inner < index.nodes[top]!.end; inner += 1) index.nodes[inner]!.region &= ~flags
}

/** Text of an element, lines parted by a space, cut at `limit` characters. Hidden parts are left out. */
export function textOf(index: PageIndex, at: number, limit = 2000): string {
  const node = index.nodes[at]
  if (!node) return ''
  let text = ''
  let line = -1
  for (let i = node.firstRun; i < node.lastRun && text.length < limit; i += 1) {
    const run = index.runs[i]!
    if (index.nodes[run.node]!.hidden && !node.hidden) continue
    if (line !== -1 && run.line !== line && !text.endsWith(' ')) text += ' '
    text += run.text
    line = run.line
  }
  return text.trim().slice(0, limit)
}

/** Text of an element with its lines parted by line ends. */
export function blockTextOf(index: PageIndex, at: number, limit = 50_000): string {
  const node = index.nodes[at]
  if (!node) return ''
  let text = ''
  let line = -1
  for (let i = node.firstRun; i < node.lastRun && text.length < limit; i += 1) {
    const run = index.runs[i]!
    if (index.nodes[run.node]!.hidden && !node.hidden) continue
    if (line !== -1 && run.line !== line) text = `${text.trimEnd()}\n`
    text += run.text
    line = run.line
  }
  return text.trim().slice(0, limit)
}

export function isWithin(index: PageIndex, at: number, ancestor: number): boolean {
  const node = index.nodes[ancestor]
  return node !== undefined && at >= ancestor && at < node.end
}

/** Length of the visible text of an element, cheaply: no string is built. */
export function textLengthOf(index: PageIndex, at: number): number {
  const node = index.nodes[at]!
  return (index.textBefore[node.lastRun] ?? 0) - (index.textBefore[node.firstRun] ?? 0)
}

/** The deepest element that holds both. */
export function commonAncestor(index: PageIndex, a: number, b: number): number {
  let at = a
  while (at >= 0 && !(b >= at && b < index.nodes[at]!.end)) at = index.nodes[at]!.parent
  return at
}
