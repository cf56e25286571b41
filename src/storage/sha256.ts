/** SHA-256 (FIPS 180-4), the name under which bytes are kept. */
import { digest } from './digest.ts'

export function sha256(bytes: BufferSource): Promise<string> {
  return digest('SHA-256', bytes)
}
