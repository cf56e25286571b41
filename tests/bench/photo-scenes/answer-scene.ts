/** One drawn scene examined as any photo is, and what came of it as a line. */
import { decodeInNode } from '../../../src/imaging/decode-node.ts'
import { examinePhoto, type ReadBarcodes } from '../../../src/imaging/examine-photo.ts'
import type { SceneLine } from './count-answers.ts'
import { jaccard } from './jaccard.ts'
import { makeScene, type SceneWishes } from './make-scene.ts'
import type { SceneSettings } from './scene-settings.ts'
import type { Four } from './scene-truth.ts'

export async function answerScene(
  seed: number,
  settings: SceneSettings,
  readBarcodes: ReadBarcodes,
  wishes: SceneWishes = {},
): Promise<SceneLine> {
  const { bytes, truth } = makeScene(seed, settings, wishes)
  const started = performance.now()
  const facts = await examinePhoto(bytes, { file: `${seed}`, decode: decodeInNode, readBarcodes })
  const milliseconds = Math.round(performance.now() - started)
  const compare = (true_: Four | null, given: { corners: Four } | null) =>
    true_ === null ? null : given === null ? 0 : jaccard(given.corners, true_)
  return {
    seed,
    family: truth.family,
    truth: truth.view,
    difficulty: truth.difficulty,
    faults: truth.faults,
    design: truth.design,
    table: truth.table,
    holderKind: truth.view === 'out-of-holder' ? null : truth.holderKind,
    answer: facts.view,
    evidence: facts.viewEvidence,
    saidHolderKind: facts.holderKind,
    cardIou: compare(truth.card, facts.card),
    holderIou: truth.holderKind === null ? null : compare(truth.holder, facts.holder),
    pxPerMm: truth.pxPerMm,
    saidPxPerMm: facts.pxPerMm,
    milliseconds,
  }
}
