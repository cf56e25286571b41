/**
 * Serves one saved page from this machine, with the files beside it, so that the extension meets it as it meets any page. With
 * a folder of photos, the addresses in the page whose file name is in that folder lead there. Nothing outside the two folders
 * is served.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { basename, dirname, extname, resolve, sep } from 'node:path'
import { decodePage } from '../cli/decode-page.ts'

export interface ServedPage {
  readonly url: string
  /** Names in the folder of photos that the page does not mention. */
  readonly unnamedPhotos: readonly string[]
  close(): Promise<void>
}

const TYPES: Readonly<Record<string, string>> = {
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.gif': 'image/gif',
  '.avif': 'image/avif',
  '.woff2': 'font/woff2',
}

const PHOTO = /\.(jpe?g|png|webp|gif|avif)$/i
const PHOTO_PATH = '/touchstone-photos/'

/** Throws when the page or the folder cannot be read. */
export async function serveSavedPage(file: string, photoFolder: string | null): Promise<ServedPage> {
  const folder = dirname(resolve(file))
  const page = decodePage(readFileSync(file))
  const photos = photoFolder === null ? [] : readdirSync(photoFolder).filter((name) => PHOTO.test(name))
  let html = page
  const unnamedPhotos: string[] = []

  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname)
    const send = (type: string, body: string | Buffer) => response.writeHead(200, { 'content-type': type }).end(body)
    if (path === `/${basename(file)}`) return send('text/html; charset=utf-8', html)
    const wanted = path.startsWith(PHOTO_PATH)
      ? within(photoFolder, path.slice(PHOTO_PATH.length))
      : within(folder, path.slice(1))
    if (wanted === null) return response.writeHead(404).end()
    send(TYPES[extname(wanted).toLowerCase()] ?? 'application/octet-stream', readFileSync(wanted))
  })
  await new Promise<void>((done, fail) => {
    server.once('error', fail)
    server.listen(0, '127.0.0.1', done)
  })
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  for (const name of photos) {
    const address = `${origin}${PHOTO_PATH}${encodeURIComponent(name)}`
    const led = html.replace(addressesOf(name), address)
    if (led === html) unnamedPhotos.push(name)
    html = led
  }
  return {
    url: `${origin}/${encodeURIComponent(basename(file))}`,
    unnamedPhotos,
    close: () => {
      server.closeAllConnections()
      return new Promise((done) => server.close(() => done()))
    },
  }
}

/** Any address, whole or relative, whose last part is `name`. */
function addressesOf(name: string): RegExp {
  const words = [...new Set([name, encodeURIComponent(name)])].map((word) =>
    word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'),
  )
  return new RegExp(
    `(?<=["'(=\\s,])(?:[^"'()\\s,<>]*/)?(?:${words.join('|')})(?:\\?[^"'()\\s,<>]*)?(?=["')\\s,<>])`,
    'g',
  )
}

function within(folder: string | null, path: string): string | null {
  if (folder === null) return null
  const wanted = resolve(folder, path)
  if (!wanted.startsWith(resolve(folder) + sep)) return null
  try {
    return statSync(wanted).isFile() ? wanted : null
  } catch {
    return null
  }
}
