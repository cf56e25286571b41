/**
 * Pages of Brambleboard: classified ads. The page arrives empty and fills by script from `/api/…`; there is no
 * structured data. `renderSavedBrambleboard` gives the page as a browser would save it after the script ran.
 */
import { JSDOM } from 'jsdom'
import type { DemoListing } from '../listing-data.ts'
import { BRAMBLEBOARD_LISTINGS } from '../listings/brambleboard.ts'
import { FURTHER_ROWS } from '../rows.ts'
import { BRAMBLEBOARD_CLIENT, BRAMBLEBOARD_START } from './brambleboard-client.ts'
import { BRAMBLEBOARD_STYLE } from './brambleboard-style.ts'
import { firstPhoto, html, type PageContext, photoUrl, raw, similarListings } from './html.ts'
import { messageScript } from './message-box.ts'

/** `€12 ono`, `35 € VB`: as private sellers write it, no decimals. */
function asked(listing: DemoListing): string {
  const amount = Number(listing.price)
  return listing.language === 'de'
    ? `${amount} €${listing.bestOffer ? ' VB' : ''}`
    : `€${amount}${listing.bestOffer ? ' ono' : ''}`
}

function postage(listing: DemoListing): string {
  if (listing.language === 'de') {
    return listing.shipping ? `Versand ${Number(listing.shipping).toFixed(2).replace('.', ',')} €` : 'Nur Abholung'
  }
  return listing.shipping ? `Postage €${Number(listing.shipping).toFixed(2)}` : 'Collection or by agreement'
}

function boardOf(listings: readonly DemoListing[], context: PageContext) {
  return listings.map((listing) => ({
    title: listing.title,
    href: listing.path,
    price: asked(listing),
    place: listing.seller.location,
    photo: photoUrl(context.origins, firstPhoto(listing).file, '640'),
  }))
}

/** Ads without a page of their own, so that the board is as full as a board is. */
function furtherAds(context: PageContext) {
  return FURTHER_ROWS.slice(0, 8).map((row, place) => ({
    title: row.title,
    href: `/ad/gone-${row.itemNumber}`,
    price: `€${Math.round(Number(row.price))}${place % 2 ? ' ono' : ''}`,
    place: ['Saltmere', 'Grindle Bay', 'Lower Wyrd', 'Port Ennish'][place % 4]!,
    photo: photoUrl(context.origins, row.photo.file, '640'),
  }))
}

function stateOf(path: string, context: PageContext): unknown {
  const { pathname } = new URL(path, 'https://b.example')
  if (pathname === '/') {
    return {
      title: 'Cards and other small treasures',
      ad: null,
      board: [...boardOf(BRAMBLEBOARD_LISTINGS, context), ...furtherAds(context)],
    }
  }
  const listing = BRAMBLEBOARD_LISTINGS.find((candidate) => candidate.path === pathname)
  if (!listing) return null
  const { seller } = listing
  return {
    title: listing.title,
    board: [],
    ad: {
      title: listing.title,
      path: [...listing.categories, seller.location],
      price: asked(listing),
      postage: postage(listing),
      chips: [listing.condition, seller.location, `Ad ${listing.itemNumber}`],
      words: listing.description,
      photos: listing.photos.map((photo) => ({
        large: photoUrl(context.origins, photo.file, 'full'),
        small: photoUrl(context.origins, photo.file, '160'),
        alt: photo.alt,
      })),
      seller: {
        name: seller.name,
        since: `On the board since ${seller.memberSince}`,
        ratings:
          seller.feedbackCount > 0
            ? `${seller.feedbackCount} ratings, ${seller.feedbackPercent}% happy`
            : 'No ratings yet',
      },
      similar: boardOf(similarListings(BRAMBLEBOARD_LISTINGS, listing, 3), context),
    },
  }
}

const SHOW_SENT = messageScript('Kept on this page only – nothing was sent:')

const ABOUT_PAGE = html`<h1 class="c5">How the board works</h1><div class="c2 c8"><p>Pin an ad, answer questions, meet at the kitchen table. An ad stays up for 60 days and costs nothing; a frame around it costs €3.</p><p>Use the safe-deal button when you post things. Never pay with gift cards.</p></div>`

const GONE_PAGE = html`<h1 class="c5">This ad has come down</h1><div class="c2 c8"><p>Whoever pinned it has taken it off the board. <a href="/">Back to the board</a></p></div>`

function shell(body: string, scripts: string): string {
  return html`<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Brambleboard</title><style>${raw(BRAMBLEBOARD_STYLE)}</style></head>
<body>
<div class="b1"><div><a class="b2" href="/"><svg width="30" height="30" viewBox="0 0 30 30" aria-hidden="true"><g fill="#5b2a6e"><circle cx="11" cy="13" r="4.6"/><circle cx="19" cy="13" r="4.6"/><circle cx="15" cy="19" r="4.6"/><circle cx="10" cy="20" r="3.6"/><circle cx="20" cy="20" r="3.6"/><circle cx="15" cy="25" r="4"/></g><path d="M15 9c0-6 7-7 9-6-1 5-5 6-9 6z" fill="#2f6b2a"/></svg>brambleboard</a><input class="b3" aria-label="Search the board" placeholder="Search the board"><button class="b4">Pin an ad</button></div></div>
<div id="root">${raw(body)}</div>
<div class="f1">Brambleboard is made up, with everyone on it. · <a href="/how">How the board works</a></div>
${raw(scripts)}
</body>
</html>
`.text
}

function clientScripts(): string {
  return `<script>${BRAMBLEBOARD_CLIENT}\n${BRAMBLEBOARD_START.replace('SHOW_SENT', SHOW_SENT)}</script>`
}

/** The page (or, below `/api/`, the answer) at `path`, or `null` where the board has none. */
export function renderBrambleboard(path: string, context: PageContext): string | null {
  if (path === '/how') return shell(ABOUT_PAGE.text, '')
  if (path.startsWith('/ad/gone-')) return shell(GONE_PAGE.text, '')
  const asData = path.startsWith('/api/')
  const state = stateOf(asData ? path.slice(4) : path, context)
  if (state === null) return null
  return asData ? JSON.stringify(state) : shell('<p class="b5">Loading …</p>', clientScripts())
}

/** The page at `path` after its script has run, as a browser saves it; `null` where the board has none. */
export function renderSavedBrambleboard(path: string, context: PageContext): string | null {
  const page = renderBrambleboard(path, context)
  const state = page === null || path === '/how' || path.startsWith('/ad/gone-') ? null : stateOf(path, context)
  if (page === null || state === null) return page
  const dom = new JSDOM(shell('', ''), { runScripts: 'outside-only', url: context.origins.brambleboard + path })
  dom.window.eval(BRAMBLEBOARD_CLIENT)
  dom.window.eval(`drawPage(${JSON.stringify(state)})`)
  const saved = dom.serialize()
  dom.window.close()
  return saved
}
