/**
 * Any page of any market as HTML, without a server: what the server sends, and what tests and the command line read.
 * Pure: the same arguments give the same text.
 */
import { DEMO_NOW } from './clock.ts'
import { EXAMPLE_ORIGINS, type MarketId, type Origins } from './listing-data.ts'
import { renderBrambleboard, renderSavedBrambleboard } from './pages/brambleboard.ts'
import type { PageContext } from './pages/html.ts'
import { renderLamplight } from './pages/lamplight.ts'
import { renderMoewenmarkt } from './pages/moewenmarkt.ts'
import { renderQuayside } from './pages/quayside.ts'

const RENDERERS: Readonly<Record<MarketId, (path: string, context: PageContext) => string | null>> = {
  quayside: renderQuayside,
  moewenmarkt: renderMoewenmarkt,
  lamplight: renderLamplight,
  brambleboard: renderBrambleboard,
}

/** `null` where the market has no such page. `now` is ISO 8601 in UTC. */
export function findPage(market: MarketId, path: string, origins: Origins, now: string): string | null {
  return RENDERERS[market](path, { origins, now })
}

/** What the market's server sends. Throws where the market has no such page. */
export function renderPage(
  market: MarketId,
  path: string,
  origins: Origins = EXAMPLE_ORIGINS,
  now: string = DEMO_NOW,
): string {
  const page = findPage(market, path, origins, now)
  if (page === null) throw new Error(`${market} has no page ${path}`)
  return page
}

/** The page as a browser would save it: after its own script has run. Throws where the market has no such page. */
export function renderedPage(
  market: MarketId,
  path: string,
  origins: Origins = EXAMPLE_ORIGINS,
  now: string = DEMO_NOW,
): string {
  if (market !== 'brambleboard') return renderPage(market, path, origins, now)
  const page = renderSavedBrambleboard(path, { origins, now })
  if (page === null) throw new Error(`${market} has no page ${path}`)
  return page
}
