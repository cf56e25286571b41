/** A photo that is, or may be, in another dossier: both pictures side by side, when and whose, and how sure it is. Accuses nobody. */
import { useWording } from '../wording.ts'
import type { PanelModel } from './panel-model.ts'
import type { PanelPhoto, SeenElsewhere } from './panel-state.ts'

export function PhotoSeen({ model, photos }: { model: PanelModel; photos: readonly PanelPhoto[] }) {
  const { t } = useWording()
  const pairs = photos.flatMap((photo, index) => (photo.seen ?? []).map((seen) => ({ photo, number: index + 1, seen })))
  if (pairs.length === 0) return null
  return (
    <section class="photo-seen" aria-labelledby="seen-heading">
      <h3 id="seen-heading">{t('seen.heading', { count: pairs.length })}</h3>
      <p class="hint">{t('seen.hint')}</p>
      <ul>
        {pairs.map(({ photo, number, seen }) => (
          <SeenPair key={`${photo.url} ${seen.dossier} ${seen.sha256}`} {...{ model, photo, number, seen }} />
        ))}
      </ul>
    </section>
  )
}

interface SeenPairProps {
  readonly model: PanelModel
  readonly photo: PanelPhoto
  readonly number: number
  readonly seen: SeenElsewhere
}

function SeenPair({ model, photo, number, seen }: SeenPairProps) {
  const { t, date } = useWording()
  const { actions, ports } = model
  return (
    <li>
      <p class="seen-words">
        <span class={`seen-shape is-${seen.sameness}`} aria-hidden="true" />
        <strong>{t(`seen.${seen.sameness}`)}</strong>
      </p>
      <div class="seen-pictures">
        <figure>
          {photo.thumbnail !== null && <img src={photo.thumbnail} alt="" />}
          <figcaption>{t('seen.here', { number })}</figcaption>
        </figure>
        <figure>
          {seen.picture === null ? (
            <span class="photo-unseen">{t('picture.not-kept')}</span>
          ) : (
            <img src={seen.picture} alt="" />
          )}
          <figcaption>
            <button
              type="button"
              class="link-button"
              onClick={() => actions.run('desk', () => ports.openDesk(`dossiers/${seen.dossier}`))}
            >
              {seen.title}
            </button>
            <span>{t('seen.there', { seller: seen.seller ?? t('seen.no-seller'), date: date(seen.at) })}</span>
          </figcaption>
        </figure>
      </div>
    </li>
  )
}
