/**
 * Builds the extension for one browser family: `vite build --mode chromium` or `--mode firefox`, into `dist/<mode>`.
 * The rooms of `src/contexts` are the entries; everything is bundled, nothing is fetched at run time.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { resolve } from 'node:path'
import { crx } from '@crxjs/vite-plugin'
import preact from '@preact/preset-vite'
import { defineConfig, type Plugin } from 'vite'
import { createManifest, type Target } from './manifest.config.ts'

const ROOT = import.meta.dirname
const CONTEXTS = resolve(ROOT, 'src/contexts')
const ASSETS = resolve(ROOT, 'assets')

/** Icons, licence notices of what is shipped, and the browser's own `messages.json`; our other texts beside it are bundled where they are used. */
function copyAssets(): Plugin {
  return {
    name: 'touchstone:assets',
    apply: 'build',
    enforce: 'pre',
    generateBundle() {
      const emit = (fileName: string) =>
        this.emitFile({ type: 'asset', fileName, source: readFileSync(resolve(ASSETS, fileName)) })
      for (const locale of readdirSync(resolve(ASSETS, '_locales'))) emit(`_locales/${locale}/messages.json`)
      for (const notice of readdirSync(resolve(ASSETS, 'notices'))) emit(`notices/${notice}`)
      for (const icon of readdirSync(resolve(ASSETS, 'icons'))) if (icon.endsWith('.png')) emit(`icons/${icon}`)
    },
  }
}

/** Web-accessible resources would let any page find out that Touchstone is installed. Nothing of ours needs them. */
function hideFromPages(): Plugin {
  return {
    name: 'touchstone:hide-from-pages',
    enforce: 'post',
    renderCrxManifest(manifest: { web_accessible_resources?: unknown }) {
      delete manifest.web_accessible_resources
      return manifest
    },
    // The content script travels as one plain file; what the bundler made of its module besides is loaded by nobody.
    generateBundle(_options, bundle) {
      for (const [file, chunk] of Object.entries(bundle)) {
        if (chunk.type === 'chunk' && chunk.facadeModuleId?.endsWith('content/content-script.ts')) delete bundle[file]
      }
    },
  } as Plugin
}

export default defineConfig(({ mode }) => {
  const target: Target = mode === 'firefox' ? 'firefox' : 'chromium'
  return {
    root: CONTEXTS,
    publicDir: false,
    plugins: [
      copyAssets(),
      preact(),
      crx({ manifest: createManifest(target), browser: target === 'firefox' ? 'firefox' : 'chrome' }),
      hideFromPages(),
    ],
    worker: { format: 'es' },
    build: {
      outDir: resolve(ROOT, 'dist', target),
      emptyOutDir: true,
      target: target === 'firefox' ? 'firefox140' : 'chrome120',
      // Reviewers of the browsers' stores read the bundle; size is held by the budget, not by obscurity.
      minify: true,
      modulePreload: false,
      rollupOptions: {
        input: {
          panel: resolve(CONTEXTS, 'panel/index.html'),
          desk: resolve(CONTEXTS, 'desk/index.html'),
          setup: resolve(CONTEXTS, 'setup/index.html'),
        },
      },
    },
  }
})
