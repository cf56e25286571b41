/** How much room is taken, by what, and the way to let go of what deleted dossiers still hold. */
import { useDesk } from '../desk/desk-context.ts'
import { Ready } from '../desk/Ready.tsx'
import { useLoaded } from '../desk/use-loaded.ts'
import { useWording } from '../wording.ts'
import { ShareDone } from './ShareDone.tsx'
import { useProgress } from './use-progress.ts'

export function Room() {
  const { t, number } = useWording()
  const { ports, refresh, version } = useDesk()
  const work = useProgress()
  const loaded = useLoaded(() => ports.keeping.measureStorage(), [ports, version.value])
  const megabytes = (bytes: number) => t('keeping.room.megabytes', { size: number(Math.ceil(bytes / 1e6)) })
  const free = () =>
    work.run('free-room', async (progress) => {
      const { dossiers, bytes } = await ports.keeping.freeDeleted(progress)
      refresh()
      return dossiers === 0
        ? t('keeping.room.nothing-to-free')
        : t('keeping.room.freed', { count: dossiers, size: megabytes(bytes) })
    })
  return (
    <section class="sheet">
      <h2>{t('keeping.room')}</h2>
      <Ready loaded={loaded}>
        {({ used, quota, largest }) => (
          <>
            {used !== null && quota !== null && (
              <p>
                <meter min={0} max={quota} value={used} aria-label={t('keeping.room')} />{' '}
                {t('keeping.room.used', { used: megabytes(used), quota: megabytes(quota) })}
              </p>
            )}
            {largest.length > 0 && (
              <>
                <h3>{t('keeping.room.largest')}</h3>
                <ul class="room-list">
                  {largest.map(({ id, title, bytes }) => (
                    <li key={id}>
                      <a class="link" href={`#dossiers/${encodeURIComponent(id)}`}>
                        <bdi>{title}</bdi>
                      </a>
                      <span>{megabytes(bytes)}</span>
                    </li>
                  ))}
                </ul>
              </>
            )}
          </>
        )}
      </Ready>
      <p class="quiet">{t('keeping.room.deleted')}</p>
      {work.share === null ? (
        <button type="button" class="button" onClick={() => void free()}>
          {t('keeping.room.free')}
        </button>
      ) : (
        <ShareDone work={work} label={t('keeping.room.free')} />
      )}
    </section>
  )
}
