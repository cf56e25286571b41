/**
 * The codes on a photo: QR, Data Matrix, Code 128, ITF, PDF417 and what else holders and labels carry, read by zxing-cpp.
 * A code's text is reported as found and never opened. No code is guessed: what fails its checksum is not reported.
 */
import { type ReaderOptions, readBarcodes as readWithZxing } from 'zxing-wasm/reader'
import type { PhotoFacts } from '../domain/photo-facts.ts'
import type { Corners } from './homography.ts'
import type { Pixels } from './pixels.ts'

// Without PDF417's and the linear codes' rarer kin, each of which is one more way to see a code where none is.
const OPTIONS: ReaderOptions = {
  formats: ['QRCode', 'DataMatrix', 'Aztec', 'PDF417', 'Code128', 'Code39', 'ITF', 'EAN-13', 'EAN-8', 'UPC-A', 'UPC-E'],
  tryHarder: true,
  tryRotate: true,
  tryInvert: true,
  tryDownscale: true,
  maxNumberOfSymbols: 8,
}

/** The module's bytes must have been handed over with `prepareZXingModule` where they cannot be fetched. */
export async function readBarcodes({ width, height, data }: Pixels): Promise<PhotoFacts['barcodes']> {
  const found = await readWithZxing({ width, height, data, colorSpace: 'srgb' } as ImageData, OPTIONS)
  return found
    .filter((code) => code.isValid)
    .map(({ format, text, position: { topLeft, topRight, bottomRight, bottomLeft } }) => ({
      format,
      text,
      corners: [topLeft, topRight, bottomRight, bottomLeft].map(({ x, y }) => [x, y] as const) as unknown as Corners,
    }))
}
