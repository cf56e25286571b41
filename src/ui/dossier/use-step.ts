/** One more step in an opened dossier, said when done and taken back at a click. Taking back is a step of its own. */
import type { Dossier, LifeStep } from '../../domain/dossier.ts'
import { useDesk } from '../desk/desk-context.ts'
import { useWording } from '../wording.ts'

export interface Steps {
  /** Resolves `true` when it is written. */
  add(step: LifeStep, said: string): Promise<boolean>
  takeBack(entry: string): Promise<boolean>
  readonly busy: boolean
}

export function useSteps(dossier: Pick<Dossier, 'id'>): Steps {
  const { t } = useWording()
  const { actions, ports, refresh } = useDesk()

  const takeBack = (entry: string) =>
    actions.run(
      'step',
      async () => {
        await ports.life.addStep(dossier.id, { event: 'undone', detail: '', entry })
        refresh()
      },
      t('life.taken-back'),
    )

  return {
    busy: actions.busy.value.has('step'),
    takeBack,
    add: (step, said) =>
      actions.run('step', async () => {
        const { log } = await ports.life.addStep(dossier.id, step)
        const entry = log.at(-1)?.id
        refresh()
        actions.say(said, entry === undefined ? undefined : () => void takeBack(entry))
      }),
  }
}
