/**
 * A dossier as a page for teaching: one HTML file, pictures inside, no script, made to be printed. Without seller, prices and
 * addresses unless they are wanted. Not evidence: for that there is the bag.
 */
import { redact } from '../../domain/dossier/redact.ts'
import type { Dossier } from '../../domain/dossier.ts'
import type { Translate } from '../../domain/translate.ts'
import { html, type Markup } from './html.ts'

export interface SharedPicture {
  readonly caption: string
  /** `data:` address. */
  readonly source: string
}

export interface SharedPageOptions {
  readonly seller: boolean
  readonly prices: boolean
  readonly pictures: readonly SharedPicture[]
}

export function writeSharedPage(dossier: Dossier, options: SharedPageOptions, t: Translate, language: string): string {
  const { inspection, title, outcome } = dossier
  const { listing, claim, concerns, views } = inspection
  const seller = listing.seller?.name ?? null
  const names = options.seller || seller === null ? [] : [seller]
  const clean = (text: string) => redact(text, { names, prices: !options.prices })
  const price = listing.price === null ? null : `${listing.price.amount} ${listing.price.currency ?? ''}`.trim()
  const facts: [string, string | null][] = [
    [t('bag.seller'), options.seller ? seller : null],
    [t('bag.price'), options.prices ? price : null],
    [t('field.year'), claim.year],
    [t('field.set'), claim.set],
    [t('field.subject'), claim.subject],
    [t('field.cardNumber'), claim.cardNumber],
    [t('field.grade'), claim.grade === null ? null : [claim.grader, claim.grade].filter(Boolean).join(' ')],
  ]
  return html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<title>${clean(title)}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<h1><bdi>${clean(title)}</bdi></h1>
<p>${t('share.page.what')}</p>
<dl>${facts.map(([name, value]) => (value === null ? null : fact(name, clean(value))))}</dl>
</header>
${options.pictures.map(figure)}
<h2>${t('bag.concerns')}</h2>
${concerns.length === 0 ? html`<p>${t('bag.no-concerns')}</p>` : null}
${concerns.map(
  ({ title: name, evidence, why, settles, settledBy }) => html`<article>
<h3>${name}</h3>
<ul>${evidence.map(({ quote }) => html`<li><q>${clean(quote)}</q></li>`)}</ul>
<p>${why}</p>
<p class="quiet">${settledBy === null ? settles : clean(settledBy)}</p>
</article>`,
)}
<h2>${t('share.page.views')}</h2>
<ul>${views.map(({ view, status, reason }) => html`<li>${t(`view.${view}`)}: ${t(`status.${status}`)}. ${clean(reason)}</li>`)}</ul>
${outcome === null ? null : html`<h2>${t('share.page.end')}</h2><p>${t(`outcome.${outcome}`)}</p>`}
<footer><p>${t('bag.caution')}</p></footer>
</body>
</html>
`.html
}

function fact(name: string, value: string): Markup {
  return html`<div><dt>${name}</dt><dd><bdi>${value}</bdi></dd></div>`
}

function figure({ caption, source }: SharedPicture): Markup {
  return html`<figure><img src="${source}" alt="${caption}"><figcaption>${caption}</figcaption></figure>`
}

const STYLE = html`
:root { color-scheme: light; font: 17px/1.5 Georgia, "Times New Roman", serif; color: #26231e; background: #fbf9f4 }
body { max-width: 44rem; margin: 2rem auto; padding: 0 1rem }
h1 { font-size: 1.7rem; line-height: 1.2 } h2 { font-size: 1.2rem; margin-top: 2rem; border-bottom: 1px solid #b9b2a3 } h3 { font-size: 1rem; margin-bottom: .2rem }
dl div { display: grid; grid-template-columns: 10rem 1fr; gap: 1rem } dt, .quiet, figcaption, footer { color: #5b554a; font-size: .9rem } dd { margin: 0 }
figure { display: inline-block; width: 47%; margin: 0 2% 1rem 0; vertical-align: top; break-inside: avoid } img { width: 100%; border: 1px solid #b9b2a3 }
article { break-inside: avoid }
@media print { body { max-width: none; margin: 0; padding: 0 } }
`
