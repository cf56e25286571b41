/** The exemplars: a list that teaches while it is empty, and the one that is opened. */
import { useState } from 'preact/hooks'
import type { ExemplarRecord } from '../../domain/examination.ts'
import { BlobImage } from '../desk/BlobImage.tsx'
import { CardSizeChoice } from '../desk/CardSizeChoice.tsx'
import { useDesk } from '../desk/desk-context.ts'
import { Ready } from '../desk/Ready.tsx'
import { useLoaded } from '../desk/use-loaded.ts'
import { FilePick } from '../parts/FilePick.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { ExemplarEditor } from './ExemplarEditor.tsx'
import { addPicture, createDraft } from './edit-exemplar.ts'
import { PictureDrop } from './PictureDrop.tsx'

export function Exemplars({ openId }: { openId: string | null }) {
  const { ports } = useDesk()
  const { t } = useWording()
  const loaded = useLoaded(async () => (openId === null ? null : ports.openExemplar(openId)), [ports, openId])
  if (openId === null) return <ExemplarList />
  return (
    <Ready loaded={loaded}>
      {(record) =>
        record === null || record.deletedAt !== null ? (
          <>
            <a class="link" href="#exemplars">
              {t('exemplar.back')}
            </a>
            <p>{t('exemplar.gone')}</p>
          </>
        ) : record.id === openId ? (
          <ExemplarEditor key={record.id} record={record} />
        ) : null
      }
    </Ready>
  )
}

function ExemplarList() {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const loaded = useLoaded(() => ports.listExemplars(), [ports, version.value])
  const settings = useLoaded(ports.readSettings, [ports])

  const open = (id: string) => model.go({ section: 'exemplars', id })
  const bring = (file: File) => {
    let said = ''
    actions.run(
      'import-exemplar',
      async () => {
        const { added, merged, ids } = await ports.importExemplars([file])
        said = t('exemplars.imported', { added, merged })
        model.refresh()
        if (ids.length === 1) open(ids[0]!)
      },
      () => said,
    )
  }

  return (
    <>
      <h1>{t('desk.exemplars')}</h1>
      <p class="lead">{t('exemplars.explained')}</p>
      <Ready loaded={settings}>
        {({ comparison }) => (
          <NewExemplar
            first={comparison}
            onPictures={(pictures, title, sizeId, size) =>
              actions.run('new-exemplar', async () => {
                let draft = createDraft(title, size, crypto.randomUUID())
                for (const picture of pictures)
                  draft = addPicture(draft, picture.name, await ports.keepPicture(picture))
                const record = await ports.createExemplar(draft)
                await ports.changeSettings({ comparison: { ...comparison, sizeId, nominalSize: size } })
                model.refresh()
                open(record.id)
              })
            }
          />
        )}
      </Ready>
      <Ready loaded={loaded}>
        {(exemplars) =>
          exemplars.length === 0 ? (
            <div class="teaching">
              <p class="teaching-lead">{t('exemplars.empty')}</p>
              <ol class="steps">
                <li>{t('exemplars.empty.step-1')}</li>
                <li>{t('exemplars.empty.step-2')}</li>
                <li>{t('exemplars.empty.step-3')}</li>
              </ol>
              <p class="quiet">{t('exemplars.empty.where')}</p>
            </div>
          ) : (
            <ul class="exemplar-list">
              {exemplars.map((record) => (
                <li key={record.id}>
                  <ExemplarCard record={record} />
                </li>
              ))}
            </ul>
          )
        }
      </Ready>
      <div class="share-list">
        <FilePick label={t('exemplars.import')} accept=".zip,application/zip" onFile={bring} />
      </div>
    </>
  )
}

function ExemplarCard({ record: { id, exemplar, stored } }: { record: ExemplarRecord }) {
  const { t, number } = useWording()
  const first = exemplar.pictures[0]
  const mm = (value: number) => number(value, { minimumFractionDigits: 1 })
  return (
    <a class="exemplar-card" href={`#exemplars/${encodeURIComponent(id)}`}>
      <span class="exemplar-thumb">
        {first === undefined ? null : <BlobImage sha256={stored[first.file]?.sha256 ?? null} alt="" />}
      </span>
      <span class="exemplar-words">
        <span class="exemplar-title">{exemplar.title || t('exemplar.untitled')}</span>
        <span class="quiet">
          {t('exemplar.points', { count: exemplar.points.length })} ·{' '}
          {t('exemplar.pictures', { count: exemplar.pictures.length })} ·{' '}
          {t('size.millimetres', {
            width: mm(exemplar.nominalSize.widthMm),
            height: mm(exemplar.nominalSize.heightMm),
          })}
        </span>
        {exemplar.provenance !== '' && <span class="exemplar-provenance">{exemplar.provenance}</span>}
      </span>
    </a>
  )
}

interface NewExemplarProps {
  readonly first: {
    readonly sizeId: string
    readonly nominalSize: { readonly widthMm: number; readonly heightMm: number }
  }
  readonly onPictures: (
    pictures: readonly File[],
    title: string,
    sizeId: string,
    size: NewExemplarProps['first']['nominalSize'],
  ) => void
}

function NewExemplar({ first, onPictures }: NewExemplarProps) {
  const { t } = useWording()
  const { actions } = useDesk()
  const [sizeId, setSizeId] = useState(first.sizeId)
  const [size, setSize] = useState<NewExemplarProps['first']['nominalSize'] | null>(first.nominalSize)
  const busy = actions.busy.value.has('new-exemplar')
  return (
    <section class="sheet new-exemplar">
      <h2>
        <Icon name="add" /> {t('exemplars.new')}
      </h2>
      <div class="form-row">
        <CardSizeChoice
          sizeId={sizeId}
          size={size}
          onChange={(id, next) => {
            setSizeId(id)
            setSize(next)
          }}
        />
      </div>
      {size !== null && (
        <PictureDrop
          large
          label={busy ? t('exemplars.taking') : t('exemplars.choose')}
          onPictures={(pictures) => {
            const title = pictures[0]!.name.replace(/\.\w+$/, '').replace(/[-_]+/g, ' ')
            onPictures(pictures, title, sizeId, size)
          }}
        />
      )}
    </section>
  )
}
