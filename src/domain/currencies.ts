/**
 * Which ISO 4217 code a mark beside an amount stands for, and in which countries an ambiguous mark means which money.
 * Data and look-up only; amounts are read in `parse-money.ts`. Marks follow CLDR's (narrow) symbols and common shop practice.
 */

/** Marks that stand for one currency wherever they are used. */
const UNAMBIGUOUS = `
US$ USD|U.S.$ USD|US $ USD|U$S USD|USD$ USD|A$ AUD|AU$ AUD|AUD$ AUD|C$ CAD|CA$ CAD|CAD$ CAD|CDN$ CAD|NZ$ NZD|NZD$ NZD|HK$ HKD|S$ SGD|SG$ SGD|SGD$ SGD
NT$ TWD|MX$ MXN|MXN$ MXN|R$ BRL|J$ JMD|TT$ TTD|Bds$ BBD|BZ$ BZD|EC$ XCD|FJ$ FJD|G$ GYD|N$ NAD|Z$ ZWL|MOP$ MOP|RD$ DOP|CLP$ CLP|COP$ COP|AR$ ARS|$U UYU|Bs. BOB
€ EUR|euro EUR|euros EUR|eur EUR|ευρώ EUR|евро EUR|ユーロ EUR|₠ EUR|£ GBP|￡ GBP|₤ GBP|円 JPY|JP¥ JPY|CN¥ CNY|RMB CNY|元 CNY|人民币 CNY|₹ INR|र INR|रु INR|₨ PKR
₩ KRW|￦ KRW|원 KRW|₽ RUB|руб RUB|руб. RUB|рубль RUB|рублей RUB|рубля RUB|Р RUB|р. RUB|₴ UAH|грн UAH|грн. UAH|₺ TRY|TL TRY|₪ ILS|ש"ח ILS|₫ VND|đ VND
₱ PHP|฿ THB|บาท THB|₸ KZT|₼ AZN|₾ GEL|֏ AMD|؋ AFN|৳ BDT|៛ KHR|₭ LAK|₮ MNT|₦ NGN|₡ CRC|₲ PYG|₵ GHS|GH₵ GHS|zł PLN|zl PLN|złotych PLN|Kč CZK|Kc CZK
Ft HUF|lei RON|leu RON|лв BGN|лв. BGN|kn HRK|Rp IDR|Rp. IDR|RM MYR|KD KWD|KWD KWD|د.ك KWD|د.إ AED|Dhs AED|ر.س SAR|ريال SAR|ر.ق QAR|جنيه EGP|ج.م EGP|LE EGP|ریال IRR|﷼ IRR
د.م. MAD|د.ج DZD|د.ت TND|SFr. CHF|SFr CHF|Fr. CHF|sFr. CHF|Fr.- CHF|CHF CHF|B/. PAB|S/. PEN|S/ PEN|Q GTQ|L. HNL|C$ CAD|Nu. BTN|FBu BIF|FCFA XAF|CFA XOF|F CFA XOF|Fdj DJF|Nfk ERN
FG GNF|UM MRU|TSh TZS|KSh KES|USh UGX|VT VUV|ZK ZMW|MK MWK|Bs BOB|Br BYN|ден MKD|дин RSD|din RSD|KM BAM|сом KGS|so'm UZS|T$ TOP|WS$ WST|SI$ SBD|L£ LBP|E£ EGP|RD$ DOP
NOK NOK|SEK SEK|DKK DKK|Íkr ISK|kr. DKK
`

/** Marks that several countries use: the first country's money is assumed unless the page says otherwise. */
const AMBIGUOUS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  $: {
    US: 'USD',
    CA: 'CAD',
    AU: 'AUD',
    NZ: 'NZD',
    SG: 'SGD',
    HK: 'HKD',
    MX: 'MXN',
    AR: 'ARS',
    CL: 'CLP',
    CO: 'COP',
    UY: 'UYU',
    TW: 'TWD',
    JM: 'JMD',
  },
  '＄': { US: 'USD' },
  '¥': { JP: 'JPY', CN: 'CNY' },
  '￥': { JP: 'JPY', CN: 'CNY' },
  kr: { SE: 'SEK', NO: 'NOK', DK: 'DKK', IS: 'ISK' },
  Rs: { IN: 'INR', PK: 'PKR', LK: 'LKR', NP: 'NPR', MU: 'MUR' },
  'Rs.': { IN: 'INR', PK: 'PKR', LK: 'LKR', NP: 'NPR', MU: 'MUR' },
  R: { ZA: 'ZAR' },
}

/** ISO 4217 codes in use (list one, 2024), plus those whose money is still met in old listings. */
const ISO_CODES = new Set(
  (
    'AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB ' +
    'EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA ' +
    'MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN ' +
    'SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ZWL HRK LTL LVL EEK SKK DEM FRF ITL PTE ESP ATS NLG BEF'
  ).split(' '),
)

/** Codes that are also ordinary words or trade abbreviations in capitals: "TOP 100", "CUP 5", "MOP 3". */
const WORD_LIKE = new Set([
  'ALL',
  'TOP',
  'CUP',
  'GEL',
  'BAM',
  'BOB',
  'MOP',
  'PEN',
  'SOS',
  'TRY',
  'MAD',
  'COP',
  'ANG',
  'LAK',
  'STN',
  'SHP',
  'SLE',
  'SCR',
  'ESP',
  'ATS',
])

/** Money with three decimals (ISO 4217): "423.923 KD" is less than five hundred. */
const THREE_DECIMALS = new Set(['BHD', 'IQD', 'JOD', 'KWD', 'LYD', 'OMR', 'TND'])

/** Small letters of everything that can be a mark, without spaces: what is not in it is rejected at once. */
const known = new Set<string>()
const marks = new Map<string, string>()
for (const entry of UNAMBIGUOUS.split(/[|\n]/)) {
  const at = entry.lastIndexOf(' ')
  if (at > 0) marks.set(entry.slice(0, at), entry.slice(at + 1))
}

for (const mark of [...marks.keys(), ...Object.keys(AMBIGUOUS), ...ISO_CODES])
  known.add(mark.toLowerCase().replace(/ /g, ''))

export interface CurrencyMeaning {
  readonly currency: string
  /** `true` where the mark alone leaves it open and the commonest meaning was taken. */
  readonly assumed: boolean
}

export interface CurrencyEvidence {
  /** ISO 4217, from the page's own data or a price beside. */
  readonly currencyHint?: string | null
  /** BCP 47; its region, or the language's usual region, settles an ambiguous mark. */
  readonly locale?: string | null
}

/** Languages whose usual region settles a mark when the tag names none. English settles nothing. */
const USUAL_REGION: Readonly<Record<string, string>> = {
  ja: 'JP',
  zh: 'CN',
  sv: 'SE',
  nb: 'NO',
  nn: 'NO',
  no: 'NO',
  da: 'DK',
  is: 'IS',
  hi: 'IN',
  ur: 'PK',
}

export function regionOf(locale: string | null | undefined): string | null {
  if (!locale) return null
  const parts = locale.split(/[-_]/)
  const region = parts.slice(1).find((part) => /^[A-Za-z]{2}$/.test(part))
  return region ? region.toUpperCase() : (USUAL_REGION[(parts[0] ?? '').toLowerCase()] ?? null)
}

export function isCurrencyCode(code: string): boolean {
  return ISO_CODES.has(code)
}

export function isWordLikeCode(code: string): boolean {
  return WORD_LIKE.has(code)
}

export function usesThreeDecimals(currency: string | null): boolean {
  return currency !== null && THREE_DECIMALS.has(currency)
}

/** The meaning of a mark as it stands in the text; `null` where it is no mark that we know. */
export function readCurrencyMark(mark: string, evidence: CurrencyEvidence = {}): CurrencyMeaning | null {
  const folded = mark.toLowerCase().replace(/[\s\u00a0]+/g, '')
  if (!known.has(folded) && !(folded.length > 3 && /[$€£¥]/.test(folded))) return null
  const token = mark.trim().replace(/[\s\u00a0]+/g, ' ')
  if (!token) return null
  const choices = AMBIGUOUS[token] ?? AMBIGUOUS[token.toLowerCase()]
  if (choices) {
    const hint = evidence.currencyHint?.toUpperCase()
    if (hint && Object.values(choices).includes(hint)) return { currency: hint, assumed: false }
    const region = regionOf(evidence.locale)
    const local = region ? choices[region] : undefined
    if (local) return { currency: local, assumed: false }
    return { currency: Object.values(choices)[0]!, assumed: true }
  }
  const upper = token.toUpperCase()
  if (ISO_CODES.has(upper) && token.length === 3) return { currency: upper, assumed: false }
  const exact = marks.get(token) ?? marks.get(token.toLowerCase()) ?? marks.get(upper)
  if (exact) return { currency: exact, assumed: false }
  const compact = token.replace(/ /g, '')
  const joined = marks.get(compact) ?? marks.get(compact.toUpperCase())
  if (joined) return { currency: joined, assumed: false }
  // "SGD$", "$ SGD": a code glued to a sign.
  const code = /[A-Z]{3}/.exec(upper)
  if (code && ISO_CODES.has(code[0]) && /^[$€£¥. ]+$/.test(upper.replace(code[0], '')))
    return { currency: code[0], assumed: false }
  return null
}
