/** In which of the languages that labels are known in a page is written: by its own statement, checked against its words. */
import { hasLetter, wordsOf } from '../domain/letters.ts'
import { LANGUAGES, type Language } from './lexicon.ts'

/** Function words that few neighbours share; from general knowledge of the languages, enough to tell them apart. */
const COMMON: Readonly<Record<Exclude<Language, 'ja'>, string>> = {
  en: 'the and of to for with this your from are you item by on not or is',
  de: 'der die das und ist mit für nicht auf ein eine sie von zu auch oder bei nach wird zzgl',
  fr: 'le les des et est une pour vous avec dans sur votre du au ce cette plus pas',
  es: 'el los las del y para con una por su este esta en al más que se',
  it: 'il gli della di e per con una che del nel questo alla sono più non dei',
  nl: 'het een van en voor met niet op zijn deze aan bij naar ook of je wordt',
  pl: 'i w na z do nie się jest oraz dla od po to za przez ze jak',
  pt: 'o os da do e para com uma não em ao mais por seu você das dos',
  sv: 'och att det som en på är av för med inte till den har ett om från',
  da: 'og at det som en på er af for med ikke til den har et om fra eller hos',
  no: 'og at det som en på er av for med ikke til den har et om fra eller hos',
  cs: 'a v na se je že s z do o k pro za jsou po jako nebo ve od',
}

const LANGUAGES_OF = new Map<string, Language[]>()
for (const [language, words] of Object.entries(COMMON) as [Language, string][]) {
  for (const word of words.split(' ')) LANGUAGES_OF.set(word, [...(LANGUAGES_OF.get(word) ?? []), language])
}
/** Words looked at; enough to tell, and cheap. */
const SAMPLE = 900

export interface LanguageFinding {
  /** BCP 47 as the page states it, else the language that was detected. */
  readonly tag: string | null
  /** Languages whose labels are looked for, surest first; English always last, since half of all templates use it. */
  readonly languages: readonly Language[]
}

export function detectLanguage(stated: string | null, texts: Iterable<string>): LanguageFinding {
  const scores = new Map<Language, number>()
  let words = 0
  let kana = 0
  let letters = 0
  for (const text of texts) {
    if (words > SAMPLE) break
    if (/[\u3040-\u30ff]/.test(text)) kana += (text.match(/[\u3040-\u30ff]/g) ?? []).length
    for (const word of wordsOf(text.toLowerCase())) {
      if (!hasLetter(word)) continue
      words += 1
      letters += word.length
      const languages = LANGUAGES_OF.get(word)
      if (languages) for (const language of languages) scores.set(language, (scores.get(language) ?? 0) + 1)
    }
  }
  const base = (stated ?? '').trim().split(/[-_]/)[0]!.toLowerCase()
  const claimed = (LANGUAGES as readonly string[]).includes(base)
    ? (base as Language)
    : base === 'nb' || base === 'nn'
      ? 'no'
      : null
  const ranked = [...scores].sort((a, b) => b[1] - a[1])
  const found: Language[] = []
  if (kana > 20 && kana > letters * 0.1) found.push('ja')
  // Three hits and a twentieth of the words: below that the words tell nothing.
  else if (ranked[0] && ranked[0][1] >= 3 && ranked[0][1] >= words * 0.03) found.push(ranked[0][0])
  // An advert in another language than its site's: a third of the first's words is more than loans between them give.
  const second = ranked[1]
  if (found.length > 0 && second && second[1] >= 3 && second[1] * 3 >= ranked[0]![1]) found.push(second[0])
  if (claimed && !found.includes(claimed)) found.push(claimed)
  if (found.length === 0) found.push(...LANGUAGES.filter((language) => language !== 'en'))
  if (!found.includes('en')) found.push('en')
  return { tag: stated?.trim() || (ranked[0] && ranked[0][1] >= 3 ? ranked[0][0] : null), languages: found }
}
