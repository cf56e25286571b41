/** Photo facts for a person. */
import type { PhotoFacts } from '../../domain/photo-facts.ts'
import { safe, table } from './lay-out.ts'

function photoText(facts: PhotoFacts): string {
  const rows: [string, string | null | false][] = [
    ['size', facts.width !== null && `${facts.width} × ${facts.height} px, ${facts.mediaType}, ${facts.bytes} bytes`],
    ['view', facts.examined && (facts.view === 'cannot-tell' ? 'cannot tell' : facts.view)],
    [
      'blur',
      facts.examined &&
        (facts.blurPx === null ? 'cannot tell: too few clear edges' : `${facts.blurPx} px at the sharpest edges`),
    ],
    ['JPEG quality', facts.jpegQuality !== null && `${facts.jpegQuality} of 100`],
    ['scale', facts.pxPerMm !== null && `${facts.pxPerMm.toFixed(1)} px/mm`],
    ['codes', facts.barcodes.map(({ format, text }) => `${format}: ${text}`).join('; ')],
    ['SHA-256', facts.sha256],
    ['fingerprint', facts.pdq && `${facts.pdq} (quality ${facts.pdqQuality})`],
    ['problems', facts.problems.map(({ problem, detail }) => `${problem}: ${detail}`).join('; ')],
  ]
  const known = rows.filter((row): row is [string, string] => typeof row[1] === 'string' && row[1] !== '')
  return `${safe(facts.file)}${facts.examined ? '' : '  (not looked at)'}\n${table(known.map(([name, words]) => [name, safe(words)]))}`
}

export function photosText(facts: readonly PhotoFacts[]): string {
  return facts.map(photoText).join('\n\n')
}
