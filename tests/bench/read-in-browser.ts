/** What the bench puts into a page: the reader as the content script carries it. */
export { createLayoutProbe } from '../../src/page/layout-probe.ts'
export { readPage } from '../../src/page/read-page.ts'
