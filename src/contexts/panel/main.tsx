/** The panel beside a page: opens the stores, starts the session, draws. Wiring only. */
import { render } from 'preact'
import { browserReceiver } from '../../platform/message-wire.ts'
import { handle } from '../../platform/messaging.ts'
import { findActiveTab, findOwnWindow, onTabActivated, onTabLoaded } from '../../platform/tabs.ts'
import { watchRecords } from '../../storage/changes.ts'
import { Panel } from '../../ui/panel/Panel.tsx'
import { createPanelModel } from '../../ui/panel/panel-model.ts'
import '../../ui/style/index.css'
import { BACKGROUND_TO_PANEL, PAGE_TO_PANEL } from '../channels.ts'
import { dressWindow } from '../dress-window.ts'
import { loadPacks } from '../rule-packs.ts'
import { showStartFault } from '../show-start-fault.ts'
import { openStores } from '../stores.ts'
import { createPanelPorts } from './panel-ports.ts'
import { createPanelSession } from './panel-session.ts'

async function start(): Promise<void> {
  const windowId = await findOwnWindow()
  const asked = Number(new URL(location.href).searchParams.get('tab'))
  const tabId = Number.isInteger(asked) && asked > 0 ? asked : null
  const stores = await openStores()
  const dress = await dressWindow(stores)
  let packs = await loadPacks(dress.texts(), stores)

  const session = createPanelSession({
    stores,
    windowId,
    tabId,
    texts: dress.texts,
    packs: () => packs,
    show: (state) => model.show(state),
  })
  const model = createPanelModel(createPanelPorts({ session, stores, windowId, texts: dress.texts }))

  render(<Panel model={model} wording={dress.wording} />, document.querySelector('#app')!)

  const life = new AbortController()
  onTabActivated((_tab, inWindow) => {
    if (tabId === null && inWindow === windowId) void session.look()
  })
  onTabLoaded(async (tab) => {
    const inFront = tabId ?? (await findActiveTab(windowId))?.tabId
    if (tab === inFront) void session.look()
  })
  handle(
    BACKGROUND_TO_PANEL,
    {
      pageGranted: async (granted) => {
        if (granted.windowId === windowId) void session.look()
        return null
      },
    },
    browserReceiver(),
    life.signal,
  )
  handle(
    PAGE_TO_PANEL,
    {
      pageChanged: async (_params, sender) => {
        if (sender.tab?.id === session.page?.tabId) void session.look()
        return null
      },
      isWatched: async (_params, sender) => ({ watched: sender.tab?.id === session.page?.tabId }),
      markClicked: async (_params, sender) => {
        if (sender.tab?.id !== session.page?.tabId) return null
        const open = session.front?.inspection.concerns.find(({ settledBy }) => settledBy === null)
        if (open) model.focusConcern(open.rule)
        return null
      },
    },
    browserReceiver(),
    life.signal,
  )
  watchRecords(async ({ store }) => {
    if ((await dress.refresh()) || store === 'rulePacks') packs = await loadPacks(dress.texts(), stores)
    await session.judgeAgain()
  }, life.signal)
  addEventListener('pagehide', () => {
    life.abort()
    void session.end()
  })

  await session.look()
}

start().catch(showStartFault)
