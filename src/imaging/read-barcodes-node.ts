/** The barcode reader in Node: its WebAssembly comes from the installed package, not from a network. */
import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { prepareZXingModule } from 'zxing-wasm/reader'
import type { ReadBarcodes } from './examine-photo.ts'
import { readBarcodes } from './read-barcodes.ts'

export async function createBarcodeReader(): Promise<ReadBarcodes> {
  const file = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm')
  const bytes = await readFile(file)
  const wasmBinary = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true })
  return readBarcodes
}
