/** Words of dates and spans in nine languages (and the Scandinavian months, which cost nothing). Data only; forms after CLDR. */

/** Stems of month names: a word that begins with one, and is no longer than the full name's stem allows, is that month. */
export const MONTHS: readonly (readonly string[])[] = [
  ['january', 'januar', 'jänner', 'janvier', 'enero', 'gennaio', 'januari', 'stycznia', 'styczeń', 'janeiro', 'jan', 'janv', 'ene', 'gen', 'sty'],
  ['february', 'februar', 'feber', 'février', 'fevrier', 'febrero', 'febbraio', 'februari', 'lutego', 'luty', 'fevereiro', 'feb', 'févr', 'fevr', 'fév', 'fev', 'lut'],
  ['march', 'märz', 'maerz', 'mars', 'marzo', 'maart', 'marca', 'marzec', 'março', 'marco', 'mar', 'mär', 'mrz', 'mrt'],
  ['april', 'avril', 'abril', 'aprile', 'kwietnia', 'kwiecień', 'apr', 'avr', 'abr', 'kwi'],
  ['may', 'mai', 'mayo', 'maggio', 'mei', 'maja', 'maj', 'maio', 'mag'],
  ['june', 'juni', 'juin', 'junio', 'giugno', 'czerwca', 'czerwiec', 'junho', 'jun', 'giu', 'cze'],
  ['july', 'juli', 'juillet', 'julio', 'luglio', 'lipca', 'lipiec', 'julho', 'jul', 'juil', 'lug', 'lip'],
  ['august', 'août', 'aout', 'agosto', 'augustus', 'augusti', 'sierpnia', 'sierpień', 'aug', 'ago', 'sie'],
  ['september', 'septembre', 'septiembre', 'settembre', 'września', 'wrzesień', 'setembro', 'sep', 'sept', 'set', 'wrz'],
  ['october', 'oktober', 'octobre', 'octubre', 'ottobre', 'października', 'październik', 'outubro', 'oct', 'okt', 'ott', 'out', 'paź'],
  ['november', 'novembre', 'noviembre', 'listopada', 'listopad', 'novembro', 'nov', 'lis'],
  ['december', 'dezember', 'décembre', 'decembre', 'diciembre', 'dicembre', 'grudnia', 'grudzień', 'dezembro', 'desember', 'dec', 'dez', 'déc', 'dic', 'gru', 'des'],
]

export const UNITS: readonly { readonly ms: number; readonly words: readonly string[] }[] = [
  { ms: 604_800_000, words: ['w', 'wk', 'wks', 'week', 'weeks', 'woche', 'wochen', 'semaine', 'semaines', 'sem', 'semana', 'semanas', 'settimana', 'settimane', 'weken', 'tydzień', 'tygodnie', 'tygodni', 'tyg', '週間', '週'] },
  { ms: 86_400_000, words: ['d', 'day', 'days', 't', 'tag', 'tage', 'tagen', 'tg', 'j', 'jr', 'jour', 'jours', 'día', 'días', 'dia', 'dias', 'g', 'gg', 'giorno', 'giorni', 'dag', 'dagen', 'dgn', 'dzień', 'dni', 'dnia', 'dygn', 'dagar', '日間', '日'] },
  { ms: 3_600_000, words: ['h', 'hr', 'hrs', 'hour', 'hours', 'std', 'stunde', 'stunden', 'heure', 'heures', 'hora', 'horas', 'ora', 'ore', 'u', 'uur', 'uren', 'godz', 'godzina', 'godziny', 'godzin', 'tim', 'timmar', 'timme', '時間'] },
  { ms: 60_000, words: ['m', 'min', 'mins', 'minute', 'minutes', 'minuten', 'minuto', 'minutos', 'minuti', 'minuut', 'minut', 'minuta', 'minuty', 'mn', '分'] },
  { ms: 1000, words: ['s', 'sec', 'secs', 'second', 'seconds', 'sek', 'sekunde', 'sekunden', 'seconde', 'secondes', 'segundo', 'segundos', 'seg', 'secondi', 'secondo', 'seconden', 'sekund', 'sekundy', 'sekunda', '秒'] },
]

/** Days from today. */
export const DAY_WORDS: Readonly<Record<string, number>> = {
  today: 0, heute: 0, "aujourd'hui": 0, hoy: 0, oggi: 0, vandaag: 0, dzisiaj: 0, dziś: 0, hoje: 0, 今日: 0, 本日: 0, idag: 0,
  tomorrow: 1, morgen: 1, demain: 1, mañana: 1, domani: 1, jutro: 1, amanhã: 1, 明日: 1, imorgon: 1,
  yesterday: -1, gestern: -1, hier: -1, ayer: -1, ieri: -1, gisteren: -1, wczoraj: -1, ontem: -1, 昨日: -1, igår: -1,
}

/** Words that turn a span into the past: "3 days ago", "vor 3 Tagen". */
export const AGO = /(?:\bago\b|\bvor\b|il y a|\bhace\b|\bfa\b|geleden|\btemu\b|\bhá\b|\batrás\b|前|\bsedan\b)/iu

/** Hours from UTC. Letters are shared between countries; the commonest meaning on European and American sites is taken. */
export const ZONES: Readonly<Record<string, number>> = {
  UTC: 0, GMT: 0, Z: 0, WET: 0, WEST: 1, BST: 1, CET: 1, MEZ: 1, HNEC: 1, CEST: 2, MESZ: 2, EET: 2, EEST: 3, MSK: 3, IST: 5.5, JST: 9, KST: 9, AWST: 8, ACST: 9.5, AEST: 10, ACDT: 10.5, AEDT: 11,
  NZST: 12, NZDT: 13, EST: -5, EDT: -4, CST: -6, CDT: -5, MST: -7, MDT: -6, PST: -8, PDT: -7, AKST: -9, AKDT: -8, HST: -10, BRT: -3, ART: -3, HNE: -5, HAE: -4,
}

/** Letters for "whatever is kept there": winter or summer time by date. */
export const NAMED_ZONES: Readonly<Record<string, string>> = { ET: 'America/New_York', CT: 'America/Chicago', MT: 'America/Denver', PT: 'America/Los_Angeles' }

/** Countries with one zone, by region or by language; where a country keeps several, nothing is assumed. */
export const ZONE_OF_PLACE: Readonly<Record<string, string>> = {
  DE: 'Europe/Berlin', AT: 'Europe/Vienna', CH: 'Europe/Zurich', FR: 'Europe/Paris', ES: 'Europe/Madrid', IT: 'Europe/Rome', NL: 'Europe/Amsterdam', BE: 'Europe/Brussels', PL: 'Europe/Warsaw', PT: 'Europe/Lisbon',
  JP: 'Asia/Tokyo', GB: 'Europe/London', IE: 'Europe/Dublin', SE: 'Europe/Stockholm', NO: 'Europe/Oslo', DK: 'Europe/Copenhagen', FI: 'Europe/Helsinki', CZ: 'Europe/Prague', HU: 'Europe/Budapest', IN: 'Asia/Kolkata', KR: 'Asia/Seoul', NZ: 'Pacific/Auckland', SG: 'Asia/Singapore', HK: 'Asia/Hong_Kong',
  de: 'Europe/Berlin', fr: 'Europe/Paris', es: 'Europe/Madrid', it: 'Europe/Rome', nl: 'Europe/Amsterdam', pl: 'Europe/Warsaw', pt: 'Europe/Lisbon', ja: 'Asia/Tokyo', sv: 'Europe/Stockholm', da: 'Europe/Copenhagen', nb: 'Europe/Oslo', no: 'Europe/Oslo',
}
