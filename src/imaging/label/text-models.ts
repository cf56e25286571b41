/**
 * The two networks that read text: one finds lines (PP-OCRv4 detection), one reads a line (PP-OCRv4 recognition). Weights and
 * runtime are handed in, since a worker and Node load them differently; nothing here fetches anything.
 * Upstream: PaddleOCR, Apache-2.0; run by ONNX Runtime, MIT.
 */
import * as ort from 'onnxruntime-web/wasm'

export interface ModelFiles {
  /** The runtime's WebAssembly: its bytes, or an address of ours to load it from. */
  readonly wasm: ArrayBuffer | string
  readonly detection: Uint8Array
  readonly recognition: Uint8Array
  /** One character a line, in the order of the recognition's classes. */
  readonly characters: string
}

export interface Recognition {
  /** Probability of each class at each step, by steps. */
  readonly probabilities: Float32Array
  readonly steps: number
  readonly classes: number
}

export interface TextModels {
  /** @param planes three normalised colour planes. Resolves with the probability that a pixel lies in the heart of a line. */
  detect(planes: Float32Array, width: number, height: number): Promise<Float32Array>
  /** @param planes three normalised colour planes of a line, `LINE_HEIGHT` px high. */
  recognise(planes: Float32Array, width: number): Promise<Recognition>
  /** The character of each class: class 0 is "nothing new", the last is the space. */
  readonly characters: readonly string[]
  close(): Promise<void>
}

/** Pixels: the height that the recognition was trained at. */
export const LINE_HEIGHT = 48

export async function openTextModels(files: ModelFiles): Promise<TextModels> {
  // One thread: threads need a shared memory that pages of an extension do not have in every browser.
  ort.env.wasm.numThreads = 1
  ort.env.wasm.proxy = false
  if (typeof files.wasm === 'string') ort.env.wasm.wasmPaths = { wasm: files.wasm }
  else ort.env.wasm.wasmBinary = files.wasm
  const options: ort.InferenceSession.SessionOptions = {
    executionProviders: ['wasm'],
    graphOptimizationLevel: 'all',
    // The arena keeps the largest picture's memory for ever; label and line are small beside it.
    enableCpuMemArena: false,
    logSeverityLevel: 3,
  }
  const detection = await ort.InferenceSession.create(files.detection, options)
  const recognition = await ort.InferenceSession.create(files.recognition, options)
  const characters = ['', ...files.characters.split('\n').map((line) => line.replace(/\r$/, '')), ' ']

  async function infer(session: ort.InferenceSession, planes: Float32Array, width: number, height: number) {
    const input = new ort.Tensor('float32', planes, [1, 3, height, width])
    const answers = await session.run({ [session.inputNames[0] as string]: input })
    const answer = answers[session.outputNames[0] as string] as ort.Tensor
    const { data, dims } = answer
    input.dispose()
    return { data: data as Float32Array, dims }
  }

  return {
    characters,
    async detect(planes, width, height) {
      return (await infer(detection, planes, width, height)).data
    },
    async recognise(planes, width) {
      const { data, dims } = await infer(recognition, planes, width, LINE_HEIGHT)
      const [, steps, classes] = dims as readonly number[] as [number, number, number]
      if (classes !== characters.length) throw new Error(`${classes} classes, ${characters.length} characters`)
      return { probabilities: data, steps, classes }
    },
    async close() {
      await detection.release()
      await recognition.release()
    },
  }
}
