/** One of the buyer's lists out as a file and in again: for a second browser, or for somebody who is to learn from it. */
import { FilePick } from '../parts/FilePick.tsx'
import { useWording } from '../wording.ts'
import { useDesk } from './desk-context.ts'
import type { ShareKind } from './desk-ports.ts'

export function ShareList({ kind, count }: { kind: ShareKind; count: number }) {
  const { t } = useWording()
  const model = useDesk()
  return (
    <div class="share-list">
      <button
        type="button"
        class="button"
        disabled={count === 0}
        onClick={() => model.actions.run(`share-${kind}`, () => model.ports.exportList(kind), t('share.exported'))}
      >
        {t('share.export')}
      </button>
      <FilePick
        label={t('share.import')}
        accept="application/json,.json"
        onFile={(file) => {
          let outcome = ''
          model.actions.run(
            `take-${kind}`,
            async () => {
              const { added, known } = await model.ports.importList(kind, file)
              outcome = t('share.imported', { added, known })
              model.refresh()
            },
            () => outcome,
          )
        }}
      />
    </div>
  )
}
