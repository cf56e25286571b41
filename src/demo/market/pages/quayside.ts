/**
 * Pages of Quayside Lots: English, auctions and fixed prices, structured data as JSON-LD, a message form on each lot.
 * Turns data into HTML and nothing else.
 */
import { shiftHours } from '../clock.ts'
import type { DemoListing, DemoRow } from '../listing-data.ts'
import { QUAYSIDE_LISTINGS } from '../listings/quayside.ts'
import { inDaysAndHours, inEnglish, onDay } from '../money-words.ts'
import { FURTHER_ROWS, SOLD_ROWS } from '../rows.ts'
import { firstPhoto, html, inlineJson, type Markup, type PageContext, photoUrl, raw, similarListings } from './html.ts'
import { GALLERY_SCRIPT, messageScript } from './message-box.ts'
import { QUAYSIDE_STYLE } from './quayside-style.ts'

const MESSAGE_LIMIT = 1000
const euros = (amount: string): string => inEnglish(amount, 'EUR')
const timeLeft = (hours: number): string => inDaysAndHours(hours, { day: 'd', hour: 'h' })

function frame(title: string, head: Markup, body: Markup): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title} | Quayside Lots</title>
${head}
<style>${raw(QUAYSIDE_STYLE)}</style>
</head>
<body>
<div class="strip"><div class="wrap"><span>Harbour hours: bids close on the minute, tide or no tide</span><a href="/help/buying">Help</a><a href="/watch">Watch list</a><a href="/sign-in">Sign in</a></div></div>
<header class="mast"><div class="wrap">
<a class="brand" href="/"><svg width="34" height="34" viewBox="0 0 34 34" aria-hidden="true"><rect width="34" height="34" fill="#10243a"/><path d="M9 9h16v5h-4v13h-8V14H9z" fill="#fff"/><path d="M13 18h8v4h-8z" fill="#d1481f"/></svg>Quayside<i>Lots</i></a>
<form class="find" action="/find" role="search"><input name="q" aria-label="Search all lots" placeholder="Search all lots"><button>Find</button></form>
</div></header>
<nav class="tabs" aria-label="Departments"><div class="wrap"><a href="/find?q=skerryball">Skerryball</a><a href="/find?q=ships">Ships &amp; harbour</a><a href="/find?q=insects">Natural history</a><a href="/sold?q=odo+marrable+17">Sold prices</a><a href="/help/buying">How it works</a></div></nav>
${body}
<footer class="foot"><div class="wrap"><div><b>Buying</b><a href="/help/buying">Bidding and paying</a><a href="/help/returns">Returns</a></div><div><b>Selling</b><a href="/help/selling">Your first lot</a><a href="/help/fees">Fees</a></div><div><b>Quayside</b><a href="/about">Who we are</a><a href="/rules">House rules</a></div><div><b>An invented market</b><p>Every lot, seller and price on this site is made up.</p></div></div></footer>
</body>
</html>
`.text
}

function productJson(listing: DemoListing, context: PageContext): Markup {
  const auction = listing.format === 'auction'
  return inlineJson({
    '@context': 'https://schema.org',
    '@type': 'Product',
    name: listing.title,
    sku: listing.itemNumber,
    url: context.origins.quayside + listing.path,
    category: listing.categories.join(' > '),
    image: listing.photos.map((photo) => photoUrl(context.origins, photo.file, 'full')),
    additionalProperty: listing.specifics.map(([name, value]) => ({ '@type': 'PropertyValue', name, value })),
    offers: {
      '@type': 'Offer',
      url: context.origins.quayside + listing.path,
      price: listing.price,
      priceCurrency: 'EUR',
      availability: 'https://schema.org/InStock',
      ...(auction ? { availabilityEnds: shiftHours(context.now, listing.endsInHours!) } : {}),
      seller: { '@type': 'Person', name: listing.seller.name },
      hasMerchantReturnPolicy: {
        '@type': 'MerchantReturnPolicy',
        returnPolicyCategory: `https://schema.org/${listing.returns?.accepted ? 'MerchantReturnFiniteReturnWindow' : 'MerchantReturnNotPermitted'}`,
        ...(listing.returns?.days ? { merchantReturnDays: listing.returns.days } : {}),
      },
      shippingDetails: {
        '@type': 'OfferShippingDetails',
        shippingRate: { '@type': 'MonetaryAmount', value: listing.shipping, currency: 'EUR' },
      },
    },
  })
}

function crumbsJson(listing: DemoListing, context: PageContext): Markup {
  return inlineJson({
    '@context': 'https://schema.org',
    '@type': 'BreadcrumbList',
    itemListElement: listing.categories.map((name, place) => ({
      '@type': 'ListItem',
      position: place + 1,
      name,
      item: `${context.origins.quayside}/find?q=${encodeURIComponent(name.toLowerCase())}`,
    })),
  })
}

function buyBox(listing: DemoListing, context: PageContext): Markup {
  if (listing.format === 'auction') {
    const ends = shiftHours(context.now, listing.endsInHours!)
    const next = euros((Number(listing.price) + Number(listing.increment)).toFixed(2))
    const reserve = { met: 'Reserve met', 'not-met': 'Reserve not met', none: 'No reserve' }[listing.reserve ?? 'none']
    return html`<div class="buy"><div class="label">Current bid</div>
<span class="amount">${euros(listing.price)}</span><a href="#bids">${listing.bids} bids</a> · ${reserve}
<p class="clock">Time left: <b>${timeLeft(listing.endsInHours!)}</b> · ends <time datetime="${ends}">${onDay(ends, 'en-IE', { weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' })} UTC</time></p>
<div class="row"><input aria-label="Your bid" placeholder="${next} or more"><button class="btn" type="button">Place bid</button></div>
<div class="row"><button class="btn quiet" type="button">Watch this lot</button></div></div>`
  }
  return html`<div class="buy"><div class="label">Price</div>
<span class="amount">${euros(listing.price)}</span>${listing.bestOffer && html`<span>or best offer</span>`}
<div class="row"><button class="btn" type="button">Buy now</button>${listing.bestOffer && html`<button class="btn quiet" type="button">Make an offer</button>`}</div>
<div class="row"><button class="btn quiet" type="button">Watch this lot</button></div></div>`
}

function lotPage(listing: DemoListing, context: PageContext): string {
  const { origins } = context
  const main = firstPhoto(listing)
  const alt = (place: number): string =>
    listing.photos[place]!.alt ?? `Picture ${place + 1} of ${listing.photos.length}`
  return frame(
    listing.title,
    html`<link rel="canonical" href="${origins.quayside}${listing.path}">
<meta property="og:title" content="${listing.title}">
<meta property="og:type" content="product">
<meta property="og:image" content="${photoUrl(origins, main.file, '640')}">
<script type="application/ld+json">${productJson(listing, context)}</script>
<script type="application/ld+json">${crumbsJson(listing, context)}</script>`,
    html`<main class="wrap">
<nav class="crumbs" aria-label="Breadcrumb"><ol>${listing.categories.map((name) => html`<li><a href="/find?q=${encodeURIComponent(name.toLowerCase())}">${name}</a></li>`)}</ol></nav>
<div class="lot">
<div class="shots" data-gallery>
<ul class="rail">${listing.photos.map(
      (photo, place) =>
        html`<li><a href="${photoUrl(origins, photo.file, 'full')}" data-large="${photoUrl(origins, photo.file, 'full')}"${place === 0 && raw(' aria-current')}><img src="${photoUrl(origins, photo.file, '160')}" alt="${alt(place)}" width="70" height="70"></a></li>`,
    )}</ul>
<figure class="stage"><img data-main-photo src="${photoUrl(origins, main.file, '640')}" srcset="${photoUrl(origins, main.file, '640')} 640w, ${photoUrl(origins, main.file, 'full')} 1300w" sizes="600px" alt="${alt(0)}"><figcaption>${listing.photos.length} ${listing.photos.length === 1 ? 'picture' : 'pictures'} by the seller</figcaption></figure>
</div>
<div>
<h1>${listing.title}</h1>
<p class="state">Condition: <b>${listing.condition}</b></p>
${buyBox(listing, context)}
<dl class="terms">
<dt>Postage</dt><dd>${listing.shipping === null ? 'Ask the seller' : `${euros(listing.shipping)} tracked letter or parcel`}</dd>
<dt>Returns</dt><dd>${listing.returns?.words}</dd>
<dt>Payments</dt><dd>${listing.payments.join(', ')}</dd>
<dt>Item location</dt><dd>${listing.seller.location}</dd>
<dt>Lot number</dt><dd>${listing.itemNumber}</dd>
</dl>
<aside class="seller" aria-label="Seller"><div class="face" aria-hidden="true">${listing.seller.name[0]!.toUpperCase()}</div><div><p><b><a href="/seller/${listing.seller.name}">${listing.seller.name}</a></b> (${listing.seller.feedbackCount})</p><p>${listing.seller.feedbackPercent}% positive feedback</p><p>Member since ${listing.seller.memberSince}</p></div></aside>
</div>
</div>
<section class="part"><h2>Item specifics</h2><dl class="specs">${listing.specifics.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl></section>
<div class="two"><section class="part"><h2>Description from the seller</h2><div class="words">${listing.description.map((words) => html`<p>${words}</p>`)}</div></section>
<section class="part" id="ask"><h2>Ask ${listing.seller.name}</h2>
<form class="ask" data-message><label for="message">Your message</label><textarea id="message" name="message" maxlength="${MESSAGE_LIMIT}" placeholder="Ask about the lot, the pictures or postage"></textarea><div class="row"><button class="btn">Send message</button><small>Up to ${MESSAGE_LIMIT} characters</small></div></form></section></div>
<section class="part"><h2>Similar lots</h2><ul class="strip-items">${similarListings(QUAYSIDE_LISTINGS, listing, 5).map(
      (other, place) =>
        html`<li><a href="${other.path}"><img src="${photoUrl(origins, firstPhoto(other).file, '640')}" alt="" loading="lazy">${other.title}</a><span class="p">${euros(other.price)}</span>${place === 1 && html`<s>${euros((Number(other.price) * 1.25).toFixed(2))}</s>`}</li>`,
    )}</ul></section>
</main>
<script>${raw(GALLERY_SCRIPT)}
${raw(messageScript('Kept on this page only – nothing was sent:'))}</script>`,
  )
}

type Hit = Pick<
  DemoListing,
  'title' | 'price' | 'format' | 'bids' | 'shipping' | 'endsInHours' | 'soldDaysAgo' | 'bestOffer'
> & {
  href: string
  photo: string
  seller: string
}

function hitOfListing(listing: DemoListing): Hit {
  return { ...listing, href: listing.path, photo: firstPhoto(listing).file, seller: listing.seller.name }
}

function hitOfRow(row: DemoRow): Hit {
  return { ...row, bestOffer: false, href: `/lot/${row.itemNumber}`, photo: row.photo.file }
}

function hit(item: Hit, context: PageContext): Markup {
  const sold = item.soldDaysAgo !== null
  const day = sold ? shiftHours(context.now, -24 * item.soldDaysAgo!) : null
  return html`<li class="hit"><a href="${item.href}"><img src="${photoUrl(context.origins, item.photo, '640')}" alt="${item.title}" loading="lazy"></a><div>
${day && html`<div class="sold-on">Sold <time datetime="${day.slice(0, 10)}">${onDay(day, 'en-IE', { day: 'numeric', month: 'short', year: 'numeric' })}</time></div>`}
<h3><a href="${item.href}">${item.title}</a></h3>
<div class="price${sold ? ' was-sold' : ''}">${euros(item.price)}</div>
<div class="meta">${item.format === 'auction' ? `${item.bids} bids` : item.bestOffer ? 'Buy now or best offer' : 'Buy now'}${item.endsInHours !== null && ` · ${timeLeft(item.endsInHours)} left`}${item.shipping === '0' ? ' · free postage' : item.shipping && ` · + ${euros(item.shipping)} postage`}</div>
<div class="sub">from <a href="/seller/${item.seller}">${item.seller}</a></div></div></li>`
}

function resultsPage(context: PageContext, heading: string, hits: readonly Hit[], sold: boolean): string {
  return frame(
    heading,
    html`<meta name="robots" content="noindex">`,
    html`<main class="wrap"><nav class="crumbs" aria-label="Breadcrumb"><ol><li><a href="/">Home</a></li><li>Trading cards</li></ol></nav>
<div class="found"><aside class="side"><h3>Show</h3><label><input type="checkbox"${sold && raw(' checked')}> Sold lots</label><label><input type="checkbox"> Auctions</label><label><input type="checkbox"> Buy now</label><h3>Price</h3><label>under €50</label><label>€50 to €500</label><label>over €500</label><h3>Decade</h3><label>1930s</label><label>1950s</label><label>2020s</label></aside>
<div><div class="bar"><h1>${heading}</h1><span>${hits.length} lots</span></div>
<ol class="hits">${hits.map((item) => hit(item, context))}</ol>
<div class="pages"><b>1</b><a href="?page=2">2</a><a href="?page=2">Next</a></div></div></div></main>`,
  )
}

function sellerPage(name: string): string {
  const { seller } = QUAYSIDE_LISTINGS.find((listing) => listing.seller.name === name)!
  return frame(
    name,
    html`<meta name="description" content="About the seller ${name}">`,
    html`<main class="wrap words"><nav class="crumbs" aria-label="Breadcrumb"><ol><li><a href="/">Home</a></li><li>Sellers</li></ol></nav>
<h1>${name}</h1><p>${seller.location} · member since ${seller.memberSince} · ${seller.feedbackPercent}% positive of ${seller.feedbackCount} ratings</p>
<section class="part"><h2>About</h2><p>Packed in boards, posted twice a week. Questions are answered in the evening.</p></section>
<section class="part"><h2>Latest ratings</h2><p>“Exactly as pictured.” – “Quick and careful.” – “Good packing, fair postage.”</p></section></main>`,
  )
}

function helpPage(): string {
  return frame(
    'Bidding and paying',
    html`<meta name="description" content="How bidding and paying work at Quayside Lots">`,
    html`<main class="wrap words"><nav class="crumbs" aria-label="Breadcrumb"><ol><li><a href="/">Home</a></li><li>Help</li></ol></nav>
<h1>Bidding and paying</h1>
<p>A bid is a promise. The step between two bids depends on the amount: €1 up to €50, €5 up to €500, €20 above. If you bid €120 on a lot that stands at €90, the lot moves to €95 and you lead.</p>
<p>Pay within four days through the site. We never ask you to pay outside it, and a seller who does so breaks the house rules.</p>
<section class="part"><h2>When something is wrong</h2><p>Write to the seller first. If that does not help within five days, open a case with us.</p></section></main>`,
  )
}

/** What rows without a page of their own lead to. */
function takenBackPage(): string {
  return frame(
    'This lot has gone',
    html`<meta name="robots" content="noindex">`,
    html`<main class="wrap words"><nav class="crumbs" aria-label="Breadcrumb"><ol><li><a href="/">Home</a></li></ol></nav>
<h1>This lot has gone</h1><p>The seller has taken it back, or it was sold long ago. <a href="/find?q=skerryball">Look at what is on the quay now</a>.</p></main>`,
  )
}

/** The page at `path` (query included), or `null` where Quayside Lots has none. */
export function renderQuayside(path: string, context: PageContext): string | null {
  const url = new URL(path, 'https://q.example')
  const listing = QUAYSIDE_LISTINGS.find((candidate) => candidate.path === url.pathname)
  if (listing) return lotPage(listing, context)
  const query = (url.searchParams.get('q') ?? '').toLowerCase()
  if (url.pathname === '/sold') {
    return resultsPage(context, 'Sold: odo marrable 17', SOLD_ROWS.map(hitOfRow), true)
  }
  if (url.pathname === '/' || url.pathname === '/find') {
    const all = [...QUAYSIDE_LISTINGS.map(hitOfListing), ...FURTHER_ROWS.map(hitOfRow)]
    const words = query.split(/\s+/).filter(Boolean)
    const hits = all.filter((item) => words.every((word) => item.title.toLowerCase().includes(word)))
    const shown = hits.length > 0 ? hits : all
    return resultsPage(context, query && hits.length > 0 ? `Lots for “${query}”` : 'Trading cards', shown, false)
  }
  const seller = /^\/seller\/([^/]+)$/.exec(url.pathname)?.[1]
  if (seller && QUAYSIDE_LISTINGS.some((candidate) => candidate.seller.name === decodeURIComponent(seller))) {
    return sellerPage(decodeURIComponent(seller))
  }
  if (url.pathname.startsWith('/help/')) return helpPage()
  return /^\/lot\/\d+/.test(url.pathname) ? takenBackPage() : null
}
