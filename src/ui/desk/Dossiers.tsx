/** The list of dossiers: search, order, and the opened one beside it where there is room. */
import { useMemo, useState } from 'preact/hooks'
import { type DossierSummary, fitsSearch } from '../../domain/dossier-summary.ts'
import type { Stance } from '../../domain/inspection.ts'
import { NewDossier } from '../dossier/NewDossier.tsx'
import { Today } from '../dossier/Today.tsx'
import { BackupReminder } from '../keeping/BackupReminder.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { PageText } from '../parts/PageText.tsx'
import { Icon, StanceShape } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { BlobImage } from './BlobImage.tsx'
import { DossierView } from './DossierView.tsx'
import { Ready } from './Ready.tsx'
import { useDossierList } from './use-dossier-list.ts'
import { VirtualList } from './VirtualList.tsx'

const ORDERS = ['newest', 'stance', 'title', 'price'] as const
type Order = (typeof ORDERS)[number]

const STANCE_ORDER: Readonly<Record<Stance, number>> = { wait: 0, ask: 1, 'nothing-open': 2 }

type Compare = (a: DossierSummary, b: DossierSummary) => number

const newestFirst: Compare = (a, b) => (a.capturedAt < b.capturedAt ? 1 : a.capturedAt > b.capturedAt ? -1 : 0)

// One collator for all: making one for each comparison takes longer than comparing.
const inOrder = new Intl.Collator()

const COMPARES: Readonly<Record<Order, Compare>> = {
  newest: newestFirst,
  stance: (a, b) => STANCE_ORDER[a.stance] - STANCE_ORDER[b.stance] || newestFirst(a, b),
  title: (a, b) => inOrder.compare(a.title, b.title) || newestFirst(a, b),
  // Amounts of different currencies are kept apart: no rate, no conversion.
  price: (a, b) =>
    (a.price?.currency ?? '').localeCompare(b.price?.currency ?? '') ||
    Number(b.price?.amount ?? 0) - Number(a.price?.amount ?? 0),
}

export function Dossiers({ openId }: { openId: string | null }) {
  const { t } = useWording()
  const loaded = useDossierList()
  return (
    <Ready loaded={loaded}>
      {({ dossiers, whole }) => {
        const present = dossiers.filter(({ deletedAt }) => deletedAt === null)
        return (
          <div class={`dossiers${openId === null ? '' : ' has-open'}`}>
            <div class="dossiers-list">
              <h1>{t('desk.dossiers')}</h1>
              <BackupReminder dossiers={present.length} />
              <NewDossierFold />
              <Today dossiers={present} />
              {present.length === 0 ? <NoDossiers /> : <DossierList dossiers={present} whole={whole} openId={openId} />}
            </div>
            {openId !== null && <DossierView key={openId} id={openId} />}
          </div>
        )
      }}
    </Ready>
  )
}

function NewDossierFold() {
  const { t } = useWording()
  const [open, setOpen] = useState(false)
  if (open) return <NewDossier onDone={() => setOpen(false)} />
  return (
    <div class="form-actions">
      <button type="button" class="button small" onClick={() => setOpen(true)}>
        <Icon name="add" />
        {t('loose.open')}
      </button>
    </div>
  )
}

function NoDossiers() {
  const { t } = useWording()
  return (
    <div class="teaching">
      <p class="teaching-lead">{t('dossiers.empty')}</p>
      <ol class="teach-steps">
        <li>{t('dossiers.empty.step-1')}</li>
        <li>{t('dossiers.empty.step-2')}</li>
        <li>{t('dossiers.empty.step-3')}</li>
      </ol>
      <p class="quiet">{t('dossiers.empty.where')}</p>
    </div>
  )
}

interface DossierListProps {
  readonly dossiers: readonly DossierSummary[]
  /** `false`: the others are still being read. */
  readonly whole: boolean
  readonly openId: string | null
}

function DossierList({ dossiers, whole, openId }: DossierListProps) {
  const { t, number } = useWording()
  const [query, setQuery] = useState('')
  const [order, setOrder] = useState<Order>('newest')
  // In order before it is searched: a key pressed in the search must not sort 20,000 again.
  const ordered = useMemo(() => dossiers.toSorted(COMPARES[order]), [dossiers, order])
  const found = useMemo(() => ordered.filter((dossier) => fitsSearch(dossier, query)), [ordered, query])
  return (
    <>
      <div class="list-tools">
        <TextField label={t('dossiers.search')} type="search" value={query} onChange={setQuery} />
        <SelectField
          label={t('dossiers.order')}
          value={order}
          onChange={(value) => setOrder(value as Order)}
          options={ORDERS.map((value) => ({ value, text: t(`dossiers.order.${value}`) }))}
        />
      </div>
      <p class="quiet list-count" role="status">
        {!whole
          ? t('dossiers.reading')
          : query === ''
            ? t('dossiers.count', { count: dossiers.length })
            : t('dossiers.found', { found: number(found.length), total: number(dossiers.length) })}
      </p>
      <VirtualList
        items={found}
        rowHeight={76}
        label={t('desk.dossiers')}
        keyOf={({ id }) => id}
        row={(dossier, tabIndex) => <DossierRow dossier={dossier} tabIndex={tabIndex} open={dossier.id === openId} />}
      />
    </>
  )
}

function DossierRow({ dossier, tabIndex, open }: { dossier: DossierSummary; tabIndex: 0 | -1; open: boolean }) {
  const { t, money, date } = useWording()
  return (
    <a
      class="dossier-row"
      href={`#dossiers/${encodeURIComponent(dossier.id)}`}
      tabIndex={tabIndex}
      aria-current={open ? 'page' : undefined}
    >
      <span class="dossier-picture">
        <BlobImage sha256={dossier.thumbnail} alt="" />
      </span>
      <span class="dossier-words">
        <span class="dossier-title">
          <PageText text={dossier.title} />
        </span>
        <span class="dossier-line">
          <StanceShape stance={dossier.stance} />
          <strong>{t(`stance.${dossier.stance}.short`)}</strong>
          {dossier.openConcerns > 0 && <span>{t('results.concerns', { count: dossier.openConcerns })}</span>}
          {dossier.seller !== null && <bdi class="dossier-seller">{dossier.seller}</bdi>}
        </span>
      </span>
      <span class="dossier-price">
        {dossier.price !== null && <strong>{money(dossier.price)}</strong>}
        <span>{date(dossier.capturedAt)}</span>
      </span>
    </a>
  )
}
