/**
 * Serves the fictional market on free loopback ports: one origin a market, and one for the photos that sends no CORS
 * headers, as photo hosts do not. Nothing outside this machine is asked for, and nothing that is sent to it is kept.
 */
import { createServer, type RequestListener, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { readFont } from './market/fonts.ts'
import { MARKET_IDS, type MarketId, type Origins } from './market/listing-data.ts'
import { readPhoto } from './market/photo-host.ts'
import { findPage } from './market/render-page.ts'

export interface RunningMarket {
  readonly origins: Origins
  close(): Promise<void>
}

export interface StartOptions {
  /** ISO 8601 in UTC; the real time where it is left out. */
  readonly now?: string
}

function listen(server: Server): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen(0, '127.0.0.1', () => resolve((server.address() as AddressInfo).port))
  })
}

function stop(server: Server): Promise<void> {
  server.closeAllConnections()
  return new Promise((resolve) => server.close(() => resolve()))
}

function pages(market: MarketId, origins: () => Origins, now: string): RequestListener {
  return (request, response) => {
    const path = request.url ?? '/'
    const font = /^\/fonts\/([a-z0-9-]+)\.woff2$/.exec(path)?.[1]
    const fontBytes = font ? readFont(font) : null
    if (fontBytes) {
      response.writeHead(200, { 'content-type': 'font/woff2', 'cache-control': 'max-age=3600' }).end(fontBytes)
      return
    }
    const page = findPage(market, path, origins(), now)
    const type = path.startsWith('/api/') ? 'application/json' : 'text/html; charset=utf-8'
    if (page === null) response.writeHead(404, { 'content-type': 'text/html; charset=utf-8' }).end(NOT_FOUND)
    else response.writeHead(200, { 'content-type': type, 'cache-control': 'no-store' }).end(page)
  }
}

const NOT_FOUND =
  '<!doctype html><html lang="en"><title>Not here</title><p>There is nothing at this address.</p></html>'

const photos: RequestListener = (request, response) => {
  readPhoto(request.url ?? '/').then(
    (bytes) => {
      if (bytes === null) response.writeHead(404).end()
      else response.writeHead(200, { 'content-type': 'image/jpeg', 'cache-control': 'max-age=3600' }).end(bytes)
    },
    (fault: unknown) => {
      response.writeHead(500, { 'content-type': 'text/plain' }).end(String(fault))
    },
  )
}

export async function startMarket(options: StartOptions = {}): Promise<RunningMarket> {
  const now = options.now ?? new Date().toISOString()
  let origins: Origins | null = null
  const servers = [
    ...MARKET_IDS.map((market) => createServer(pages(market, () => origins!, now))),
    createServer(photos),
  ] as const
  const ports = await Promise.all(servers.map(listen))
  const [quayside, moewenmarkt, lamplight, brambleboard, photoHost] = ports.map((port) => `http://127.0.0.1:${port}`)
  origins = {
    quayside: quayside!,
    moewenmarkt: moewenmarkt!,
    lamplight: lamplight!,
    brambleboard: brambleboard!,
    photos: photoHost!,
  }
  return { origins, close: async () => void (await Promise.all(servers.map(stop))) }
}
