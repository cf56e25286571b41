/**
 * The extension's manifest, one for each browser family. Permissions are named here and nowhere else; sites are only ever
 * optional. Must not gain a permission without a line in DEVELOPERS.md that says what for.
 */
import type { ManifestV3Export } from '@crxjs/vite-plugin'
import packageJson from './package.json' with { type: 'json' }

export type Target = 'chromium' | 'firefox'

/** Fixed, so that a profile keeps its data from one build to the next. */
export const FIREFOX_ID = 'touchstone@touchstone.example'

const ICONS = { 16: 'icons/16.png', 32: 'icons/32.png', 48: 'icons/48.png', 128: 'icons/128.png' }

// The data flow is the argument for each: the page at a click (activeTab, scripting), the panel (sidePanel), settings that every
// context reads (storage), auction ends (alarms, notifications), "look at this listing" on a page (contextMenus).
const PERMISSIONS = ['activeTab', 'storage', 'scripting', 'alarms', 'notifications', 'contextMenus']

export function createManifest(target: Target): ManifestV3Export {
  const shared = {
    manifest_version: 3,
    name: '__MSG_extensionName__',
    description: '__MSG_extensionDescription__',
    version: packageJson.version,
    default_locale: 'en',
    icons: ICONS,
    action: { default_title: '__MSG_actionTitle__', default_icon: ICONS },
    optional_host_permissions: ['http://*/*', 'https://*/*'],
    options_ui: { page: 'desk/index.html', open_in_tab: true },
    content_security_policy: {
      // Pictures come from bytes that we hold: no address of a page is ever loaded by being shown.
      extension_pages:
        "script-src 'self' 'wasm-unsafe-eval'; object-src 'none'; img-src 'self' blob: data:; base-uri 'none'; form-action 'none'",
    },
    commands: {
      _execute_action: {
        suggested_key: { default: 'Alt+Shift+T' },
        description: '__MSG_commandInspect__',
      },
    },
  }
  const manifest =
    target === 'chromium'
      ? {
          ...shared,
          permissions: [...PERMISSIONS, 'sidePanel'],
          minimum_chrome_version: '120',
          background: { service_worker: 'background/background.ts', type: 'module' },
          side_panel: { default_path: 'panel/index.html' },
        }
      : {
          ...shared,
          permissions: PERMISSIONS,
          background: { scripts: ['background/background.ts'], type: 'module' },
          sidebar_action: {
            default_panel: 'panel/index.html',
            default_title: '__MSG_extensionName__',
            default_icon: ICONS,
            open_at_install: false,
          },
          browser_specific_settings: {
            gecko: {
              id: FIREFOX_ID,
              // The first version that knows `data_collection_permissions` on the desktop; Android has no sidebar.
              strict_min_version: '140.0',
              data_collection_permissions: { required: ['none'] },
            },
          },
        }
  return manifest as ManifestV3Export
}
