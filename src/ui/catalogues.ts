/** The interface's texts as they lie in `assets/_locales/LANGUAGE/ui/`: a file for each subject, put together by language. */
type Texts = Readonly<Record<string, string>>

const FILES = {
  en: import.meta.glob<Texts>('../../assets/_locales/en/ui/*.json', { eager: true, import: 'default' }),
  de: import.meta.glob<Texts>('../../assets/_locales/de/ui/*.json', { eager: true, import: 'default' }),
} as const

const together = (files: Readonly<Record<string, Texts>>): Texts => Object.assign({}, ...Object.values(files))

export const UI_CATALOGUES = { en: together(FILES.en), de: together(FILES.de) } as const
