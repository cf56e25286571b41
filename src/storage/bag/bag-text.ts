/** The text files of a BagIt bag (RFC 8493): writing and reading their lines. Knows no file system and no zip. */

/** RFC 8493, 2.1.3: a path's line ends and per cent signs are encoded in manifests; nothing else is. */
export function encodePath(path: string): string {
  return path.replace(/[%\r\n]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0')}`)
}

export function decodePath(path: string): string {
  return path.replace(/%(0D|0A|25)/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
}

export interface ManifestLine {
  readonly hash: string
  /** As written, before it is decoded. */
  readonly path: string
  /** Written as `md5sum` and its kin write binary files, with `*` before the path. */
  readonly starred: boolean
}

/** `null` stands for a line that is none of a manifest. */
export function parseManifest(text: string): (ManifestLine | null)[] {
  return linesOf(text).map((line) => {
    const parts = /^([0-9a-fA-F]+)[ \t]+(\*?)(.+)$/.exec(line)
    return parts && { hash: parts[1]!.toLowerCase(), starred: parts[2] === '*', path: parts[3]! }
  })
}

export interface FetchLine {
  readonly url: string
  readonly path: string
}

export function parseFetch(text: string): (FetchLine | null)[] {
  return linesOf(text).map((line) => {
    const parts = /^(\S+)[ \t]+(?:\d+|-)[ \t]+(.+)$/.exec(line)
    return parts && { url: parts[1]!, path: parts[2]! }
  })
}

/** Labels and values, continued lines joined. `null` stands for a line that is neither. */
export function parseBagInfo(text: string): ([string, string] | null)[] {
  const entries: ([string, string] | null)[] = []
  for (const line of linesOf(text)) {
    const last = entries.at(-1)
    const parts = /^([^:\s][^:]*?)\s*:\s*(.*)$/.exec(line)
    if (/^\s/.test(line) && last) last[1] += ` ${line.trim()}`
    else entries.push(parts && [parts[1]!, parts[2]!])
  }
  return entries
}

/** One element a line; a line end inside a value would begin another element. */
export function writeBagInfo(entries: readonly (readonly [string, string])[]): string {
  return entries.map(([label, value]) => `${label}: ${value.replace(/\s+/g, ' ').trim()}\n`).join('')
}

export function linesOf(text: string): string[] {
  return text.split(/\r\n|\n|\r/).filter((line) => line !== '')
}

/** A path that would lead out of the bag, on whatever system it is unpacked. */
export function leadsOut(path: string): boolean {
  return (
    path.startsWith('/') ||
    path.startsWith('~') ||
    path.includes('\\') ||
    /^[a-z]:/i.test(path) ||
    path.split('/').includes('..')
  )
}
