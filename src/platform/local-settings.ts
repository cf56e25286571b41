/** Small values in the extension's own storage, parsed when read: what the background must know before a database is open. */
import * as v from 'valibot'
import browser from 'webextension-polyfill'

export interface LocalValue<Value> {
  read(): Promise<Value>
  write(value: Value): Promise<void>
}

/** A value that does not parse reads as `fallback`. */
export function localValue<Value>(
  key: string,
  schema: v.GenericSchema<unknown, Value>,
  fallback: Value,
): LocalValue<Value> {
  return {
    async read() {
      const stored = v.safeParse(schema, (await browser.storage.local.get(key))[key])
      return stored.success ? stored.output : fallback
    },
    write: (value) => browser.storage.local.set({ [key]: value }),
  }
}
