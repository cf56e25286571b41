/** Amounts and times as each market writes them. Takes the invented data's decimal strings. */

export function inEnglish(amount: string, currency: string): string {
  return new Intl.NumberFormat('en-IE', { style: 'currency', currency }).format(Number(amount))
}

/** Whole pounds without pence, as auction houses write them. */
export function inPounds(amount: string): string {
  return new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'GBP', maximumFractionDigits: 0 }).format(
    Number(amount),
  )
}

/** `1.234,50 €`, with the no-break space that `Intl` puts there. */
export function inGerman(amount: string): string {
  return new Intl.NumberFormat('de-DE', { style: 'currency', currency: 'EUR' }).format(Number(amount))
}

export function inDaysAndHours(hours: number, words: { day: string; hour: string }): string {
  const days = Math.floor(hours / 24)
  return days > 0 ? `${days}${words.day} ${hours % 24}${words.hour}` : `${hours}${words.hour}`
}

export function onDay(iso: string, locale: string, options: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat(locale, { timeZone: 'UTC', ...options }).format(new Date(iso))
}
