/** What this program is called and which version runs. */
import { extensionRuntime } from './extension-runtime.ts'

export function readProgram(): { readonly name: string; readonly version: string } {
  const { version } = (extensionRuntime() as unknown as { getManifest(): { version: string } }).getManifest()
  return { name: 'touchstone', version }
}
