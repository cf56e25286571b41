/**
 * How well a grading label is read: invented labels photographed at several widths, blurs, qualities and angles. What is wrong is
 * counted apart from what was not answered. `LABELS=n` labels a row, `HALF=tuning` for the part that settings were chosen on,
 * `ROWS=file` writes a line for each label: seed, truth, answer.
 */
import { appendFileSync } from 'node:fs'
import type { Quadrilateral } from '../../src/domain/photo-facts.ts'
import { decodeInNode } from '../../src/imaging/decode-node.ts'
import { openTextModelsInNode } from '../../src/imaging/label/label-reader-node.ts'
import { createLabelReader } from '../../src/imaging/label/read-label.ts'
import { drawLabel, type Half } from './label-scenes/draw-label.ts'
import { photographLabel, type Shot } from './label-scenes/photograph-label.ts'

type Row = Omit<Shot, 'seed'>
const square: Row = { widthPx: 700, blurPx: 0.5, jpeg: 90, turnDegrees: 0, tilt: 0, frame: 'close' }
const ROWS: readonly (Row & { readonly first: number; readonly where?: 'unknown' })[] = [
  { ...square, first: 1000 },
  { ...square, widthPx: 450, blurPx: 0.7, jpeg: 80, first: 2000 },
  { ...square, widthPx: 450, blurPx: 0.7, jpeg: 80, turnDegrees: 8, first: 3000 },
  { ...square, widthPx: 450, blurPx: 0.7, jpeg: 80, turnDegrees: -5, tilt: 0.15, first: 4000 },
  { ...square, widthPx: 450, blurPx: 2, jpeg: 70, first: 5000 },
  { ...square, widthPx: 320, blurPx: 0.7, jpeg: 75, first: 6000 },
  { ...square, widthPx: 320, blurPx: 0.7, jpeg: 40, first: 7000 },
  { ...square, widthPx: 240, blurPx: 0.7, jpeg: 75, first: 8000 },
  { ...square, widthPx: 240, blurPx: 1.2, jpeg: 40, first: 9000 },
  { ...square, widthPx: 170, blurPx: 0.6, jpeg: 75, first: 10000 },
  { ...square, widthPx: 600, blurPx: 0.7, jpeg: 80, turnDegrees: 3, frame: 'holder', where: 'unknown', first: 11000 },
]
const COUNT = Number(process.env.LABELS ?? 30)
const HALF = (process.env.HALF ?? 'validation') as Half

const models = await openTextModelsInNode()
const read = createLabelReader(models)
const total = { wide: 0, right: 0, wrong: 0, allWrong: 0, all: 0 }
console.log(
  `${HALF}, ${COUNT} labels a row, seeds fixed; "wrong" is an answer that is not so, the rest was not answered`,
)
console.log(
  'width  blur  JPEG  turn  tilt  outline    number: right wrong   grade: right wrong   grader: right wrong      ms',
)
for (const row of ROWS) {
  const seen = { number: [0, 0], grade: [0, 0], grader: [0, 0] }
  const times: number[] = []
  for (let seed = row.first; seed < row.first + COUNT; seed++) {
    const { canvas, truth, style } = drawLabel(seed, HALF)
    const photo = await photographLabel(canvas, { ...row, seed })
    const pixels = await decodeInNode(photo.bytes)
    const started = performance.now()
    const corners = photo.corners as unknown as Quadrilateral['corners']
    const answer = await read(pixels, row.where === 'unknown' ? null : { corners, confidence: 1 })
    times.push(performance.now() - started)
    const count = (what: keyof typeof seen, said: string | null | undefined, so: string) => {
      if (said === so) seen[what][0]!++
      else if (said != null) seen[what][1]!++
    }
    count('number', answer?.certificate, truth.certificate)
    count('grade', answer?.grade, truth.grade)
    count('grader', answer?.grader, truth.grader)
    if (process.env.ROWS)
      appendFileSync(process.env.ROWS, `${JSON.stringify({ seed, ...row, style, truth, answer })}\n`)
  }
  if (row.widthPx >= 320) {
    total.wide += COUNT
    total.right += seen.number[0]!
    total.wrong += seen.number[1]!
  }
  total.all += COUNT
  total.allWrong += seen.number[1]!
  times.sort((a, b) => a - b)
  const pair = ([right, wrong]: number[]) => `${String(right).padStart(7)} ${String(wrong).padStart(5)}`
  console.log(
    `${row.widthPx} px  ${row.blurPx.toFixed(1)}   ${row.jpeg}   ${String(row.turnDegrees).padStart(3)}°  ${row.tilt.toFixed(2)}  ` +
      `${(row.where ?? 'known').padEnd(9)} ${pair(seen.number).padStart(21)} ${pair(seen.grade).padStart(20)} ${pair(seen.grader).padStart(21)} ${times[Math.floor(times.length / 2)]!.toFixed(0).padStart(7)}`,
  )
}
console.log(
  `labels of 320 px and more: ${total.right} of ${total.wide} numbers right (${((total.right / total.wide) * 100).toFixed(1)} %), ` +
    `${total.wrong} wrong; at any width ${total.allWrong} wrong of ${total.all}`,
)
console.log(`memory after it: ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MB resident`)
