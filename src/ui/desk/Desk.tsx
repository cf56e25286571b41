/** The desk: a rail of places and the one that is open. Follows the address, so that back, forward and links work. */
import type { ReadonlySignal } from '@preact/signals'
import { useEffect, useRef } from 'preact/hooks'
import { Exemplars } from '../exemplars/Exemplars.tsx'
import { LightTable } from '../light-table/LightTable.tsx'
import { Brand } from '../parts/Brand.tsx'
import { NoticeBar } from '../parts/NoticeBar.tsx'
import { Icon, type IconName } from '../parts/shapes.tsx'
import { useKeptFocus } from '../parts/use-kept-focus.ts'
import { useWording, type Wording, WordingContext } from '../wording.ts'
import { Dossiers } from './Dossiers.tsx'
import { DeskContext, useDesk } from './desk-context.ts'
import { type DeskModel, formatPlace, parsePlace, SECTIONS, type Section } from './desk-model.ts'
import { GraderBook } from './GraderBook.tsx'
import { Outcomes } from './Outcomes.tsx'
import { RiskyIssues } from './RiskyIssues.tsx'
import { Rules } from './Rules.tsx'
import { Sales } from './Sales.tsx'
import { SettingsScreen } from './Settings.tsx'
import { ValueCard } from './ValueCard.tsx'
import { Wants } from './Wants.tsx'

const ICONS: Readonly<Record<Section, IconName>> = {
  dossiers: 'dossiers',
  exemplars: 'exemplars',
  'light-table': 'compare',
  sales: 'sales',
  value: 'point',
  wants: 'keep',
  graders: 'graders',
  'risky-issues': 'risky',
  rules: 'rules',
  outcomes: 'outcomes',
  settings: 'settings',
}

export function Desk({ model, wording }: { model: DeskModel; wording: ReadonlySignal<Wording> }) {
  return (
    <WordingContext.Provider value={wording.value}>
      <DeskContext.Provider value={model}>
        <DeskScreen />
      </DeskContext.Provider>
    </WordingContext.Provider>
  )
}

function DeskScreen() {
  const { t } = useWording()
  const model = useDesk()
  const place = model.place.value
  const main = useRef<HTMLElement>(null)
  const shown = useRef(place.section)
  useKeptFocus(main)

  useEffect(() => {
    const follow = () => model.go(parsePlace(location.hash))
    window.addEventListener('hashchange', follow)
    return () => window.removeEventListener('hashchange', follow)
  }, [model])
  useEffect(() => {
    const hash = formatPlace(place)
    if (location.hash !== hash) history.replaceState(null, '', hash)
    // Another place is another page: whoever reads by ear or by keyboard begins at its top.
    if (shown.current !== place.section) main.current?.focus()
    shown.current = place.section
    document.title = `${t(`desk.${place.section}`)} – Touchstone`
  }, [place, t])

  return (
    <div class="desk">
      <header class="rail">
        <Brand />
        <nav aria-label={t('desk.places')}>
          <ul>
            {SECTIONS.map((section) => (
              <li key={section}>
                <a href={`#${section}`} aria-current={section === place.section ? 'page' : undefined}>
                  <Icon name={ICONS[section]} />
                  {t(`desk.${section}`)}
                </a>
              </li>
            ))}
          </ul>
        </nav>
      </header>
      <div class="desk-page">
        <main ref={main} class={`desk-main desk-${place.section}`} tabIndex={-1}>
          {place.section === 'dossiers' && <Dossiers openId={place.id} />}
          {place.section === 'exemplars' && <Exemplars openId={place.id} />}
          {place.section === 'light-table' && <LightTable openId={place.id} />}
          {place.section === 'sales' && <Sales />}
          {place.section === 'value' && <ValueCard key={place.id} words={place.id} />}
          {place.section === 'wants' && <Wants />}
          {place.section === 'graders' && <GraderBook />}
          {place.section === 'risky-issues' && <RiskyIssues />}
          {place.section === 'rules' && <Rules />}
          {place.section === 'outcomes' && <Outcomes />}
          {place.section === 'settings' && <SettingsScreen />}
        </main>
        <NoticeBar actions={model.actions} />
      </div>
    </div>
  )
}
