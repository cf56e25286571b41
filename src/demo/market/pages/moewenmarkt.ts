/**
 * Pages of Möwenmarkt: German, auctions and Sofortkauf, amounts as `1.234,50 €`, structured data as microdata in the
 * visible elements. Turns data into HTML and nothing else.
 */
import { shiftHours } from '../clock.ts'
import type { DemoListing } from '../listing-data.ts'
import { MOEWENMARKT_LISTINGS } from '../listings/moewenmarkt.ts'
import { inDaysAndHours, inGerman, onDay } from '../money-words.ts'
import { FURTHER_ROWS } from '../rows.ts'
import { firstPhoto, html, type Markup, type PageContext, photoUrl, raw, similarListings } from './html.ts'
import { GALLERY_SCRIPT, messageScript } from './message-box.ts'
import { MOEWENMARKT_STYLE } from './moewenmarkt-style.ts'

const MESSAGE_LIMIT = 600

function frame(title: string, body: Markup): string {
  return html`<!DOCTYPE html>
<html lang="de">
<head>
<meta http-equiv="Content-Type" content="text/html; charset=utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<title>${title} – Möwenmarkt</title>
<style>${raw(MOEWENMARKT_STYLE)}</style>
</head>
<body>
<div id="kopf"><div class="innen">
<a class="marke" href="/"><svg width="52" height="34" viewBox="0 0 52 34" aria-hidden="true"><path d="M2 16C10 4 20 4 26 15C32 4 42 4 50 16C41 10 33 13 27 25h-2C19 13 11 10 2 16z" fill="#fff"/><path d="M24 25h4l-2 7z" fill="#f2b632"/></svg>Möwenmarkt</a>
<form class="suche" action="/suche"><input name="s" aria-label="Suchbegriff" placeholder="Was suchst du?"><button>Suchen</button></form>
<nav><a href="/suche?s=skerryball">Sammelkarten</a><a href="/hilfe">Hilfe</a><a href="/anmelden">Anmelden</a></nav>
</div></div>
<div id="inhalt">${body}</div>
<div id="fuss"><div><span>Möwenmarkt ist frei erfunden, samt Artikeln, Verkäufern und Preisen.</span><a href="/hilfe">Käuferschutz</a><a href="/hilfe">Gebühren</a><a href="/impressum">Impressum</a></div></div>
</body>
</html>
`.text
}

function priceBlock(listing: DemoListing, context: PageContext): Markup {
  const auction = listing.format === 'auction'
  const ends = auction ? shiftHours(context.now, listing.endsInHours!) : null
  return html`<div itemprop="offers" itemscope itemtype="https://schema.org/Offer">
<link itemprop="url" href="${context.origins.moewenmarkt}${listing.path}">
<link itemprop="availability" href="https://schema.org/InStock">
<span itemprop="seller" itemscope itemtype="https://schema.org/Person"><meta itemprop="name" content="${listing.seller.name}"></span>
<div class="preisart">${auction ? 'Höchstgebot' : 'Sofortkauf'}</div>
<div class="preis"><meta itemprop="priceCurrency" content="EUR"><span itemprop="price" content="${listing.price}">${inGerman(listing.price)}</span></div>
${
  auction
    ? html`<div class="klein">${listing.bids} Gebote · Mindestschritt ${inGerman(listing.increment!)}</div>
<div class="klein">Endet in ${inDaysAndHours(listing.endsInHours!, { day: ' Tg.', hour: ' Std.' })} – <time itemprop="availabilityEnds" datetime="${ends}">${onDay(ends!, 'de-DE', { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit' })} Uhr (UTC)</time></div>
<input class="feld" aria-label="Dein Gebot" placeholder="ab ${inGerman((Number(listing.price) + Number(listing.increment)).toFixed(2))}"><button class="knopf" type="button">Gebot abgeben</button>`
    : html`${listing.bestOffer && html`<div class="klein">oder Preis vorschlagen</div>`}
<button class="knopf" type="button">Sofort kaufen</button>${listing.bestOffer && html`<button class="knopf hell" type="button">Preis vorschlagen</button>`}`
}
<button class="knopf hell" type="button">Merken</button>
<ul class="haken">
<li><b>Versand:</b> ${listing.shipping === null ? 'bitte erfragen' : inGerman(listing.shipping)}</li>
<li><b>Rücknahme:</b> ${listing.returns?.words}</li>
<li><b>Zahlung:</b> ${listing.payments.join(', ')}</li>
</ul></div>`
}

function itemPage(listing: DemoListing, context: PageContext): string {
  const { origins } = context
  const main = firstPhoto(listing)
  return frame(
    listing.title,
    html`<div class="pfad">${listing.categories.map((name, place) => html`${place > 0 && ' › '}<a href="/suche?s=${encodeURIComponent(name)}">${name}</a>`)}</div>
<div itemscope itemtype="https://schema.org/Product">
<meta itemprop="sku" content="${listing.itemNumber}">
<div class="blatt">
<div class="titelzeile"><h1 itemprop="name">${listing.title}</h1><p>Artikelzustand: <span itemprop="itemCondition">${listing.condition}</span> · Artikelnummer ${listing.itemNumber}</p></div>
<div class="drei">
<div data-gallery><div class="buehne"><img data-main-photo src="${photoUrl(origins, main.file, '640')}" data-gross="${photoUrl(origins, main.file, 'full')}" alt="${main.alt}"></div>
<div class="leiste">${listing.photos.map(
      (photo, place) =>
        html`<a itemprop="image" href="${photoUrl(origins, photo.file, 'full')}" data-large="${photoUrl(origins, photo.file, 'full')}"${place === 0 && raw(' aria-current')}><img src="${photoUrl(origins, photo.file, '160')}" alt="${photo.alt}" title="${photo.alt}"></a>`,
    )}</div></div>
${priceBlock(listing, context)}
<div class="anbieter"><h2>Verkäufer</h2><div class="name"><a href="/mitglied/${listing.seller.name}">${listing.seller.name}</a></div><p>${listing.seller.feedbackCount} Bewertungen</p><p>${String(listing.seller.feedbackPercent).replace('.', ',')} % positiv</p><p>Mitglied seit ${listing.seller.memberSince}</p><p>Artikelstandort: ${listing.seller.location}</p><a href="#frage">Frage stellen</a></div>
</div></div>
<div class="zwei">
<div class="blatt"><h2>Beschreibung</h2><div itemprop="description">${listing.description.map((words) => html`<p>${words}</p>`)}</div></div>
<div class="blatt"><h2>Artikelmerkmale</h2><table class="merkmale"><tbody>${listing.specifics.map(([name, value]) => html`<tr><th scope="row">${name}</th><td>${value}</td></tr>`)}</tbody></table></div>
</div></div>
<div class="blatt frage" id="frage"><h2>Frage an ${listing.seller.name}</h2><form data-message><textarea name="nachricht" aria-label="Deine Nachricht" maxlength="${MESSAGE_LIMIT}" placeholder="Höchstens ${MESSAGE_LIMIT} Zeichen"></textarea><button class="knopf">Nachricht senden</button></form></div>
<h2 class="weit">Das könnte dir auch gefallen</h2>
<div class="kacheln">${similarListings(MOEWENMARKT_LISTINGS, listing, 4).map(
      (other) =>
        html`<div class="kachel"><a href="${other.path}"><img src="${photoUrl(origins, firstPhoto(other).file, '640')}" alt="" loading="lazy"></a><div class="text"><a href="${other.path}">${other.title}</a><div class="preis">${inGerman(other.price)}</div></div></div>`,
    )}</div>
<script>${raw(GALLERY_SCRIPT)}
${raw(messageScript('Nur auf dieser Seite gezeigt, nichts wurde gesendet:'))}</script>`,
  )
}

function searchPage(words: string, context: PageContext): string {
  const own = MOEWENMARKT_LISTINGS.map((listing) => ({
    title: listing.title,
    href: listing.path,
    price: listing.price,
    file: firstPhoto(listing).file,
    note:
      listing.format === 'auction'
        ? `${listing.bids} Gebote · noch ${inDaysAndHours(listing.endsInHours!, { day: ' Tg.', hour: ' Std.' })}`
        : `Sofortkauf${listing.bestOffer ? ' oder Preisvorschlag' : ''}`,
    seller: listing.seller.name,
  }))
  const others = FURTHER_ROWS.filter((row) => row.format === 'fixed').map((row) => ({
    title: row.title,
    href: `/artikel/${row.itemNumber}`,
    price: row.price,
    file: row.photo.file,
    note: 'Sofortkauf',
    seller: 'wattkarten',
  }))
  const all = [...own, ...others]
  const hits = all.filter((item) => item.title.toLowerCase().includes(words.toLowerCase()))
  const shown = hits.length > 0 ? hits : all
  return frame(
    'Sammelkarten',
    html`<div class="pfad"><a href="/">Startseite</a> › Sammelkarten</div><h1>Sammelkarten</h1><p class="klein">${shown.length} Angebote</p>
<div class="kacheln">${shown.map(
      (item) =>
        html`<div class="kachel"><a href="${item.href}"><img src="${photoUrl(context.origins, item.file, '640')}" alt="${item.title}" loading="lazy"></a><div class="text"><a href="${item.href}">${item.title}</a><div class="preis">${inGerman(item.price)}</div><div class="klein">${item.note}</div><div class="klein">von ${item.seller}</div></div></div>`,
    )}</div>`,
  )
}

function helpPage(): string {
  return frame(
    'Hilfe',
    html`<div class="pfad"><a href="/">Startseite</a> › Hilfe</div><div class="blatt"><h1>Käuferschutz</h1><p>Bezahle über die Käuferschutz-Zahlung: Das Geld geht erst weiter, wenn der Artikel da ist. Bis 1.000,00 € kostet das 1,90 €, darüber 0,4 %.</p><p>Wer dich bittet, außerhalb von Möwenmarkt zu bezahlen, verstößt gegen die Hausordnung. Schreib uns.</p></div>`,
  )
}

/** What tiles without a page of their own lead to. */
function gonePage(): string {
  return frame(
    'Nicht mehr da',
    html`<div class="blatt"><h1>Dieser Artikel ist nicht mehr da</h1><p>Er wurde verkauft oder zurückgezogen. <a href="/suche?s=skerryball">Zu den Sammelkarten</a></p></div>`,
  )
}

/** The page at `path` (query included), or `null` where Möwenmarkt has none. */
export function renderMoewenmarkt(path: string, context: PageContext): string | null {
  const url = new URL(path, 'https://m.example')
  const listing = MOEWENMARKT_LISTINGS.find((candidate) => candidate.path === url.pathname)
  if (listing) return itemPage(listing, context)
  if (url.pathname === '/' || url.pathname === '/suche') return searchPage(url.searchParams.get('s') ?? '', context)
  if (url.pathname === '/hilfe') return helpPage()
  return url.pathname.startsWith('/artikel/') ? gonePage() : null
}
