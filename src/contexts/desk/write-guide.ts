/**
 * A printed guide of one exemplar for whoever is to learn it: each point with its crop, what it should look like and what copies make of it.
 * One page of HTML with everything in it, no script, that prints well.
 */
import type { ExemplarRecord } from '../../domain/examination.ts'
import type { ExemplarPicture, ExemplarPoint } from '../../domain/exemplar.ts'
import { POINT_KINDS } from '../../domain/exemplar-kinds.ts'
import { createTranslate } from '../../domain/translate.ts'
import { drawKind } from '../../ui/exemplars/kind-drawings.ts'
import { paintMark, paintPicture } from '../../ui/light-table/paint.ts'
import { closeSquare, type SquarePicture } from '../../ui/light-table/square-picture.ts'
import { fitView, type View, viewOfRegion } from '../../ui/light-table/view.ts'
import type { InterfaceTexts } from '../interface-texts.ts'

const CROP = { width: 640, height: 460 }
const WHOLE = { width: 760, height: 1040 }

const STYLE = `
@page { margin: 16mm }
:root { color-scheme: light }
body { margin: 0 auto; max-width: 46rem; padding: 2rem 1rem; color: #1b2023; background: #fff;
  font: 11pt/1.45 Georgia, "Times New Roman", serif }
h1 { margin: 0; font-size: 22pt; font-weight: 500; line-height: 1.15 }
h2 { margin: 0 0 .3rem; font-size: 14pt; font-weight: 600 }
p { margin: .3rem 0 }
.soft { color: #4c5457; font-size: 9.5pt }
.whole { display: flex; flex-wrap: wrap; gap: 1rem; margin: 1rem 0 }
.whole figure { margin: 0; flex: 1 1 14rem; max-width: 20rem }
img { display: block; max-width: 100%; border: 1px solid #7f8684 }
.point { break-inside: avoid; border-top: 1px solid #d3d4cb; padding: 1rem 0; display: grid;
  grid-template-columns: 15rem minmax(0, 1fr); gap: 0 1.2rem }
.point > figure { margin: 0 }
.number { display: inline-block; min-width: 1.5em; color: #765300 }
.drawings { display: flex; gap: 1rem; margin-top: .6rem }
.drawings figure { margin: 0; width: 6rem }
.drawings svg { display: block; width: 6rem; height: 4.5rem; border: 1px solid #d3d4cb; background: #fcfcf9 }
figcaption { color: #4c5457; font-size: 9pt }
table { border-collapse: collapse; margin-top: 1rem; font-size: 9.5pt }
th, td { border: 1px solid #d3d4cb; padding: .2rem .5rem; text-align: start }
@media (max-width: 34rem) { .point { grid-template-columns: 1fr } }
`

const asText = (text: string) => text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`)

export async function writeGuide(
  { exemplar }: ExemplarRecord,
  texts: InterfaceTexts,
  lay: (picture: ExemplarPicture) => Promise<SquarePicture>,
): Promise<string> {
  const t = createTranslate(texts.catalogue, texts.language)
  const sides = [...new Set(exemplar.pictures.map(({ side }) => side))]
  const wholes: string[] = []
  const crops = new Map<string, string>()
  for (const side of sides) {
    const picture = exemplar.pictures.find((one) => one.side === side)!
    const square = await lay(picture)
    const points = exemplar.points.filter((point) => point.side === side)
    const image = await draw(square, WHOLE, fitView(square.size, WHOLE, 1), points, exemplar.points)
    wholes.push(
      `<figure><img src="${image}" alt="${asText(t(`side.${side}`))}"><figcaption>${asText(t(`side.${side}`))}</figcaption></figure>`,
    )
    for (const point of points)
      crops.set(point.id, await draw(square, CROP, viewOfRegion(point.region, CROP), [point], []))
    closeSquare(square)
  }
  const size = t('size.millimetres', {
    width: exemplar.nominalSize.widthMm,
    height: exemplar.nominalSize.heightMm,
  })
  const about = [
    exemplar.author && `${t('exemplar.author')}: ${exemplar.author}`,
    exemplar.licence && `${t('exemplar.licence')}: ${exemplar.licence}`,
  ]
  return `<!doctype html>
<html lang="${texts.language}"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${asText(exemplar.title)}</title><style>${STYLE}</style>
<body>
<h1>${asText(exemplar.title)}</h1>
<p class="soft">${asText([size, ...about.filter(Boolean)].join(' · '))}</p>
${exemplar.provenance === '' ? '' : `<p>${asText(exemplar.provenance)}</p>`}
<p class="soft">${asText(t('guide.caution'))}</p>
<div class="whole">${wholes.join('')}</div>
${exemplar.points.map((point, index) => writePoint(point, index, crops.get(point.id), t)).join('\n')}
${writeMakes(exemplar, t)}
</body></html>
`
}

type T = ReturnType<typeof createTranslate>

function writePoint(point: ExemplarPoint, index: number, crop: string | undefined, t: T): string {
  const { kind, name, why, copiesDo, side } = point
  const drawing = (which: 'good' | 'bad') =>
    `<figure>${drawKind(kind, which)}<figcaption>${asText(t(which === 'good' ? 'kind.good' : 'kind.bad'))}</figcaption></figure>`
  const needs =
    kind === 'judged'
      ? t('kind.needs-eyes')
      : t('kind.needs', { pxPerMm: point.needsPxPerMm ?? POINT_KINDS[kind].needsPxPerMm, unit: POINT_KINDS[kind].unit })
  return `<section class="point">
<figure>${crop === undefined ? '' : `<img src="${crop}" alt="${asText(name)}">`}</figure>
<div><h2><span class="number">${index + 1}</span> ${asText(name)}</h2>
<p class="soft">${asText(`${t(`kind.${kind}`)} · ${t(`side.${side}`)} · ${needs}`)}</p>
${why === '' ? '' : `<p>${asText(why)}</p>`}
${copiesDo === '' ? '' : `<p><strong>${asText(t('point.copies-do'))}</strong> ${asText(copiesDo)}</p>`}
${kind === 'judged' && point.question !== '' ? `<p>${asText(point.question)}</p>` : ''}
<div class="drawings">${drawing('good')}${drawing('bad')}</div></div>
</section>`
}

function writeMakes({ copies, points }: ExemplarRecord['exemplar'], t: T): string {
  if (copies.length === 0) return ''
  const head = copies.map(({ name }) => `<th scope="col">${asText(name)}</th>`).join('')
  const rows = points.map(
    (point) =>
      `<tr><th scope="row">${asText(point.name)}</th>${copies
        .map(({ id }) => `<td>${asText(t(`at-point.${point.copies[id] ?? 'unknown'}`))}</td>`)
        .join('')}</tr>`,
  )
  return `<h2>${asText(t('makes.heading'))}</h2><p class="soft">${asText(t('makes.explained'))}</p>
<table><thead><tr><th scope="col">${asText(t('makes.point'))}</th>${head}</tr></thead><tbody>${rows.join('')}</tbody></table>`
}

/** @param numbered points whose numbers stand beside their marks. */
async function draw(
  square: SquarePicture,
  pane: { readonly width: number; readonly height: number },
  view: View,
  points: readonly ExemplarPoint[],
  numbered: readonly ExemplarPoint[],
): Promise<string> {
  const canvas = document.createElement('canvas')
  canvas.width = pane.width
  canvas.height = pane.height
  const context = canvas.getContext('2d')
  if (context === null) throw new Error('this browser gives no drawing surface for pictures')
  context.fillStyle = '#fff'
  context.fillRect(0, 0, pane.width, pane.height)
  const surface = { ...pane, context, ratio: 1, view }
  paintPicture(surface, square)
  for (const point of points) {
    paintMark(surface, point.region)
    const number = numbered.indexOf(point) + 1
    if (number === 0) continue
    const x = (point.region.x - view.xMm) * view.scale + pane.width / 2
    const y = (point.region.y - view.yMm) * view.scale + pane.height / 2
    context.fillStyle = '#1b2023'
    context.fillRect(x - 4, y - 24, 26, 22)
    context.fillStyle = '#fff'
    context.font = '600 16px sans-serif'
    context.fillText(String(number), x + 2, y - 8)
  }
  return canvas.toDataURL('image/jpeg', 0.85)
}
