/**
 * One line of text out of its box: characters and the probability of each. Greedy decoding of connectionist temporal
 * classification (Graves et al., ICML 2006): repeated classes are one, class 0 separates. Never corrects a word.
 */
import type { Corners } from '../homography.ts'
import type { Pixels } from '../pixels.ts'
import { cutOut } from './cut-out.ts'
import { LINE_HEIGHT, type TextModels } from './text-models.ts'

export interface ReadLine {
  readonly text: string
  /** Probability of each UTF-16 unit of `text`; a space has that of its neighbours. */
  readonly probabilities: readonly number[]
  /** Mean of them, 0–1; 0 for an empty line. */
  readonly confidence: number
}

// Pixels: the shortest line that the network saw in training, filled up with grey; and one that fits no label any more.
const LEAST_WIDTH = 160
const MOST_WIDTH = 1280

// The network knows spaces and seldom says them: its second thought counts where it is this likely. Ours, measured on labels.
const SPACE_FROM = 0.05

const EMPTY: ReadLine = { text: '', probabilities: [], confidence: 0 }

export async function readTextLine(pixels: Pixels, corners: Corners, models: TextModels): Promise<ReadLine> {
  const side = (a: number, b: number) => Math.hypot(corners[a]![0] - corners[b]![0], corners[a]![1] - corners[b]![1])
  const length = Math.max(side(0, 1), side(3, 2))
  const height = Math.max(side(0, 3), side(1, 2))
  if (!(length > 0 && height > 0)) return EMPTY
  const width = Math.min(MOST_WIDTH, Math.max(8, Math.round((LINE_HEIGHT * length) / height)))
  const line = cutOut(pixels, corners, width, LINE_HEIGHT)
  if (!line) return EMPTY
  const wide = Math.max(LEAST_WIDTH, width)
  const planes = new Float32Array(3 * LINE_HEIGHT * wide)
  for (let y = 0; y < LINE_HEIGHT; y++) {
    for (let x = 0; x < width; x++) {
      const from = (y * width + x) * 4
      for (let channel = 0; channel < 3; channel++) {
        planes[(channel * LINE_HEIGHT + y) * wide + x] = line.data[from + 2 - channel]! / 127.5 - 1
      }
    }
  }
  const { probabilities, steps, classes } = await models.recognise(planes, wide)
  return decodeLine(probabilities, steps, classes, models.characters)
}

export function decodeLine(
  probabilities: Float32Array,
  steps: number,
  classes: number,
  characters: readonly string[],
): ReadLine {
  let text = ''
  const each: number[] = []
  let before = 0
  let space = 0
  for (let step = 0; step < steps; step++) {
    const offset = step * classes
    space = Math.max(space, probabilities[offset + classes - 1]!)
    let best = 0
    for (let k = 1; k < classes; k++) {
      if (probabilities[offset + k]! > probabilities[offset + best]!) best = k
    }
    const probability = probabilities[offset + best]!
    if (best !== 0 && best !== before) {
      const character = characters[best] ?? ''
      if (character !== ' ' && space >= SPACE_FROM && text !== '' && !text.endsWith(' ')) {
        text += ' '
        each.push(probability)
      }
      space = 0
      text += character
      for (let i = 0; i < character.length; i++) each.push(probability)
    } else if (best !== 0 && best === before) {
      // The same character over several steps: its clearest step speaks for it.
      each[each.length - 1] = Math.max(each.at(-1) ?? 0, probability)
    }
    before = best
  }
  const start = text.length - text.trimStart().length
  const end = text.trimEnd().length
  const kept = each.slice(start, end)
  const confidence = kept.length === 0 ? 0 : kept.reduce((a, b) => a + b, 0) / kept.length
  return { text: text.trim(), probabilities: kept, confidence }
}
