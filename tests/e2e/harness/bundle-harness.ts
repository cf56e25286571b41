/** The house's own storage code as one script that can be handed to a page or worker of the extension. */
import { join, resolve } from 'node:path'
import { build } from 'vite'

export async function bundleHarness(): Promise<string> {
  const result = await build({
    configFile: false,
    root: resolve(import.meta.dirname, '../../..'),
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      target: 'chrome120',
      lib: {
        entry: join(import.meta.dirname, 'write-sequences.ts'),
        formats: ['iife'],
        name: 'storageHarnessBundle',
      },
    },
  })
  const [{ output }] = result as unknown as [{ output: { code: string }[] }]
  return output[0]!.code
}
