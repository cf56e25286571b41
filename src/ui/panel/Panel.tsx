/** The panel beside a page: one state in, the whole screen out. Asks its ports and decides nothing about the listing. */
import type { ReadonlySignal } from '@preact/signals'
import { useEffect, useRef } from 'preact/hooks'
import type { ViewId } from '../../domain/views.ts'
import { Cautions } from '../inspection/Cautions.tsx'
import { Concerns } from '../inspection/Concerns.tsx'
import { Offered } from '../inspection/Offered.tsx'
import { PriceComparison } from '../inspection/PriceComparison.tsx'
import { StanceSlab } from '../inspection/StanceSlab.tsx'
import { Views } from '../inspection/Views.tsx'
import { Brand } from '../parts/Brand.tsx'
import { NoticeBar } from '../parts/NoticeBar.tsx'
import { Icon, StanceShape } from '../parts/shapes.tsx'
import { useKeptFocus } from '../parts/use-kept-focus.ts'
import { WantLine } from '../wants/WantLine.tsx'
import { useWording, type Wording, WordingContext } from '../wording.ts'
import { Keep } from './Keep.tsx'
import { Message } from './Message.tsx'
import { Notices } from './Notices.tsx'
import { FailedPhase, ForbiddenPhase, NonePhase, ReadingPhase } from './Phases.tsx'
import { PhotoGroups } from './PhotoGroups.tsx'
import type { PanelModel } from './panel-model.ts'
import type { ListingState } from './panel-state.ts'
import { ReadRecord, RecordPhase } from './RecordPhase.tsx'
import { ResultsRows } from './ResultsRows.tsx'
import { OftenCopied, UnknownGrader } from './Teach.tsx'

/** "In 2 hours" is never off by more than this. */
const CLOCK_MS = 30_000

interface PanelProps {
  readonly model: PanelModel
  readonly wording: ReadonlySignal<Wording>
}

export function Panel({ model, wording }: PanelProps) {
  useEffect(() => {
    const timer = setInterval(() => (model.now.value = model.ports.now()), CLOCK_MS)
    return () => clearInterval(timer)
  }, [model])
  return (
    <WordingContext.Provider value={wording.value}>
      <PanelScreen model={model} />
    </WordingContext.Provider>
  )
}

function PanelScreen({ model }: { model: PanelModel }) {
  const { t } = useWording()
  const state = model.state.value
  const { actions, ports } = model
  const main = useRef<HTMLElement>(null)
  useKeptFocus(main)
  return (
    <div class="panel">
      <header class="panel-head">
        <Brand as="h1" />
        <button
          type="button"
          class="icon-button"
          aria-label={t('action.read-again')}
          title={t('action.read-again')}
          onClick={() => actions.run('rescan', ports.rescan)}
        >
          <Icon name="again" />
        </button>
        <button type="button" class="button small" onClick={() => actions.run('desk', () => ports.openDesk(''))}>
          <Icon name="desk" />
          {t('action.desk')}
        </button>
      </header>
      <main ref={main} class="panel-main" tabIndex={-1} aria-busy={state.phase === 'reading'}>
        {state.phase === 'reading' && <ReadingPhase host={state.host} />}
        {state.phase === 'none' && state.remembered && <ReadRecord model={model} title={state.remembered} />}
        {state.phase === 'none' && <NonePhase model={model} />}
        {state.phase === 'record' && <RecordPhase model={model} state={state} />}
        {state.phase === 'forbidden' && <ForbiddenPhase />}
        {state.phase === 'failed' && <FailedPhase model={model} fault={state.fault} />}
        {state.phase === 'results' && <ResultsRows model={model} rows={state.rows} partlyRead={state.partlyRead} />}
        {state.phase === 'listing' && <ListingScreen model={model} state={state} />}
        <Cautions />
      </main>
      <NoticeBar actions={actions} />
      {state.phase === 'listing' && <Foot model={model} state={state} />}
    </div>
  )
}

function ListingScreen({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t } = useWording()
  const { actions, ports } = model
  const { inspection, pageLanguage: lang } = state
  const { listing, claim } = inspection
  const grader = state.graders.find(({ name, abbreviations }) => [name, ...abbreviations].includes(claim.grader ?? ''))
  const canLookUp = grader?.lookUp !== undefined && claim.certificate !== null && !claim.certificateHidden

  const go = (place: { where: string | null; quote: string | null }) => {
    let found = true
    actions.run(
      'go',
      async () => {
        found = await ports.scrollTo(place)
      },
      () => (found ? null : t('evidence.gone')),
    )
  }

  const assign = (url: string, view: ViewId | 'other' | null) => {
    const before = state.photos.find((photo) => photo.url === url)?.assigned ?? null
    actions.run('assign', async () => {
      await ports.assignView(url, view)
      actions.say(t('views.assigned'), () => actions.run('assign', () => ports.assignView(url, before)))
    })
  }
  const onAssign = state.photos.some(({ thumbnail }) => thumbnail !== null) ? assign : undefined

  return (
    <>
      <Offered
        inspection={inspection}
        now={model.now.value}
        lang={lang}
        onGo={go}
        onLookUp={
          canLookUp ? () => actions.run('look-up', () => ports.lookUp(claim.grader!, claim.certificate!)) : null
        }
      />
      <Notices model={model} state={state} />
      <StanceSlab inspection={inspection} />
      {state.unknownGrader !== null && (
        <UnknownGrader key={state.unknownGrader} model={model} token={state.unknownGrader} />
      )}
      <Concerns
        concerns={inspection.concerns}
        weighing={inspection.weighing}
        views={inspection.views}
        lang={lang}
        focusedRule={model.focusedRule.value}
        onShow={({ quote, field }) => go({ where: listing.provenance[field ?? '']?.where ?? null, quote })}
        onSettle={(rule, reason) => {
          actions.run('settle', async () => {
            await ports.settle(rule, reason)
            actions.say(t('concern.settled'), () => actions.run('unsettle', () => ports.unsettle(rule)))
          })
        }}
        onUnsettle={(rule) => actions.run('unsettle', () => ports.unsettle(rule), t('concern.reopened'))}
      />
      <Views views={inspection.views} photos={state.photos} requested={inspection.request.views} onAssign={onAssign} />
      <PhotoGroups model={model} state={state} onAssign={onAssign} />
      <Message model={model} state={state} />
      <WantLine want={state.want ?? null} />
      <PriceComparison
        valuation={inspection.valuation}
        onAddSales={() => actions.run('desk', () => ports.openDesk('sales'))}
        costs={state.costs}
        now={model.now.value}
        onOpenValue={() =>
          actions.run('desk', () => ports.openDesk(`value/${encodeURIComponent(listing.title ?? '')}`))
        }
      />
      <OftenCopied model={model} state={state} />
      <Keep model={model} state={state} />
    </>
  )
}

/** Always in sight: the stance in a word, and the two things a buyer does most. */
function Foot({ model, state }: { model: PanelModel; state: ListingState }) {
  const { t } = useWording()
  const { actions, ports } = model
  const { inspection, kept } = state
  const open = inspection.concerns.filter(({ settledBy }) => settledBy === null).length
  const text = model.editedMessage.value ?? inspection.request.text
  return (
    <footer class="panel-foot">
      <p class="foot-stance">
        <StanceShape stance={inspection.stance} />
        <strong>{t(`stance.${inspection.stance}.short`)}</strong>
        {open > 0 && <span class="foot-count">{t('concerns.open', { count: open })}</span>}
      </p>
      {text !== '' && (
        <button
          type="button"
          class="icon-button on-stone"
          aria-label={t('message.copy-message')}
          title={t('message.copy-message')}
          onClick={() => actions.run('copy', () => ports.copyText(text), t('message.copied'))}
        >
          <Icon name="copy" />
        </button>
      )}
      <button
        type="button"
        class="button on-stone"
        disabled={actions.busy.value.has('save') || (kept !== null && !kept.differs)}
        onClick={() => actions.run('save', () => ports.save(model.draftNotes.value), t('keep.done'))}
      >
        <Icon name={kept === null ? 'keep' : 'kept'} />
        {t(kept === null ? 'keep.short' : kept.differs ? 'keep.short-again' : 'keep.short-kept')}
      </button>
    </footer>
  )
}
