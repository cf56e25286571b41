/**
 * The sites that the buyer switched on. The browser's permissions are the truth; the list here only remembers which of the
 * permitted hosts are sites to look at and which only serve their photos.
 */
import * as v from 'valibot'
import { registerSiteScripts } from '../../platform/content-scripts.ts'
import { localValue } from '../../platform/local-settings.ts'
import { giveBack, mayRead, originPattern } from '../../platform/permissions.ts'
import contentScript from '../content/content-script?iife'

interface Site {
  readonly origin: string
  readonly photoOrigins: readonly string[]
}

const SITES = localValue<readonly Site[]>(
  'sites',
  v.array(v.object({ origin: v.string(), photoOrigins: v.array(v.string()) })),
  [],
)

export function readSites(): Promise<readonly Site[]> {
  return SITES.read()
}

export async function isSwitchedOn(url: string | undefined): Promise<boolean> {
  if (url === undefined || !URL.canParse(url)) return false
  const pattern = originPattern(new URL(url).origin)
  return (await SITES.read()).some((site) => originPattern(site.origin) === pattern)
}

/** `false` when the permission is not there. */
export async function switchOn(site: Site): Promise<boolean> {
  if (!(await mayRead([site.origin]))) return false
  const known = await SITES.read()
  const before = known.find((other) => other.origin === site.origin)
  const photoOrigins = [...new Set([...(before?.photoOrigins ?? []), ...site.photoOrigins])]
  await SITES.write([...known.filter((other) => other !== before), { origin: site.origin, photoOrigins }])
  await registerSites()
  return true
}

/** Forgets the site and gives back every permission that no other site needs. */
export async function switchOff(origin: string): Promise<void> {
  const known = await SITES.read()
  const gone = known.filter((site) => site.origin === origin)
  const left = known.filter((site) => site.origin !== origin)
  await SITES.write(left)
  const needed = new Set(hostsOf(left).map(originPattern))
  await giveBack(hostsOf(gone).filter((host) => !needed.has(originPattern(host))))
  await registerSites()
}

const hostsOf = (sites: readonly Site[]) => sites.flatMap((site) => [site.origin, ...site.photoOrigins])

/** After an update, at start-up and when a permission went: exactly the permitted sites carry our script. */
export async function registerSites(): Promise<void> {
  const known = await SITES.read()
  const permitted: Site[] = []
  for (const site of known) if (await mayRead([site.origin])) permitted.push(site)
  if (permitted.length < known.length) await SITES.write(permitted)
  const scripts = new Map(permitted.map(({ origin }) => [originPattern(origin), origin]))
  await registerSiteScripts(
    [...scripts.keys()].map((pattern) => ({ id: `site ${pattern}`, pattern })),
    contentScript,
  )
}
