/** One dossier's evidence bag: made at a press, with progress and a way out, signed where that is wished. */
import { useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { ShareDone } from './ShareDone.tsx'
import { useProgress } from './use-progress.ts'

export function MakeBag({ id }: { id: string }) {
  const { t } = useWording()
  const { ports } = useDesk()
  const [sign, setSign] = useState(false)
  const work = useProgress()
  const make = () =>
    work.run('bag', async (progress) => {
      const { files, missing } = await ports.keeping.makeBag(id, { ...progress, sign })
      const words = [t('keeping.bag.done', { count: files })]
      if (missing > 0) words.push(t('keeping.bag.missing', { count: missing }))
      return words.join(' ')
    })
  return (
    <section class="make-bag">
      <h2>{t('keeping.bag')}</h2>
      <p class="quiet">{t('keeping.bag.explained')}</p>
      {work.share === null ? (
        <div class="form-actions">
          <button type="button" class="button" onClick={() => void make()}>
            <Icon name="save" />
            {t('keeping.bag.make')}
          </button>
          <label class="make-bag-sign">
            <input type="checkbox" checked={sign} onChange={(event) => setSign(event.currentTarget.checked)} />
            {t('keeping.bag.sign')}
          </label>
        </div>
      ) : (
        <ShareDone work={work} label={t('keeping.bag.progress')} />
      )}
    </section>
  )
}
