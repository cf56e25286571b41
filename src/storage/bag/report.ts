/**
 * The readable report in a bag: one HTML file, pictures inside, no script, nothing fetched, made to be printed. Shows what was kept
 * and when; concludes nothing.
 */
import type { DossierState } from '../../domain/dossier/derive-state.ts'
import { diffRevision, type Seen } from '../../domain/dossier/diff-revision.ts'
import type { Dossier, LogEntry } from '../../domain/dossier.ts'
import type { Listing } from '../../domain/listing.ts'
import type { Money } from '../../domain/money.ts'
import type { Translate } from '../../domain/translate.ts'
import { html, type Markup } from './html.ts'

export interface ReportPicture {
  /** Its file in the bag. */
  readonly path: string
  readonly sha256: string
  readonly caption: string
  /** `data:` address of a picture small enough to read along; `null`: it could not be drawn. */
  readonly source: string | null
}

export interface ReportMatter {
  readonly dossier: Dossier
  readonly state: DossierState
  readonly photos: readonly ReportPicture[]
  readonly screenshot: ReportPicture | null
  /** Bytes that were listed but could not be had, by hash. */
  readonly missing: readonly string[]
  readonly versions: readonly string[]
  readonly bagName: string
  /** ISO 8601 in UTC. */
  readonly createdAt: string
}

export function writeReport(matter: ReportMatter, t: Translate, language: string): string {
  const { dossier, state, bagName, createdAt } = matter
  const { inspection } = dossier
  const { listing } = inspection
  const page = html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<title>${t('bag.title')}: ${dossier.title}</title>
<style>${STYLE}</style>
</head>
<body>
<header>
<p class="kind">${t('bag.title')}</p>
<h1><bdi>${dossier.title}</bdi></h1>
<dl>
${fact(t('bag.captured'), time(dossier.capturedAt))}
${fact(t('bag.address'), html`<bdi class="address">${dossier.url ?? t('bag.unknown')}</bdi>`)}
${fact(t('bag.seller'), html`<bdi>${listing.seller?.name ?? t('bag.unknown')}</bdi>`)}
${fact(t('bag.price'), listing.price === null ? t('bag.unknown') : money(listing.price))}
${listing.itemNumber === null ? null : fact(t('bag.item-number'), html`<bdi>${listing.itemNumber}</bdi>`)}
${fact(t('bag.stage'), `${t(`bag.stage.${state.stage}`)}${state.decision === null ? '' : `, ${t(`bag.decision.${state.decision}`)}`}`)}
${fact(t('bag.made'), time(createdAt))}
${fact(t('bag.name'), html`<code>${bagName}</code>`)}
</dl>
</header>
<section class="notice">
<h2>${t('bag.proof')}</h2>
<p>${t('bag.proof.does')}</p>
<p>${t('bag.proof.does-not')}</p>
<p>${t('bag.proof.check')}</p>
</section>
${section(t('bag.offered'), offered(listing, t))}
${section(t('bag.concerns'), [html`<p>${inspection.stanceReason}</p>`, ...concerns(dossier, t)])}
${section(t('bag.photos'), matter.photos.length === 0 ? html`<p>${t('bag.none')}</p>` : matter.photos.map(figure))}
${matter.screenshot === null ? null : section(t('bag.screenshot'), figure(matter.screenshot))}
${section(t('bag.messages'), messages(state, t))}
${section(t('bag.changes'), changes(dossier, t))}
${(dossier.comparisons ?? []).length === 0 ? null : section(t('bag.comparisons'), comparisons(dossier, t))}
${state.deadlines.length === 0 ? null : section(t('bag.deadlines'), deadlines(state, t))}
${state.arrival.length === 0 ? null : section(t('bag.arrival'), arrival(state, t))}
${dossier.notes === '' ? null : section(t('bag.notes'), html`<p class="words">${dossier.notes}</p>`)}
${section(t('bag.log'), log(dossier.log, t))}
${section(t('bag.page-text'), html`<p class="words" lang="${listing.language ?? ''}">${dossier.pageText}</p>`)}
${matter.missing.length === 0 ? null : section(t('bag.missing'), html`<ul>${matter.missing.map((hash) => html`<li><code>${hash}</code></li>`)}</ul>`)}
${section(t('bag.versions'), html`<ul>${matter.versions.map((line) => html`<li>${line}</li>`)}</ul>`)}
<footer><p>${t('bag.caution')}</p></footer>
</body>
</html>
`
  return page.html
}

function section(heading: string, body: Markup | readonly Markup[]): Markup {
  return html`<section><h2>${heading}</h2>${body}</section>`
}

function fact(name: string, value: string | Markup): Markup {
  return html`<div><dt>${name}</dt><dd>${value}</dd></div>`
}

/** As recorded: a report that is read in another zone must not say another time. */
function time(iso: string): Markup {
  return html`<time datetime="${iso}">${iso.replace('T', ' ').replace(/(?:\.\d+)?Z$/, ' UTC')}</time>`
}

function money({ amount, currency }: Money): string {
  return currency === null ? amount : `${amount} ${currency}`
}

function offered(listing: Listing, t: Translate): Markup[] {
  const rows = Object.entries(listing.specifics).map(([name, value]) => fact(name, html`<bdi>${value}</bdi>`))
  return [
    ...(rows.length === 0 ? [] : [html`<dl>${rows}</dl>`]),
    html`<p class="words" lang="${listing.language ?? ''}">${listing.description ?? t('bag.no-description')}</p>`,
  ]
}

function concerns({ inspection }: Dossier, t: Translate): Markup[] {
  if (inspection.concerns.length === 0) return [html`<p>${t('bag.no-concerns')}</p>`]
  return inspection.concerns.map(
    (concern) => html`<article>
<h3>${concern.title} <span class="quiet">${t(`bag.strength.${concern.strength}`)}</span></h3>
<ul>${concern.evidence.map(({ quote }) => html`<li><q>${quote}</q></li>`)}</ul>
<p>${concern.why}</p>
${concern.settledBy === null ? null : html`<p>${t('bag.settled')} <bdi>${concern.settledBy}</bdi></p>`}
</article>`,
  )
}

function figure({ path, sha256, caption, source }: ReportPicture): Markup {
  return html`<figure>
${source === null ? null : html`<img src="${source}" alt="${caption}">`}
<figcaption><bdi>${caption}</bdi><br><code>data/${path}</code><br><code class="hash">SHA-256 ${sha256}</code></figcaption>
</figure>`
}

function messages(state: DossierState, t: Translate): Markup | Markup[] {
  const sent = state.requests.map(({ at, words }) => ({ at, words, by: t('bag.asked') }))
  const received = state.answers.map(({ at, words, photos, refused }) => ({
    at,
    words: [words, photos.length === 0 ? '' : t('bag.answer-photos', { count: photos.length })]
      .filter(Boolean)
      .join('\n'),
    by: refused.length === 0 ? t('bag.answered') : t('bag.refused'),
  }))
  const all = [...sent, ...received].sort((a, b) => (a.at < b.at ? -1 : 1))
  if (all.length === 0) return html`<p>${t('bag.none')}</p>`
  return all.map(
    ({ at, words, by }) => html`<article><h3>${by}, ${time(at)}</h3><p class="words">${words}</p></article>`,
  )
}

/** Each reading beside the one after it, the last beside the present one. */
function changes(dossier: Dossier, t: Translate): Markup | Markup[] {
  const revisions = dossier.revisions ?? []
  if (revisions.length === 0) return html`<p>${t('bag.no-changes')}</p>`
  const kept = new Map(dossier.photos.map((photo) => [photo.url, photo]))
  const present: Seen & { capturedAt: string } = {
    capturedAt: dossier.capturedAt,
    listing: dossier.inspection.listing,
    photos: dossier.inspection.listing.photos.map(({ url }) => ({
      url,
      sha256: kept.get(url)?.sha256 ?? null,
      pdq: kept.get(url)?.facts?.pdq ?? null,
    })),
  }
  const readings = [...revisions, present]
  return readings.slice(1).map((after, index) => {
    const before = readings[index]!
    const diff = diffRevision(before, after)
    const amount = (value: Money | null) => (value === null ? t('bag.unknown') : money(value))
    const photos = [
      ['bag.photos-added', diff.photosAdded],
      ['bag.photos-removed', diff.photosRemoved],
      ['bag.photos-swapped', diff.photosSwapped.map(({ url }) => url)],
    ] as const
    return html`<article>
<h3>${time(before.capturedAt)} → ${time(after.capturedAt)}</h3>
<dl>
${diff.price && fact(t('bag.price'), html`<del>${amount(diff.price.before)}</del> <ins>${amount(diff.price.after)}</ins>`)}
${diff.seller && fact(t('bag.seller'), html`<del>${diff.seller.before}</del> <ins>${diff.seller.after}</ins>`)}
${diff.endsAt && fact(t('bag.ends'), html`<del>${diff.endsAt.before ?? t('bag.unknown')}</del> <ins>${diff.endsAt.after ?? t('bag.unknown')}</ins>`)}
${photos.map(([key, urls]) => (urls.length === 0 ? null : fact(t(key), html`<ul>${urls.map((url) => html`<li><bdi class="address">${url}</bdi></li>`)}</ul>`)))}
${diff.texts.map(({ field, parts }) =>
  fact(
    field.replace(/^specifics\./, ''),
    html`<span class="words">${parts.map(({ kind, text }) =>
      kind === 'added' ? html`<ins>${text}</ins>` : kind === 'removed' ? html`<del>${text}</del>` : text,
    )}</span>`,
  ),
)}
</dl>
</article>`
  })
}

/** Each point as it was judged; the words for a verdict are the trade's own, and no verdict is passed on the card. */
function comparisons({ comparisons: all = [] }: Dossier, t: Translate): Markup[] {
  return all.map(
    ({ at, exemplar, points, notes }) => html`<article>
<h3><bdi>${exemplar.title}</bdi>, ${time(at)}</h3>
<table><tbody>${points.map(
      ({ name, verdict, value, unit, uncertainty, reason }) =>
        html`<tr><th scope="row"><bdi>${name}</bdi></th><td>${t(`bag.verdict.${verdict}`)}</td><td>${value === null ? null : `${value.toPrecision(3)} ${unit}${uncertainty === null ? '' : ` ± ${uncertainty.toPrecision(2)}`}`}</td><td>${reason}</td></tr>`,
    )}</tbody></table>
${notes === '' ? null : html`<p class="words">${notes}</p>`}
</article>`,
  )
}

function deadlines({ deadlines: all }: DossierState, t: Translate): Markup {
  return html`<table><tbody>${all.map(
    ({ kind, at, zone, status, note }) =>
      html`<tr><th scope="row">${t(`bag.deadline.${kind}`)}</th><td>${time(at)} (${zone})</td><td>${t(`bag.deadline.${status}`)}</td><td>${note}</td></tr>`,
  )}</tbody></table>`
}

function arrival({ arrival: findings }: DossierState, t: Translate): Markup {
  return html`<table><tbody>${findings.map(
    ({ step, finding, note, measured }) =>
      html`<tr><th scope="row">${t(`bag.arrival.${step}`)}</th><td>${t(`bag.finding.${finding}`)}</td><td>${measured === null ? null : `${measured.value} ${measured.unit}`}</td><td>${note}</td></tr>`,
  )}</tbody></table>`
}

function log(entries: readonly LogEntry[], t: Translate): Markup {
  return html`<table class="log"><tbody>${entries.map(
    ({ at, event, detail }) =>
      html`<tr><td>${time(at)}</td><th scope="row">${t(`bag.event.${event}`)}</th><td class="words">${detail}</td></tr>`,
  )}</tbody></table>`
}

const STYLE = html`
:root { color-scheme: light; font: 16px/1.5 Georgia, "Times New Roman", serif; color: #26231e; background: #fbf9f4 }
body { max-width: 46rem; margin: 2rem auto; padding: 0 1rem }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 1rem }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem; border-bottom: 1px solid #b9b2a3; padding-bottom: .2rem }
h3 { font-size: 1rem; margin: 1rem 0 .3rem }
.kind, .quiet, figcaption, footer { color: #5b554a; font-size: .9rem }
.kind { margin: 0 } .quiet { font-weight: normal }
dl { margin: 0 } dl div { display: grid; grid-template-columns: 11rem 1fr; gap: 1rem; padding: .15rem 0 }
dt, th { text-align: start; font-weight: normal; color: #5b554a } dd { margin: 0; overflow-wrap: anywhere }
.notice { border: 1px solid #26231e; padding: .2rem 1rem 0; margin-top: 1.5rem } .notice h2 { border: 0; margin-top: .8rem }
.words { white-space: pre-wrap; overflow-wrap: anywhere } .address { overflow-wrap: anywhere }
code { font: .85em/1.4 ui-monospace, monospace; overflow-wrap: anywhere }
figure { margin: 1rem 0; break-inside: avoid } img { max-width: 100%; max-height: 24cm; border: 1px solid #b9b2a3 }
table { border-collapse: collapse; width: 100% } td, th { vertical-align: top; padding: .2rem .8rem .2rem 0; border-bottom: 1px solid #e4dfd3 }
.log td:first-child { white-space: nowrap } ins { text-decoration: underline } del { text-decoration: line-through }
article { break-inside: avoid }
@media print { :root { font-size: 10.5pt; background: none } body { max-width: none; margin: 0; padding: 0 } }
@media (max-width: 30rem) { dl div { grid-template-columns: 1fr; gap: 0 } .log td:first-child { white-space: normal } }
`
