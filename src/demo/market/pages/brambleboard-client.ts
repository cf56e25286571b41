/**
 * The script that fills Brambleboard's pages in the visitor's browser. Plain JavaScript as text, since that is what is
 * sent. `drawPage(state)` draws what `/api/…` answered; the last line fetches and draws.
 */
export const BRAMBLEBOARD_CLIENT = `
function el(tag, attributes, ...children) {
  const node = document.createElement(tag)
  for (const [name, value] of Object.entries(attributes ?? {})) if (value !== null) node.setAttribute(name, value)
  node.append(...children)
  return node
}
function drawBoard(ads) {
  return el('ul', { class: 'e1' }, ...ads.map((ad) => el('li', {},
    el('img', { src: ad.photo, alt: '' }), el('a', { href: ad.href }, ad.title), el('b', {}, ad.price), el('small', {}, ad.place))))
}
function drawAd(ad) {
  const large = el('img', { src: ad.photos[0].large, alt: ad.photos[0].alt })
  const thumbs = el('ul', { class: 'c4' }, ...ad.photos.map((photo) => {
    const image = el('img', { src: photo.small, alt: photo.alt, 'data-src-large': photo.large })
    image.addEventListener('click', () => { large.src = photo.large; large.alt = photo.alt })
    return el('li', {}, image)
  }))
  const form = el('form', { 'data-message': '' }, el('label', { for: 'words' }, 'Write to ' + ad.seller.name),
    el('textarea', { id: 'words', maxlength: '500', placeholder: 'Is it still there?' }), el('button', { class: 'b4' }, 'Send'))
  return [
    el('div', { class: 'b5' }, ad.path.join(' / ')),
    el('div', { class: 'c1' },
      el('div', {},
        el('div', { class: 'c2' }, el('div', { class: 'c3' }, large), thumbs,
          el('h1', { class: 'c5' }, ad.title), el('div', { class: 'c6' }, ad.price),
          el('div', { class: 'c7' }, ad.postage), el('div', { class: 'c9' }, ...ad.chips.map((chip) => el('span', {}, chip)))),
        el('div', { class: 'c2 c8' }, ...ad.words.map((words) => el('p', {}, words)))),
      el('div', {},
        el('div', { class: 'c2' }, el('div', { class: 'd1' }, el('div', { class: 'd2' }, ad.seller.name[0]),
            el('div', {}, el('div', { class: 'd3' }, ad.seller.name), el('div', { class: 'c7' }, ad.seller.since), el('div', { class: 'c7' }, ad.seller.ratings))),
          el('div', { class: 'd4' }, 'The safe-deal button holds the money until you have the thing in your hands.')),
        el('div', { class: 'c2' }, form))),
    el('h2', {}, 'More on the board'), drawBoard(ad.similar),
  ]
}
function drawPage(state) {
  document.title = state.title + ' | Brambleboard'
  const root = document.getElementById('root')
  root.replaceChildren(...(state.ad ? drawAd(state.ad) : [el('h1', { class: 'c5' }, state.title), drawBoard(state.board)]))
}
`

export const BRAMBLEBOARD_START = `fetch('/api' + location.pathname + location.search).then((answer) => answer.json()).then((state) => {
  drawPage(state)
  SHOW_SENT
})`
