/** One place compared: an exemplar's region against a questioned photo, measured, with "cannot tell" as a full answer. */
import { useEffect, useState } from 'preact/hooks'
import { FilePick } from '../parts/FilePick.tsx'
import { SelectField } from '../parts/fields.tsx'
import { VerdictShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { BlobImage } from './BlobImage.tsx'
import { useDesk } from './desk-context.ts'
import type { Comparison, ComparisonRequest, Region } from './desk-ports.ts'
import { RegionPicker } from './RegionPicker.tsx'
import { useLoaded } from './use-loaded.ts'

const KINDS = ['tint', 'border-width'] as const

/** In the middle, a fifth of the picture: something to move, rather than nothing to find. */
const FIRST_REGION: Region = { x: 0.4, y: 0.4, width: 0.2, height: 0.2 }

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
  const { actions, ports } = useDesk()
  const [exemplar, setExemplar] = useState<Blob | null>(null)
  const [questioned, setQuestioned] = useState<Blob | null>(null)
  const [kind, setKind] = useState<ComparisonRequest['kind']>('tint')
  const [region, setRegion] = useState<Region>(FIRST_REGION)
  const [result, setResult] = useState<Comparison | null>(null)
  const [running, setRunning] = useState<AbortController | null>(null)
  const exemplarUrl = useObjectUrl(exemplar)
  const questionedUrl = useObjectUrl(questioned)

  // A verdict belongs to exactly what was compared.
  useEffect(() => setResult(null), [exemplar, questioned, kind, region])
  useEffect(() => () => running?.abort(), [running])

  const compare = () => {
    if (exemplar === null || questioned === null) return
    const controller = new AbortController()
    setRunning(controller)
    actions
      .run('compare', async () =>
        setResult(await ports.compare({ kind, exemplar, region, questioned }, controller.signal)),
      )
      .finally(() => setRunning(null))
  }

  return (
    <>
      <h1>{t('desk.compare')}</h1>
      <p class="lead">{t('compare.explained')}</p>
      <div class="compare">
        <section class="sheet">
          <h2>{t('compare.exemplar')}</h2>
          <p class="quiet">{t('compare.exemplar.explained')}</p>
          <FilePick label={t('compare.choose-exemplar')} accept="image/*" onFile={setExemplar} />
          {exemplarUrl !== null && (
            <RegionPicker src={exemplarUrl} alt={t('compare.exemplar')} region={region} onChange={setRegion} />
          )}
        </section>
        <section class="sheet">
          <h2>{t('compare.questioned')}</h2>
          <p class="quiet">{t('compare.questioned.explained')}</p>
          <FilePick label={t('compare.choose-photo')} accept="image/*" onFile={setQuestioned} />
          <FromDossier onPhoto={setQuestioned} />
          {questionedUrl !== null && <img class="questioned" src={questionedUrl} alt={t('compare.questioned')} />}
        </section>
      </div>
      <div class="compare-bar">
        <SelectField
          label={t('compare.kind')}
          value={kind}
          onChange={(value) => setKind(value as ComparisonRequest['kind'])}
          options={KINDS.map((value) => ({ value, text: t(`compare.kind.${value}`) }))}
        />
        {running === null ? (
          <button
            type="button"
            class="button primary"
            disabled={exemplar === null || questioned === null}
            onClick={compare}
          >
            {t('compare.run')}
          </button>
        ) : (
          <button type="button" class="button" onClick={() => running.abort()}>
            {t('action.cancel')}
          </button>
        )}
      </div>
      <div role="status">{result !== null && <Verdict result={result} />}</div>
    </>
  )
}

function Verdict({ result }: { result: Comparison }) {
  const { t, number } = useWording()
  const amount = (value: number | null) =>
    value === null ? t('compare.not-measured') : `${number(value, { maximumFractionDigits: 2 })} ${result.unit}`
  return (
    <section class="verdict">
      <h2 class="verdict-word">
        <VerdictShape verdict={result.verdict} />
        {t(`verdict.${result.verdict}`)}
      </h2>
      <p class="verdict-reason">{result.reason}</p>
      <dl class="verdict-figures">
        <div>
          <dt>{t('compare.value')}</dt>
          <dd>{amount(result.value)}</dd>
        </div>
        <div>
          <dt>{t('compare.exemplar-value')}</dt>
          <dd>{amount(result.exemplarValue)}</dd>
        </div>
        <div>
          <dt>{t('compare.uncertainty')}</dt>
          <dd>{result.uncertainty === null ? amount(null) : `± ${amount(result.uncertainty)}`}</dd>
        </div>
        <div>
          <dt>{t('compare.tolerance')}</dt>
          <dd>{result.tolerance === null ? amount(null) : `± ${amount(result.tolerance)}`}</dd>
        </div>
      </dl>
      <p class="quiet">{t('compare.caution')}</p>
    </section>
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
