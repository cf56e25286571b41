/** JPEG files by hand: an EXIF orientation put into an encoded file. Shares nothing with `src/imaging`. */

/** TIFF directory with the one entry Orientation (EXIF 2.3, tag 0x0112, SHORT). */
export function withOrientation(jpeg: Buffer, orientation: number, order: 'II' | 'MM' = 'II'): Buffer {
  const tiff = Buffer.alloc(26)
  const u16 = (value: number, at: number) =>
    order === 'II' ? tiff.writeUInt16LE(value, at) : tiff.writeUInt16BE(value, at)
  const u32 = (value: number, at: number) =>
    order === 'II' ? tiff.writeUInt32LE(value, at) : tiff.writeUInt32BE(value, at)
  tiff.write(order, 0, 'latin1')
  u16(42, 2)
  u32(8, 4)
  u16(1, 8)
  u16(0x0112, 10)
  u16(3, 12)
  u32(1, 14)
  u16(orientation, 18)
  const payload = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff])
  const head = Buffer.from([0xff, 0xe1, 0, 0])
  head.writeUInt16BE(payload.length + 2, 2)
  return Buffer.concat([jpeg.subarray(0, 2), head, payload, jpeg.subarray(2)])
}
