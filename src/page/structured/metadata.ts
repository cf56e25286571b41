/** What a document says about itself in its head: Open Graph (with its arrays), product and Twitter names, description, canonical address. */

export interface MetaImage {
  readonly url: string
  readonly width: string | null
  readonly height: string | null
  readonly alt: string | null
}

export interface PageMetadata {
  /** First value of each name, names in small letters (`og:title`, `product:price:amount`, `twitter:label1`, `description`). */
  readonly names: ReadonlyMap<string, string>
  /** In order; sizes belong to the image before them (Open Graph protocol, section Arrays). */
  readonly images: readonly MetaImage[]
  readonly canonical: string | null
  readonly title: string | null
}

export function readMetadata(document: Document, metas: readonly Element[]): PageMetadata {
  const names = new Map<string, string>()
  const images: { url: string; width: string | null; height: string | null; alt: string | null }[] = []
  for (const meta of metas) {
    const name = (meta.getAttribute('property') ?? meta.getAttribute('name') ?? meta.getAttribute('itemprop'))
      ?.trim()
      .toLowerCase()
    const content = meta.getAttribute('content')?.trim()
    if (!name || !content || content.length > 20_000) continue
    if (!names.has(name)) names.set(name, content)
    const last = images.at(-1)
    if (name === 'og:image' || name === 'og:image:url') {
      // `og:image:url` right after `og:image` with the same address is the same picture.
      if (last?.url !== content) images.push({ url: content, width: null, height: null, alt: null })
    } else if (name === 'og:image:secure_url') {
      if (!last) images.push({ url: content, width: null, height: null, alt: null })
    } else if (last && name === 'og:image:width') last.width ??= content
    else if (last && name === 'og:image:height') last.height ??= content
    else if (last && name === 'og:image:alt') last.alt ??= content
  }
  let canonical: string | null = null
  for (const link of document.head?.children ?? []) {
    if (link.localName === 'link' && link.getAttribute('rel')?.toLowerCase() === 'canonical')
      canonical = link.getAttribute('href')
  }
  const title = document.title?.replace(/\s+/g, ' ').trim() || null
  return { names, images, canonical, title: title ? title.slice(0, 2000) : null }
}
