/** One dossier's evidence bag: made at a press, with progress and a way out, signed where that is wished. */
import { useEffect, useRef, useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'

export function MakeBag({ id }: { id: string }) {
  const { t } = useWording()
  const { actions, ports } = useDesk()
  const [sign, setSign] = useState(false)
  const [share, setShare] = useState<number | null>(null)
  const running = useRef<AbortController | null>(null)
  useEffect(() => () => running.current?.abort(), [])

  async function make(): Promise<void> {
    const mine = new AbortController()
    running.current = mine
    setShare(0)
    let said = ''
    await actions.run(
      'bag',
      async () => {
        const { files, missing } = await ports.keeping.makeBag(id, { sign, signal: mine.signal, onProgress: setShare })
        const words = [t('keeping.bag.done', { count: files })]
        if (missing > 0) words.push(t('keeping.bag.missing', { count: missing }))
        said = words.join(' ')
      },
      () => said,
    )
    setShare(null)
  }

  return (
    <section class="make-bag">
      <h2>{t('keeping.bag')}</h2>
      <p class="quiet">{t('keeping.bag.explained')}</p>
      {share === null ? (
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
        <div class="photo-progress" role="status">
          <progress max={1} value={share} aria-label={t('keeping.bag.progress')} />
          <button type="button" class="button small" onClick={() => running.current?.abort()}>
            {t('action.cancel')}
          </button>
        </div>
      )}
    </section>
  )
}
