/** The first start: four questions, answered or skipped, remembered either way. Wiring only. */
import { render } from 'preact'
import { now } from '../../platform/clock.ts'
import { openOwnPage } from '../../platform/tabs.ts'
import { Setup } from '../../ui/setup/Setup.tsx'
import type { SetupPorts } from '../../ui/setup/setup-ports.ts'
import '../../ui/style/index.css'
import { dressWindow } from '../dress-window.ts'
import { showStartFault } from '../show-start-fault.ts'
import { openStores } from '../stores.ts'

async function start(): Promise<void> {
  const stores = await openStores()
  const settings = await stores.readSettings()
  const dress = await dressWindow(stores)
  const ports: SetupPorts = {
    async finish(answers) {
      for (const grader of answers.graders) await stores.graders.add(grader)
      await stores.changeSettings({ ...answers.settings, setUpAt: now() })
    },
    skip: async () => void (await stores.changeSettings({ setUpAt: now() })),
    openDesk: () => openOwnPage('desk/index.html'),
    setInterfaceLanguage: dress.speak,
  }
  render(<Setup ports={ports} wording={dress.wording} settings={settings} />, document.querySelector('#app')!)
}

start().catch(showStartFault)
