/** One page from this machine, with what a test wants in it and the strictest policy that a page may have. */
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface SmallPage {
  readonly url: string
  close(): Promise<void>
}

export async function serveSmallPage(body: string, policy = "default-src 'none'"): Promise<SmallPage> {
  const server = createServer((_request, response) => {
    response
      .writeHead(200, { 'content-type': 'text/html; charset=utf-8', 'content-security-policy': policy })
      .end(`<!doctype html><html lang="en"><title>A page</title><body>${body}</body></html>`)
  })
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () => {
      server.closeAllConnections()
      return new Promise((done) => server.close(() => done()))
    },
  }
}
