/** Draws one state: `?state=NAME&lang=en|de&theme=light|dark`. Used by `shoot.ts` for pictures and for axe-core. */
import { signal } from '@preact/signals'
import { render } from 'preact'
import de from '../../assets/_locales/de/ui.json'
import en from '../../assets/_locales/en/ui.json'
import '../../src/ui/style/index.css'
import { createWording } from '../../src/ui/wording.ts'
import { drawState } from './states.tsx'

const wanted = new URLSearchParams(location.search)
const language = wanted.get('lang') === 'de' ? 'de' : 'en'
document.documentElement.lang = language
document.documentElement.dataset.theme = wanted.get('theme') ?? 'light'
const wording = signal(createWording(language, { ...en, ...(language === 'de' ? de : {}) }, 'Europe/Berlin'))
render(drawState(wanted.get('state') ?? 'listing', wording), document.querySelector('#app')!)
