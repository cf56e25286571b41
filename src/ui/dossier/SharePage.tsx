/** A page of this dossier for teaching. Seller and prices stay out unless they are ticked. */
import { useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

export function SharePage({ id }: { id: string }) {
  const { t } = useWording()
  const { ports, actions } = useDesk()
  const [include, setInclude] = useState({ seller: false, prices: false })
  return (
    <details>
      <summary>{t('share.page')}</summary>
      <p class="hint">{t('share.page.hint')}</p>
      {(['seller', 'prices'] as const).map((part) => (
        <label key={part} class="choice">
          <input
            type="checkbox"
            checked={include[part]}
            onChange={(event) => setInclude({ ...include, [part]: event.currentTarget.checked })}
          />
          {t(`share.page.${part}`)}
        </label>
      ))}
      <div class="form-actions">
        <button
          type="button"
          class="button"
          disabled={actions.busy.value.has('share-page')}
          onClick={() => actions.run('share-page', () => ports.life.sharePage(id, include), t('share.page.done'))}
        >
          <Icon name="save" />
          {t('share.page.save')}
        </button>
      </div>
    </details>
  )
}
