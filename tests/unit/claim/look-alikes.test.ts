/**
 * Words that look like a reprint or like a grader and are none. A false accusation of either kind is the parser's worst mistake, so
 * not one may be found in all of them.
 */
import { describe, expect, test } from 'vitest'
import { parseClaims } from '../../../src/domain/claim/parse-claims.ts'
import { knowledge, vocabulary } from './knowledge.ts'

const parse = (title: string) => parseClaims({ title, specifics: {}, description: null }, knowledge)[0]
const describeIn = (description: string) => parseClaims({ title: null, specifics: {}, description }, knowledge)[0]

const cards = [
  '1931 Skerryball Stars #14 Odo Marrable',
  'Hesper Lunn 1931-32 Skerryball Stars No. 40',
  '1958 Aurunda Tidal League Ivo Brackwater',
  '1931 Harbour Ships of the Cold Coast #7 Nordlys Maiden',
  '1954 Drosselhuber Kaugummi Nr. 22 Wilhelmina Strake',
  '2021 Tidal League Lettie Graymoor',
]

const noReprint = [
  'not a reprint',
  'no reprint',
  'NOT A REPRINT',
  'no reprints here',
  'never reprinted',
  'not reprint',
  "isn't a reprint",
  'this is not a reprint',
  'not a reprint or copy',
  'not a copy, facsimile or reprint',
  'no copy no reprint',
  'original, not a reproduction',
  'guaranteed not a reprint',
  'without reprint marks',
  'unlike the reprints',
  'beware of reprints',
  'not the 1989 reprint',
  'no repro',
  'not a replica',
  'not a fake',
  'no fake',
  'misprint',
  'print defect',
  'print dot',
  'first print',
  'fine print',
  'footprint on back',
  'blueprint back',
  'sprint champion',
  'printed in 1931',
  'imprint on reverse',
  'preprint',
  'print line',
  'printing flaw',
  'off-print',
  'facsimile autograph',
  'facsimile auto',
  'facsimile signature',
  'replica jersey in picture',
  'replica trophy',
  'custom case',
  'custom frame',
  'custom label',
  'copyright 1931',
  'hard copy of letter',
  'copy of the receipt',
  'photo reproduction of colors may vary',
  'Customs Cutter',
  'novelty shop stamp on back',
  'tribute to the captain',
  'Art Deco design',
  'RC',
  'RPA',
  'rookie patch',
  'RP patch',
  'RPM',
  'proof',
  'recopied stats',
  'copious gum stains',
  'kein Nachdruck',
  'kein Reprint',
  'keine Kopie',
  'keine Reproduktion',
  'nicht nachgedruckt',
  'Ein Nachdruck ist das nicht',
  'Nachdruck: nein',
  'Druckfehler',
  'Fehldruck',
  'Eindruck hinten',
  'Aufdruck auf Rückseite',
  'Kopie der Rechnung',
  'pas une réimpression',
  "ce n'est pas une réimpression",
  'aucune reproduction',
  'sans reproduction',
  'faux pli',
  'copie de la facture',
  'impression décalée',
  'signature imprimée',
  'no es una reimpresión',
  'no es reproducción',
  'ni copia ni reimpresión',
  'sin reimpresión',
  'error de impresión',
  'copia del certificado',
  'non è una ristampa',
  'non ristampa',
  'nessuna riproduzione',
  'stampa originale',
  'errore di stampa',
  'copia della fattura',
]

const noGrader = [
  'RC 9',
  'SP 8',
  'HOF 7',
  'SSP 10',
  'AU 10',
  'GU 9',
  'NM 7',
  'NM-MT 8',
  'EX 5',
  'EX-MT 6',
  'VG 3',
  'VG-EX 4',
  'MT 9',
  'MINT 9',
  'GEM 10',
  'GEM MINT 10',
  'PR 1',
  'FR 1.5',
  'GD 2',
  'SN 5',
  'LE 10',
  'ERR 2',
  'ROY 5',
  'MVP 3',
  'USA 5',
  'UK 8',
  'EU 7',
  'LOT 9',
  'TOP 10',
  'VOL 3',
  'PT 2',
  'PG 9',
  'SER 2',
  'SET 5',
  'BOX 2',
  'PACK 3',
  'BIN 9',
  'OBO 10',
  'COA 8',
  'LOA 5',
  'NR 7',
  'NO 9',
  'DVD 3',
  'CD 2',
  'EUR 9',
  'USD 8',
  'GBP 10',
  'CHF 5',
  'CM 8',
  'MM 5',
  'OZ 5',
  'RARE 1',
  'WOW 10',
  'NEW 5',
  'OLD 9',
  'HOT 8',
  'BEST 5',
  'CARD 7',
  'TEAM 5',
  'GAME 7',
  'CUP 3',
  'STAR 5',
  'BACK 2',
  'FC 9',
  'II 5',
  'IV 8',
  'VII 3',
  'AGE 9',
  'DAY 3',
  'MAY 5',
  'OCT 9',
  'DEC 1',
  'EST 5',
  'PM 7',
  'AM 9',
  'POP 1',
  'POP 3 none higher',
  'ABC 14',
  'ABC 5.00',
  'ABC #9',
  'ABC 9 cards',
  'ABC 5 photos',
  'ABC 10%',
  'KVX-ready',
  'not KVX 9',
  'would grade KVX 9',
  'KVX 9?',
  'possible KVX 10',
  'like a KVX 8',
  'KVX 8 worthy',
  'KVX 9 candidate',
  'KVX 10 potential',
  'better than a KVX 7',
  'cracked out of KVX 7',
  'cracked from a ZWY 6',
  'removed from KVX 8 holder',
  'send to KVX',
  'ready for KVX',
  'submit to ZWY',
  'could be a KVX 8',
  'should be a ZWY 9',
  'not graded by KVX',
  'never graded by ZWY',
  'in my opinion a KVX 8',
  'looks like a 9',
  'would grade a 10',
  'mint condition 10/10',
  'condition 9/10',
  '#SST-5',
  '#TLC-9',
  'T-206',
  'HOF 85',
  'corner 9 edges 9',
  'card 7 of 48',
  'wie eine KVX 8',
  'würde eine KVX 9 bekommen',
  'comme une KVX 8',
  'como una KVX 8',
  'come una KVX 8',
]

/** Shouting: in capitals a short word before a number proves nothing. */
const shouted = [
  'ODO MARRABLE BEST 9',
  'HESPER LUNN LAST 5',
  'IVO TOOK 3',
  'SALTMERE WON 5',
  'GRINDLE BAY 7',
  'MUST SEE 10',
  'LOOK WOW 8',
  'BARNABY OXT 6',
  'STRAKE HAS 4',
  'RARE FIND 1',
  'HERON CLUB 9',
  'CORVIN THAX 2',
]

describe('reprint look-alikes', () => {
  const titles = cards.flatMap((card) => noReprint.map((words) => `${card} ${words}`))

  test(`none of ${titles.length} titles is called a reprint`, () => {
    expect(titles.length).toBeGreaterThanOrEqual(300)
    expect(titles.map((title) => [title, parse(title)?.reprint]).filter(([, reprint]) => reprint !== 'no')).toEqual([])
  })

  test('nor any of the same words in a description', () => {
    const texts = noReprint.map(
      (words) => `The card is shown in the photos. ${words.charAt(0).toUpperCase()}${words.slice(1)}. Sharp corners.`,
    )
    expect(texts.map((text) => [text, describeIn(text)?.reprint]).filter(([, reprint]) => reprint !== 'no')).toEqual([])
  })
})

describe('grader look-alikes', () => {
  const titles = [
    ...cards.flatMap((card) => noGrader.map((words) => `${card} ${words}`)),
    ...cards.flatMap((card) => shouted.map((words) => `${card.toUpperCase()} ${words}`)),
  ]

  test(`none of ${titles.length} titles names a grader`, () => {
    expect(titles.length).toBeGreaterThanOrEqual(300)
    expect(titles.map((title) => [title, parse(title)?.grader]).filter(([, grader]) => grader !== null)).toEqual([])
  })

  test('no abbreviation of the trade or of everyday use is a grader before any grade', () => {
    const found = [...vocabulary.abbreviations].flatMap((word) =>
      ['9', '8.5', '10'].map((grade) => [
        `1931 Skerryball Stars Odo Marrable ${word} ${grade}`,
        parse(`1931 Skerryball Stars Odo Marrable ${word} ${grade}`)?.grader,
      ]),
    )
    expect(found.filter(([, grader]) => grader !== null)).toEqual([])
  })

  test('capitals before a number in a description are no grader without a word of grading', () => {
    const texts = noGrader
      .concat(['ABC 9', 'QTR 5', 'NTL 8', 'XYZ 7'])
      .map((words) => `The card is as shown. ${words}. Thank you for looking at it.`)
    expect(texts.map((text) => [text, describeIn(text)?.grader]).filter(([, grader]) => grader !== null)).toEqual([])
  })
})
