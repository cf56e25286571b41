/** The light table: examinations so far, the way to a new one, and the one that is opened. */
import { useState } from 'preact/hooks'
import type { ExaminationRecord, ExemplarRecord, QuestionedPicture } from '../../domain/examination.ts'
import { concludePoint } from '../../domain/examination.ts'
import { VERDICTS } from '../../domain/exemplar.ts'
import { freeName } from '../../domain/merge-exemplars.ts'
import { BlobImage } from '../desk/BlobImage.tsx'
import { useDesk } from '../desk/desk-context.ts'
import { Ready } from '../desk/Ready.tsx'
import { useLoaded } from '../desk/use-loaded.ts'
import { PictureDrop } from '../exemplars/PictureDrop.tsx'
import { FilePick } from '../parts/FilePick.tsx'
import { SelectField } from '../parts/fields.tsx'
import { Icon, VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { ExaminationView } from './ExaminationView.tsx'

/** Places of the desk: `new`, `new:EXEMPLAR`, `dossier:DOSSIER`, or an examination's id. */
export function LightTable({ openId }: { openId: string | null }) {
  const [head, rest] = splitPlace(openId)
  if (openId !== null && head === null) return <Opened key={openId} id={openId} />
  return <Start exemplarId={head === 'new' ? rest : ''} dossierId={head === 'dossier' ? rest : ''} />
}

function splitPlace(id: string | null): readonly ['new' | 'dossier' | null, string] {
  if (id === 'new') return ['new', '']
  if (id?.startsWith('new:')) return ['new', id.slice(4)]
  if (id?.startsWith('dossier:')) return ['dossier', id.slice(8)]
  return [null, '']
}

function Opened({ id }: { id: string }) {
  const { t } = useWording()
  const { ports } = useDesk()
  const loaded = useLoaded(async () => {
    const examination = await ports.openExamination(id)
    const exemplar = examination === null ? null : await ports.openExemplar(examination.exemplar)
    return { examination, exemplar }
  }, [ports, id])
  return (
    <Ready loaded={loaded}>
      {({ examination, exemplar }) =>
        examination === null || exemplar === null || examination.deletedAt !== null ? (
          <>
            <a class="link" href="#light-table">
              {t('table.back')}
            </a>
            <p>{t(examination === null ? 'table.gone' : 'table.exemplar-gone')}</p>
          </>
        ) : (
          <ExaminationView record={examination} exemplar={exemplar} />
        )
      }
    </Ready>
  )
}

function Start({ exemplarId, dossierId }: { exemplarId: string; dossierId: string }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports, version } = model
  const exemplars = useLoaded(() => ports.listExemplars(), [ports, version.value])
  const examinations = useLoaded(() => ports.listExaminations(), [ports, version.value])

  const readBlind = (file: File) => {
    let said = ''
    actions.run(
      'read-blind',
      async () => {
        const { kind, examination } = await ports.readBlindFile(file)
        said = t(`blind.read.${kind}`)
        model.refresh()
        model.go({ section: 'light-table', id: examination })
      },
      () => said,
    )
  }

  return (
    <>
      <h1>{t('desk.light-table')}</h1>
      <p class="lead">{t('table.explained')}</p>
      <Ready loaded={exemplars}>
        {(list) =>
          list.length === 0 ? (
            <div class="teaching">
              <p class="teaching-lead">{t('table.empty')}</p>
              <ol class="steps">
                <li>{t('table.empty.step-1')}</li>
                <li>{t('table.empty.step-2')}</li>
                <li>{t('table.empty.step-3')}</li>
              </ol>
              <p>
                <a class="button primary" href="#exemplars">
                  {t('table.empty.go')}
                </a>
              </p>
            </div>
          ) : (
            <NewExamination
              key={exemplarId + dossierId}
              exemplars={list}
              exemplarId={exemplarId}
              dossierId={dossierId}
            />
          )
        }
      </Ready>
      <Ready loaded={examinations}>
        {(list) =>
          list.length === 0 ? null : (
            <section>
              <h2>{t('table.examinations')}</h2>
              <ul class="exemplar-list">
                {list.map((record) => (
                  <li key={record.id}>
                    <ExaminationCard record={record} />
                  </li>
                ))}
              </ul>
            </section>
          )
        }
      </Ready>
      <div class="share-list">
        <FilePick label={t('blind.read')} accept=".zip,.json,application/zip,application/json" onFile={readBlind} />
        <p class="hint">{t('blind.read.hint')}</p>
      </div>
    </>
  )
}

function ExaminationCard({ record }: { record: ExaminationRecord }) {
  const { t, dateTime } = useWording()
  const { id, title, photos, measured, judged, lockedAt, updatedAt, answers } = record
  const points = measured?.points.map((point) => concludePoint(point, judged[point.point])) ?? []
  return (
    <a class="exemplar-card" href={`#light-table/${encodeURIComponent(id)}`}>
      <span class="exemplar-thumb">
        <BlobImage sha256={photos[0]?.sha256 ?? null} alt="" />
      </span>
      <span class="exemplar-words">
        <span class="exemplar-title">{title}</span>
        <span class="quiet">
          {answers !== null && `${t('blind.mark')} · `}
          {dateTime(updatedAt)}
        </span>
        {points.length === 0 ? (
          <span>{t(lockedAt === null ? 'table.stage.analyse' : 'table.stage.compare')}</span>
        ) : (
          <span class="verdict-counts">
            {VERDICTS.map((verdict) => {
              const count = points.filter((point) => point.verdict === verdict).length
              return count === 0 ? null : (
                <span key={verdict}>
                  <VerdictShape verdict={verdict} />
                  {count} {t(`verdict.${verdict}`)}
                </span>
              )
            })}
          </span>
        )}
      </span>
    </a>
  )
}

interface NewExaminationProps {
  readonly exemplars: readonly ExemplarRecord[]
  readonly exemplarId: string
  readonly dossierId: string
}

function NewExamination({ exemplars, exemplarId, dossierId }: NewExaminationProps) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const [id, setId] = useState(exemplars.some((one) => one.id === exemplarId) ? exemplarId : exemplars[0]!.id)
  const [photos, setPhotos] = useState<readonly QuestionedPicture[]>([])
  const [dossier, setDossier] = useState(dossierId)
  const chosen = exemplars.find((one) => one.id === id)!
  const add = (name: string, sha256: string, mediaType: string) =>
    setPhotos((before) =>
      before.some((one) => one.sha256 === sha256)
        ? before
        : [
            ...before,
            { file: freeName(name, new Set(before.map(({ file }) => file))), sha256, mediaType, corners: null },
          ],
    )
  const begin = () =>
    actions.run('begin', async () => {
      const { id: made } = await ports.createExamination({
        title: chosen.exemplar.title || t('exemplar.untitled'),
        exemplar: id,
        dossier: dossier === '' ? null : dossier,
        photos,
        notes: '',
        lockedAt: null,
        laterNotes: '',
        measured: null,
        judged: {},
        answers: null,
        packages: [],
        verifications: [],
      })
      model.refresh()
      model.go({ section: 'light-table', id: made })
    })
  return (
    <section class="sheet new-examination">
      <h2>{t('table.new')}</h2>
      <SelectField
        label={t('table.exemplar')}
        value={id}
        onChange={setId}
        options={exemplars.map((one) => ({
          value: one.id,
          text: `${one.exemplar.title || t('exemplar.untitled')} (${t('exemplar.points', { count: one.exemplar.points.length })})`,
        }))}
      />
      <div>
        <h3>{t('table.photos')}</h3>
        <PictureDrop
          label={t('table.choose')}
          onPictures={(files) =>
            actions.run('take-photos', async () => {
              for (const file of files) {
                const { sha256, mediaType } = await ports.keepPicture(file)
                add(file.name, sha256, mediaType)
              }
            })
          }
        />
        <FromDossier id={dossier} onDossier={setDossier} onPhoto={add} />
      </div>
      {photos.length > 0 && (
        <ul class="chosen-photos" aria-label={t('table.chosen')}>
          {photos.map(({ file, sha256 }) => (
            <li key={sha256}>
              <BlobImage sha256={sha256} alt={file} />
              <button
                type="button"
                class="icon-button"
                aria-label={`${t('table.not-this')}: ${file}`}
                onClick={() => setPhotos(photos.filter((one) => one.sha256 !== sha256))}
              >
                <Icon name="close" />
              </button>
            </li>
          ))}
        </ul>
      )}
      <div class="form-actions">
        <button type="button" class="button primary" disabled={photos.length === 0} onClick={begin}>
          {t('table.begin')}
        </button>
        {photos.length === 0 && <p class="hint">{t('table.begin.hint')}</p>}
      </div>
    </section>
  )
}

interface FromDossierProps {
  readonly id: string
  readonly onDossier: (id: string) => void
  readonly onPhoto: (name: string, sha256: string, mediaType: string) => void
}

function FromDossier({ id, onDossier, onPhoto }: FromDossierProps) {
  const { t } = useWording()
  const { ports, version } = useDesk()
  const dossiers = useLoaded(() => ports.listDossiers(), [ports, version.value])
  const dossier = useLoaded(async () => (id === '' ? null : ports.openDossier(id)), [ports, id])
  if (dossiers.phase !== 'ready') return null
  const present = dossiers.value.filter(({ deletedAt, thumbnail }) => deletedAt === null && thumbnail !== null)
  if (present.length === 0) return null
  const kept = dossier.phase === 'ready' && dossier.value?.id === id ? dossier.value.photos : []
  return (
    <>
      <SelectField
        label={t('compare.from-dossier')}
        value={id}
        onChange={onDossier}
        options={[
          { value: '', text: t('compare.no-dossier') },
          ...present.map((summary) => ({ value: summary.id, text: summary.title })),
        ]}
      />
      <ul class="photo-choice">
        {kept.map(({ url, alt, sha256, mediaType }, index) =>
          sha256 === null ? null : (
            <li key={url}>
              <button
                type="button"
                aria-label={t('compare.take-photo', { number: index + 1 })}
                onClick={() => onPhoto(`photo-${index + 1}`, sha256, mediaType ?? 'image/jpeg')}
              >
                <BlobImage sha256={sha256} alt={alt ?? ''} />
              </button>
            </li>
          ),
        )}
      </ul>
    </>
  )
}
