/** Every test: the network rejects, and fast-check's seed is fixed in CI and printed. */
import fc from 'fast-check'

const seed = process.env.CI ? 20260101 : Number(process.env.FC_SEED ?? Date.now() % 2 ** 31)
fc.configureGlobal({ seed })
if (!process.env.CI && !process.env.FC_SEED) process.env.FC_SEED_SHOWN ||= String(seed)

globalThis.fetch = (input) => {
  throw new Error(`no test may reach the network, and this one asked for ${String(input)}`)
}
