/** The desk, a page of its own: opens the stores, draws, reloads when another window wrote. Wiring only. */
import { render } from 'preact'
import { watchRecords } from '../../storage/changes.ts'
import { refreshSummaries } from '../../storage/refresh-summaries.ts'
import { Desk } from '../../ui/desk/Desk.tsx'
import { createDeskModel } from '../../ui/desk/desk-model.ts'
import '../../ui/style/index.css'
import { dressWindow } from '../dress-window.ts'
import { showStartFault } from '../show-start-fault.ts'
import { openStores } from '../stores.ts'
import { createDeskPorts } from './desk-ports.ts'

async function start(): Promise<void> {
  const stores = await openStores()
  const dress = await dressWindow(stores)
  const ports = createDeskPorts(stores, dress.texts)
  const model = createDeskModel(
    {
      ...ports,
      async changeSettings(change) {
        const settings = await ports.changeSettings(change)
        await dress.refresh()
        return settings
      },
    },
    location.hash,
  )
  render(<Desk model={model} wording={dress.wording} />, document.querySelector('#app')!)

  const life = new AbortController()
  // Behind the first list, in small steps; what is closed in the midst of it goes on there next time.
  refreshSummaries(stores.database, { signal: life.signal })
    .then((made) => made > 0 && model.refresh())
    .catch(() => {})
  watchRecords(() => void dress.refresh().then(model.refresh), life.signal)
  addEventListener('pagehide', () => life.abort())
}

start().catch(showStartFault)
