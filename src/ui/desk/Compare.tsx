/** One place compared: an exemplar's region against a questioned photo, measured, with "cannot tell" as a full answer. */
import { useEffect, useState } from 'preact/hooks'
import type { DrawnCorners } from '../../domain/exemplar.ts'
import type { LastComparison } from '../../domain/settings.ts'
import { FilePick } from '../parts/FilePick.tsx'
import { SelectField } from '../parts/fields.tsx'
import { useWording } from '../wording.ts'
import { BlobImage } from './BlobImage.tsx'
import { CardSizeChoice } from './CardSizeChoice.tsx'
import { CornerHandles, FIRST_CORNERS } from './CornerHandles.tsx'
import { useDesk } from './desk-context.ts'
import type { Comparison, ComparisonRequest, Region } from './desk-ports.ts'
import { Ready } from './Ready.tsx'
import { RegionPicker } from './RegionPicker.tsx'
import { useLoaded } from './use-loaded.ts'
import { Verdict } from './Verdict.tsx'

const KINDS = ['tint', 'border-width'] as const
const EDGES = ['left', 'top', 'right', 'bottom'] as const

type Edge = ComparisonRequest['edge']
/** Each cut edge has a place of its own, so that going through all four keeps what was drawn. */
type MarkId = 'place' | 'neutral' | Edge

/** Something to move, rather than nothing to find: in the middle, in the lower margin, across a border. */
const FIRST_REGIONS: Readonly<Record<MarkId, Region>> = {
  place: { x: 0.4, y: 0.4, width: 0.2, height: 0.2 },
  neutral: { x: 0.42, y: 0.88, width: 0.16, height: 0.03 },
  left: { x: 0.12, y: 0.3, width: 0.1, height: 0.4 },
  top: { x: 0.3, y: 0.08, width: 0.4, height: 0.07 },
  right: { x: 0.78, y: 0.3, width: 0.1, height: 0.4 },
  bottom: { x: 0.3, y: 0.85, width: 0.4, height: 0.07 },
}

function useObjectUrl(blob: Blob | null): string | null {
  const [url, setUrl] = useState<string | null>(null)
  useEffect(() => {
    if (blob === null) return
    const made = URL.createObjectURL(blob)
    setUrl(made)
    return () => {
      URL.revokeObjectURL(made)
      setUrl(null)
    }
  }, [blob])
  return url
}

export function Compare() {
  const { t } = useWording()
  const { ports } = useDesk()
  const settings = useLoaded(ports.readSettings, [ports])
  return (
    <>
      <h1>{t('desk.compare')}</h1>
      <p class="lead">{t('compare.explained')}</p>
      <Ready loaded={settings}>{({ comparison }) => <LightTable last={comparison} />}</Ready>
    </>
  )
}

function LightTable({ last }: { last: LastComparison }) {
  const { t } = useWording()
  const { actions, ports } = useDesk()
  const [exemplar, setExemplar] = useState<Blob | null>(null)
  const [questioned, setQuestioned] = useState<Blob | null>(null)
  const [kind, setKind] = useState<ComparisonRequest['kind']>(last.kind)
  const [edge, setEdge] = useState<Edge>('left')
  const [sizeId, setSizeId] = useState(last.sizeId)
  const [nominalSize, setNominalSize] = useState<LastComparison['nominalSize'] | null>(last.nominalSize)
  const [regions, setRegions] = useState(FIRST_REGIONS)
  const [corners, setCorners] = useState<DrawnCorners | null>(null)
  const [questionedCorners, setQuestionedCorners] = useState<DrawnCorners | null>(null)
  const [active, setActive] = useState<MarkId>('place')
  const [result, setResult] = useState<Comparison | null>(null)
  const [running, setRunning] = useState<AbortController | null>(null)
  const place = kind === 'tint' ? 'place' : edge
  const marks: readonly MarkId[] = kind === 'tint' ? [place, 'neutral'] : [place]
  const exemplarUrl = useObjectUrl(exemplar)
  const questionedUrl = useObjectUrl(questioned)

  // A verdict belongs to exactly what was compared.
  useEffect(() => setResult(null), [exemplar, questioned, kind, edge, nominalSize, regions, corners, questionedCorners])
  // Corners belong to one picture.
  useEffect(() => setCorners(null), [exemplar])
  useEffect(() => setQuestionedCorners(null), [questioned])
  useEffect(() => () => running?.abort(), [running])

  const compare = () => {
    if (exemplar === null || questioned === null || nominalSize === null) return
    const { neutral } = regions
    const request = {
      kind,
      exemplar,
      region: regions[place],
      neutral,
      edge,
      nominalSize,
      corners,
      questioned,
      questionedCorners,
    }
    const controller = new AbortController()
    setRunning(controller)
    // What was wrong with the last attempt is over.
    actions.dismiss()
    actions
      .run('compare', async () => {
        setResult(await ports.compare(request, controller.signal))
        await ports.changeSettings({ comparison: { kind, sizeId, nominalSize } })
      })
      .finally(() => setRunning(null))
  }

  return (
    <>
      <div class="sheet compare-what">
        <SelectField
          label={t('compare.kind')}
          value={kind}
          onChange={(value) => setKind(value as ComparisonRequest['kind'])}
          options={KINDS.map((value) => ({ value, text: t(`compare.kind.${value}`) }))}
        />
        {kind === 'border-width' && (
          <SelectField
            label={t('compare.edge')}
            value={edge}
            onChange={(value) => setEdge(value as Edge)}
            options={EDGES.map((value) => ({ value, text: t(`compare.edge.${value}`) }))}
          />
        )}
        <CardSizeChoice
          sizeId={sizeId}
          size={nominalSize}
          onChange={(id, size) => {
            setSizeId(id)
            setNominalSize(size)
          }}
        />
      </div>
      <div class="compare">
        <section class="sheet">
          <h2>{t('compare.exemplar')}</h2>
          <p class="quiet">{t(`compare.exemplar.${kind}`)}</p>
          <FilePick label={t('compare.choose-exemplar')} accept="image/*" onFile={setExemplar} />
          {exemplarUrl !== null && (
            <RegionPicker
              src={exemplarUrl}
              alt={t('compare.exemplar')}
              marks={marks.map((id) => ({
                id,
                label: t(id === 'neutral' ? 'mark.neutral' : 'mark.place'),
                region: regions[id],
              }))}
              active={marks.includes(active) ? active : place}
              onActivate={(id) => setActive(id as MarkId)}
              onChange={(id, region) => setRegions((before) => ({ ...before, [id]: region }))}
            >
              {corners !== null && <CornerHandles corners={corners} onChange={setCorners} />}
            </RegionPicker>
          )}
          {exemplarUrl !== null && <CornersChoice corners={corners} onChange={setCorners} />}
        </section>
        <section class="sheet">
          <h2>{t('compare.questioned')}</h2>
          <p class="quiet">{t('compare.questioned.explained')}</p>
          <FilePick label={t('compare.choose-photo')} accept="image/*" onFile={setQuestioned} />
          <FromDossier onPhoto={setQuestioned} />
          {questionedUrl !== null && (
            <>
              <div class="region-picture">
                <img src={questionedUrl} alt={t('compare.questioned')} draggable={false} />
                {questionedCorners !== null && (
                  <CornerHandles corners={questionedCorners} onChange={setQuestionedCorners} />
                )}
              </div>
              <CornersChoice corners={questionedCorners} onChange={setQuestionedCorners} />
            </>
          )}
        </section>
      </div>
      <div class="compare-bar">
        {running === null ? (
          <button
            type="button"
            class="button primary"
            disabled={exemplar === null || questioned === null || nominalSize === null}
            onClick={compare}
          >
            {t('compare.run')}
          </button>
        ) : (
          <button type="button" class="button" onClick={() => running.abort()}>
            {t('action.cancel')}
          </button>
        )}
        {(exemplar === null || questioned === null) && <p class="hint">{t('compare.both-needed')}</p>}
      </div>
      <div role="status">{result !== null && <Verdict result={result} />}</div>
      {result !== null && exemplarUrl !== null && questionedUrl !== null && (
        <div class="side-by-side">
          <figure>
            <RegionCrop src={exemplarUrl} region={regions[place]} alt={t('compare.place-alt')} />
            <figcaption>{t('compare.place')}</figcaption>
          </figure>
          <figure>
            <img src={questionedUrl} alt={t('compare.questioned')} />
            <figcaption>{t('compare.whole')}</figcaption>
          </figure>
        </div>
      )}
    </>
  )
}

function CornersChoice({
  corners,
  onChange,
}: {
  corners: DrawnCorners | null
  onChange: (corners: DrawnCorners | null) => void
}) {
  const { t } = useWording()
  return (
    <div>
      <label class="choice">
        <input
          type="checkbox"
          checked={corners !== null}
          onChange={(event) => onChange(event.currentTarget.checked ? FIRST_CORNERS : null)}
        />
        {t('compare.corners')}
      </label>
      <p class="hint">{t('compare.corners.hint')}</p>
    </div>
  )
}

/** The marked place alone, as large as there is room. */
function RegionCrop({ src, region, alt }: { src: string; region: Region; alt: string }) {
  const [ratio, setRatio] = useState<number | null>(null)
  const share = (length: number) => `${length * 100}%`
  return (
    <span
      class="region-crop"
      style={{ aspectRatio: ratio === null ? undefined : String((ratio * region.width) / region.height) }}
    >
      <img
        src={src}
        alt={alt}
        onLoad={({ currentTarget: { naturalWidth, naturalHeight } }) => setRatio(naturalWidth / naturalHeight)}
        style={{
          width: share(1 / region.width),
          left: share(-region.x / region.width),
          top: share(-region.y / region.height),
        }}
      />
    </span>
  )
}

function FromDossier({ onPhoto }: { onPhoto: (blob: Blob) => void }) {
  const { t } = useWording()
  const { actions, ports, version } = useDesk()
  const [id, setId] = useState('')
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
        onChange={setId}
        options={[
          { value: '', text: t('compare.no-dossier') },
          ...present.map((summary) => ({ value: summary.id, text: summary.title })),
        ]}
      />
      <ul class="photo-choice">
        {kept.map(({ url, alt, sha256 }, index) =>
          sha256 === null ? null : (
            <li key={url}>
              <button
                type="button"
                aria-label={t('compare.take-photo', { number: index + 1 })}
                onClick={() =>
                  actions.run('take-photo', async () => {
                    const blob = await ports.openBlob(sha256)
                    if (blob !== null) onPhoto(blob)
                  })
                }
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
