/**
 * Pages of Lamplight Gavel Rooms: an auction house's catalogue. Open Graph in the head, the facts in tables, estimate,
 * buyer's premium and, once sold, the hammer price. Turns data into HTML and nothing else.
 */
import { shiftHours } from '../clock.ts'
import type { DemoListing } from '../listing-data.ts'
import { LAMPLIGHT_LISTINGS } from '../listings/lamplight.ts'
import { inPounds, onDay } from '../money-words.ts'
import { firstPhoto, html, type Markup, type PageContext, photoUrl, raw, similarListings } from './html.ts'
import { LAMPLIGHT_STYLE } from './lamplight-style.ts'
import { messageScript } from './message-box.ts'

const MESSAGE_LIMIT = 2000

function frame(title: string, head: Markup, body: Markup): string {
  return html`<!DOCTYPE html>
<html lang="en-GB" prefix="og: https://ogp.me/ns#">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title} – Lamplight Gavel Rooms</title>
${head}
<style>${raw(LAMPLIGHT_STYLE)}</style>
</head>
<body>
<header><a class="house" href="/"><svg width="38" height="46" viewBox="0 0 38 46" aria-hidden="true"><path d="M12 14h14l5 24H7z" fill="none" stroke="#c9a25c" stroke-width="2"/><path d="M14 14c0-12 10-12 10 0" fill="none" stroke="#c9a25c" stroke-width="2"/><path d="M19 20c5 6 4 12 0 12s-5-6 0-12z" fill="#e9c87c"/><path d="M5 42h28" stroke="#c9a25c" stroke-width="3"/></svg><span>Lamplight<small>Gavel Rooms · Port Ennish · since 1974</small></span></a>
<nav><a href="/sale-61">Sale 61</a><a href="/sale-58">Past sales</a><a href="/conditions">Conditions of sale</a><a href="/consign">Consign</a></nav></header>
${body}
<footer><p>Lamplight Gavel Rooms, 4 Chandler’s Stair, Port Ennish. Viewing the day before each sale, ten to four.</p><p>An invented auction house. No lot on these pages exists.</p></footer>
</body>
</html>
`.text
}

function moneyTable(listing: DemoListing, context: PageContext): Markup {
  const sold = listing.soldDaysAgo !== null
  const ends = listing.endsInHours === null ? null : shiftHours(context.now, listing.endsInHours)
  const soldAt = sold ? shiftHours(context.now, -24 * listing.soldDaysAgo!) : null
  const long = { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' } as const
  const reserve = { met: 'Met', 'not-met': 'Not yet met', none: 'Offered without reserve' }[listing.reserve ?? 'none']
  const line = (name: string, value: Markup | string): Markup =>
    html`<tr><th scope="row">${name}</th><td>${value}</td></tr>`
  return html`<table class="money"><tbody>
${line('Estimate', `${inPounds(listing.estimate!.low)} – ${inPounds(listing.estimate!.high)}`)}
${
  sold
    ? html`${line('Hammer price', html`<strong>${inPounds(listing.price)}</strong>`)}${line('Sold', html`<time datetime="${soldAt!.slice(0, 10)}">${onDay(soldAt!, 'en-GB', long)}</time>`)}`
    : html`${line(listing.priceKind === 'starting-bid' ? 'Opening bid' : 'Current bid', html`<strong>${inPounds(listing.price)}</strong>${listing.bids! > 0 && ` (${listing.bids} bids)`}`)}${line('Next bid', inPounds(String(Number(listing.price) + Number(listing.increment))))}${line('Closes', html`<time datetime="${ends}">${onDay(ends!, 'en-GB', { ...long, hour: '2-digit', minute: '2-digit' })} UTC</time>`)}`
}
${line('Reserve', reserve)}
${line('Buyer’s premium', `${listing.premiumPercent}% of the hammer price`)}
${line('Postage', `${inPounds(listing.shipping!)} insured`)}
</tbody></table>`
}

function lotPage(listing: DemoListing, context: PageContext): string {
  const { origins } = context
  const saleNumber = listing.path.split('/')[1]!
  return frame(
    `Lot ${listing.itemNumber}: ${listing.title}`,
    html`<meta property="og:type" content="website">
<meta property="og:site_name" content="Lamplight Gavel Rooms">
<meta property="og:title" content="${listing.title}">
<meta property="og:url" content="${origins.lamplight}${listing.path}">
<meta property="og:description" content="${listing.description[0]}">
${listing.photos.map((photo) => html`<meta property="og:image" content="${photoUrl(origins, photo.file, 'full')}">\n`)}`,
    html`<main><p class="trail"><a href="/">Sales</a> · <a href="/${saleNumber}">${listing.categories[0]}</a> · ${listing.categories[1]}</p>
<p class="lotno">Lot ${listing.itemNumber}</p><h1>${listing.title}</h1>
<div class="plate"><div class="large"><a href="${photoUrl(origins, firstPhoto(listing).file, 'full')}"><img src="${photoUrl(origins, firstPhoto(listing).file, '640')}" alt="${firstPhoto(listing).alt}"></a></div>
<div class="facts">${moneyTable(listing, context)}
${listing.soldDaysAgo === null && html`<form class="bid" onsubmit="return false"><input aria-label="Your maximum bid" placeholder="Your maximum, £"><button>Leave a bid</button></form>`}
<p class="terms">${listing.returns?.words}</p>
<p class="terms">Payment: ${listing.payments.join('; ')}.</p></div></div>
<div class="plates">${listing.photos.map(
      (photo) =>
        html`<figure><a href="${photoUrl(origins, photo.file, 'full')}"><img src="${photoUrl(origins, photo.file, '640')}" alt="${photo.alt}" loading="lazy"></a><figcaption>${photo.alt}</figcaption></figure>`,
    )}</div>
<div class="columns"><section><h2>Catalogue note</h2>${listing.description.map((words) => html`<p>${words}</p>`)}
<h2>Condition</h2><p>${listing.condition}</p></section>
<section><h2>Particulars</h2><table class="particulars"><tbody>${listing.specifics.map(([name, value]) => html`<tr><td>${name}</td><td>${value}</td></tr>`)}</tbody></table>
<p class="vendor">Offered by <a href="/about">${listing.seller.name}</a>, ${listing.seller.location}</p></section></div>
<section class="enquiry"><h2>Ask the rooms about this lot</h2><form data-message><textarea name="enquiry" aria-label="Your question" maxlength="${MESSAGE_LIMIT}"></textarea><button>Send enquiry</button></form></section>
<section><h2>Also in our rooms</h2><div class="also">${similarListings(LAMPLIGHT_LISTINGS, listing, 4).map(
      (other) =>
        html`<a href="${other.path}"><img src="${photoUrl(origins, firstPhoto(other).file, '640')}" alt="" loading="lazy"><span>Lot ${other.itemNumber}</span>${other.title}<em>${inPounds(other.estimate!.low)}–${inPounds(other.estimate!.high)}</em></a>`,
    )}</div></section></main>
<script>${raw(messageScript('Kept on this page only – nothing was sent:'))}</script>`,
  )
}

function salePage(sale: string, context: PageContext): string | null {
  const lots = LAMPLIGHT_LISTINGS.filter((listing) => listing.path.startsWith(`/${sale}/`))
  if (lots.length === 0) return null
  const title = lots[0]!.categories[0]!
  return frame(
    title,
    html`<meta property="og:title" content="${title}"><meta property="og:type" content="website">`,
    html`<main><p class="trail"><a href="/">Sales</a></p><h1>${title}</h1>
<table class="catalogue"><thead><tr><th>Lot</th><th></th><th>Description</th><th>Estimate</th><th>${lots[0]!.soldDaysAgo === null ? 'Bid' : 'Hammer'}</th></tr></thead><tbody>${lots.map(
      (lot) =>
        html`<tr><td>${lot.itemNumber}</td><td><a href="${lot.path}"><img src="${photoUrl(context.origins, firstPhoto(lot).file, '640')}" alt="" loading="lazy"></a></td><td><a href="${lot.path}">${lot.title}</a></td><td>${inPounds(lot.estimate!.low)}–${inPounds(lot.estimate!.high)}</td><td>${inPounds(lot.price)}</td></tr>`,
    )}</tbody></table></main>`,
  )
}

function conditionsPage(): string {
  return frame(
    'Conditions of sale',
    html`<meta property="og:title" content="Conditions of sale"><meta property="og:type" content="article">`,
    html`<main><p class="trail"><a href="/">Sales</a></p><h1>Conditions of sale</h1><div class="columns"><section><p>A premium of 22% is added to the hammer price of each lot. A hammer price of £100 is thus £122 to pay.</p><p>A lot that proves not to be as catalogued may be returned for a full refund within 21 days of the sale, unless the catalogue says that it is sold not subject to return.</p></section><section><p>Bids rise by £2 below £50, £5 to £200, £10 to £500, £50 to £1,000 and £100 above.</p></section></div></main>`,
  )
}

/** The page at `path`, or `null` where the house has none. */
export function renderLamplight(path: string, context: PageContext): string | null {
  const { pathname } = new URL(path, 'https://l.example')
  const listing = LAMPLIGHT_LISTINGS.find((candidate) => candidate.path === pathname)
  if (listing) return lotPage(listing, context)
  if (pathname === '/conditions') return conditionsPage()
  return salePage(pathname === '/' ? 'sale-61' : pathname.slice(1), context)
}
