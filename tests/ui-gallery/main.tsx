/** Draws one state: `?state=NAME&lang=en|de&theme=light|dark`. Used by `shoot.ts` for pictures and for axe-core. */
import { signal } from '@preact/signals'
import { render } from 'preact'
import { UI_CATALOGUES } from '../../src/ui/catalogues.ts'
import '../../src/ui/style/index.css'
import { createWording } from '../../src/ui/wording.ts'
import { drawState } from './states.tsx'

const wanted = new URLSearchParams(location.search)
const language = wanted.get('lang') === 'de' ? 'de' : 'en'
document.documentElement.lang = language
document.documentElement.dataset.theme = wanted.get('theme') ?? 'light'
const wording = signal(createWording(language, UI_CATALOGUES[language], 'Europe/Berlin'))
render(drawState(wanted.get('state') ?? 'listing', wording), document.querySelector('#app')!)
