/** A dossier that begins without a page: a pasted message, photos from a phone, a card on a show's table. */
import { useState } from 'preact/hooks'
import { useDesk } from '../desk/desk-context.ts'
import { useLoaded } from '../desk/use-loaded.ts'
import { CurrencyField } from '../parts/CurrencyField.tsx'
import { TextField } from '../parts/fields.tsx'
import { parseAmount } from '../parts/parse-fields.ts'
import { useWording } from '../wording.ts'
import type { ReplyPhoto } from './dossier-ports.ts'
import { PhotoPick } from './PhotoPick.tsx'
import { PhotoProgress } from './PhotoProgress.tsx'
import { useCancellable } from './use-cancellable.ts'

export function NewDossier({ onDone }: { onDone: () => void }) {
  const { t } = useWording()
  const { ports, refresh, go } = useDesk()
  const work = useCancellable()
  const settings = useLoaded(() => ports.readSettings(), [ports])
  const [title, setTitle] = useState('')
  const [words, setWords] = useState('')
  const [seller, setSeller] = useState('')
  const [amount, setAmount] = useState('')
  const [chosen, setChosen] = useState<string | null>(null)
  const [photos, setPhotos] = useState<readonly ReplyPhoto[]>([])
  const currency = chosen ?? (settings.phase === 'ready' ? settings.value.currency : 'EUR')
  const parsed = amount.trim() === '' ? null : parseAmount(amount)
  const badAmount = amount.trim() !== '' && parsed === null
  const nothing = title.trim() === '' && words.trim() === '' && photos.length === 0

  async function begin() {
    let id = ''
    const price = parsed === null ? null : { amount: parsed, currency }
    const done = await work.run(
      'begin',
      async (progress) => {
        id = await ports.life.beginDossier(
          { title: title.trim() || (words.trim() === '' ? t('loose.untitled') : ''), words, seller, price, photos },
          progress,
        )
      },
      t('loose.done'),
    )
    if (!done) return
    refresh()
    onDone()
    go({ section: 'dossiers', id })
  }

  return (
    <form
      class="form new-dossier"
      aria-label={t('loose.heading')}
      onSubmit={(event) => {
        event.preventDefault()
        void begin()
      }}
    >
      <h2>{t('loose.heading')}</h2>
      <p class="hint">{t('loose.hint')}</p>
      <TextField label={t('loose.words')} value={words} onChange={setWords} lines={5} />
      <TextField label={t('loose.title')} hint={t('loose.title.hint')} value={title} onChange={setTitle} />
      <div class="form-row">
        <TextField label={t('field.seller')} value={seller} onChange={setSeller} />
        <TextField
          label={t('field.price')}
          inputMode="decimal"
          value={amount}
          onChange={setAmount}
          fault={badAmount ? t('fault.amount') : null}
        />
        <CurrencyField value={currency} onChange={setChosen} />
      </div>
      <PhotoPick label={t('reply.photos')} photos={photos} onChange={setPhotos} />
      <PhotoProgress work={work} />
      <div class="form-actions">
        <button type="submit" class="button primary" disabled={nothing || badAmount || work.progress !== null}>
          {t('loose.begin')}
        </button>
        <button type="button" class="button" onClick={onDone} disabled={work.progress !== null}>
          {t('action.cancel')}
        </button>
      </div>
    </form>
  )
}
