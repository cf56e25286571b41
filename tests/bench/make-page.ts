/** A listing page of a wanted number of elements: the item first, then menus, a long specifics list and strips of related goods. */
export function makeListingPage(elements: number): string {
  const parts: string[] = []
  let count = 40
  parts.push(`<!DOCTYPE html><html lang="en"><head><title>Harbour Ships 1931 No. 14 Anna Soderholm | Quayside Lots</title>
<meta property="og:title" content="Harbour Ships 1931 No. 14 Anna Soderholm"><meta property="og:type" content="product">
<script type="application/ld+json">{"@context":"https://schema.org","@type":"Product","name":"Harbour Ships 1931 No. 14 Anna Soderholm","offers":{"@type":"Offer","price":"212.00","priceCurrency":"GBP"}}</script>
<style>.g{display:flex}.t{font-weight:600}.p{font-size:26px}.card{width:180px}</style></head><body><header><nav><ul>`)
  for (let i = 0; i < 60; i += 1, count += 2) parts.push(`<li><a href="/c/${i}">Category ${i}</a></li>`)
  parts.push(`</ul></nav></header><main><div class="gallery">`)
  for (let i = 0; i < 12; i += 1, count += 2)
    parts.push(
      `<a href="/pics/14/${i}-full.jpg"><img src="/pics/14/${i}-200.jpg" srcset="/pics/14/${i}-400.jpg 400w, /pics/14/${i}-800.jpg 800w" alt="Anna Soderholm view ${i}"></a>`,
    )
  parts.push(`</div><section itemscope itemtype="https://schema.org/Product"><h1 itemprop="name">Harbour Ships 1931 No. 14 Anna Soderholm</h1><div class="p">Current bid: £212.00</div><div>11 bids</div><div>Time left: 2d 4h</div>
<button>Place bid</button><dl><dt>Postage</dt><dd>£3.95 tracked</dd><dt>Condition</dt><dd>Very good</dd><dt>Seller</dt><dd><a href="/user/oldpier">oldpier</a> (1,204)</dd></dl><h2>Description</h2><p>Clean back, sharp corners, light toning. A similar one made £480 in June.</p></section>`)
  parts.push('<table>')
  for (let i = 0; i < Math.min(elements / 20, 400); i += 1, count += 3)
    parts.push(`<tr><th>Detail ${i}</th><td>Value ${i} of this card</td></tr>`)
  parts.push('</table><h2>Similar items</h2><div class="g">')
  for (let i = 0; count < elements; i += 1, count += 8) {
    parts.push(
      `<div class="card"><a href="/lot/${i}"><img src="/pics/${i}/1-200.jpg" alt=""><span class="t">Grey Petrel lot ${i}</span></a><div class="price"><b>£${(i % 400) + 5}.50</b></div><div>${i % 9} bids</div><div>+ £3.20 postage</div></div>`,
    )
  }
  parts.push('</div></main></body></html>')
  return parts.join('')
}
