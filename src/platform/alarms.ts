/** One moment to be woken at. The browser may forget it over a restart, so it is set anew when the browser starts. */
import browser from 'webextension-polyfill'

/** `at` is ISO 8601; `null` lets go of the alarm. */
export async function setAlarm(name: string, at: string | null): Promise<void> {
  await browser.alarms.clear(name)
  if (at !== null) browser.alarms.create(name, { when: Date.parse(at) })
}

export function onAlarm(name: string, listener: () => void): void {
  browser.alarms.onAlarm.addListener((alarm) => alarm.name === name && listener())
}
