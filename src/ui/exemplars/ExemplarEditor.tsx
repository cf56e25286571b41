/**
 * One exemplar: its pictures laid square, its points drawn on them, its words. Everything is kept by itself as it is changed;
 * what is taken away can be brought back. Measures nothing.
 * Long because its parts edit one record that is kept by itself: each hands its change to the same place.
 */
import { useSignal } from '@preact/signals'
import { useEffect, useRef, useState } from 'preact/hooks'
import { CARD_SIZES } from '../../domain/card-sizes.ts'
import type { ExemplarDraft, ExemplarRecord } from '../../domain/examination.ts'
import type { Exemplar, ExemplarPoint, Side } from '../../domain/exemplar.ts'
import type { PointKind } from '../../domain/exemplar-kinds.ts'
import { BlobImage } from '../desk/BlobImage.tsx'
import { CardSizeChoice } from '../desk/CardSizeChoice.tsx'
import { useDesk } from '../desk/desk-context.ts'
import { Plate, type Probe } from '../light-table/Plate.tsx'
import { paintGrid, paintPicture } from '../light-table/paint.ts'
import type { PieceCorners } from '../light-table/square-picture.ts'
import { useSquare } from '../light-table/use-square.ts'
import { fitView, type Place, type View, viewOfRegion } from '../light-table/view.ts'
import { FaultText } from '../parts/FaultText.tsx'
import { SelectField, TextField } from '../parts/fields.tsx'
import { Icon } from '../parts/shapes.tsx'
import { useWording } from '../wording.ts'
import { CopiesTable } from './CopiesTable.tsx'
import {
  addPicture,
  cornersInPixels,
  createPoint,
  idOf,
  keepOnPiece,
  moveInList,
  regionsOf,
  removeMake,
  removePicture,
  SIDES,
  setPicture,
  setRegion,
  sizeFromRuler,
} from './edit-exemplar.ts'
import { PictureDrop } from './PictureDrop.tsx'
import { Outline, Ruler } from './PictureFrame.tsx'
import { PointForm } from './PointForm.tsx'
import { PointList } from './PointList.tsx'
import { type PointMark, PointMarks } from './PointMarks.tsx'
import { type Saving, useDraft } from './use-draft.ts'

type Mode = 'points' | 'outline' | 'ruler'

/** Millimetres of a place that was pressed rather than drawn. */
const PRESSED = { width: 4, height: 3 }

const pick = ({ exemplar, stored }: ExemplarRecord): ExemplarDraft => ({ exemplar, stored })

export function ExemplarEditor({ record }: { record: ExemplarRecord }) {
  const { t } = useWording()
  const model = useDesk()
  const { actions, ports } = model
  const { draft, change, saving, settle } = useDraft(record, pick, (next, revision) =>
    ports.saveExemplar(record.id, next, revision),
  )
  const { exemplar, stored } = draft
  const set = (next: (exemplar: Exemplar) => Exemplar) =>
    change((before) => ({ ...before, exemplar: next(before.exemplar) }))

  const [file, setFile] = useState<string | null>(exemplar.pictures[0]?.file ?? null)
  const [mode, setMode] = useState<Mode>('points')
  const [chosen, setChosen] = useState<string | null>(null)
  const [active, setActive] = useState('region/0')
  const [drawing, setDrawing] = useState(false)
  const [grid, setGrid] = useState(false)
  const lastKind = useRef<PointKind>('same-look')
  const view = useSignal<View | null>(null)
  const sketch = useSignal<{ readonly from: Place; readonly to: Place } | null>(null)
  const form = useRef<HTMLDivElement>(null)

  const picture = exemplar.pictures.find((one) => one.file === file) ?? exemplar.pictures[0] ?? null
  const sha256 = picture === null ? null : (stored[picture.file]?.sha256 ?? null)
  const side: Side = picture?.side ?? 'front'
  const size = exemplar.nominalSize
  const given: PieceCorners = picture?.corners == null ? null : { pixels: picture.corners }
  const loaded = useSquare(sha256, given, size)
  const square = loaded.phase === 'ready' ? loaded.square : null
  const lost = loaded.phase === 'failed' && loaded.fault.code === 'no-card-found'

  // A piece that was found is drawn on from then on without being looked for again.
  useEffect(() => {
    if (square === null || picture === null || picture.corners !== null) return
    const { width, height } = square.photo
    set((before) => setPicture(before, picture.file, { corners: cornersInPixels(square.corners, width, height) }))
  }, [square])

  const point = exemplar.points.find(({ id }) => id === chosen) ?? null
  const setPoint = (next: ExemplarPoint) => {
    lastKind.current = next.kind
    set((before) => ({ ...before, points: before.points.map((one) => (one.id === next.id ? next : one)) }))
  }
  const choose = (id: string | null, fly = true) => {
    setChosen(id)
    setActive('region/0')
    setDrawing(false)
    const next = exemplar.points.find((one) => one.id === id)
    if (next === undefined) return
    const shows = exemplar.pictures.find((one) => one.side === next.side)
    if (shows !== undefined && next.side !== side) setFile(shows.file)
    setMode('points')
    if (fly && pane.current !== null) view.value = viewOfRegion(next.region, pane.current)
  }
  const pane = useRef<{ width: number; height: number } | null>(null)

  const drawn = (from: Place, to: Place) => {
    const pressed = Math.abs(to.x - from.x) < 0.2 || Math.abs(to.y - from.y) < 0.2
    const region = keepOnPiece(
      pressed
        ? { x: to.x - PRESSED.width / 2, y: to.y - PRESSED.height / 2, ...PRESSED }
        : {
            x: Math.min(from.x, to.x),
            y: Math.min(from.y, to.y),
            width: Math.abs(to.x - from.x),
            height: Math.abs(to.y - from.y),
          },
      size,
    )
    setDrawing(false)
    if (point !== null) {
      const [role, index] = active.split('/') as [Parameters<typeof setRegion>[1], string]
      return setPoint(setRegion(point, role, Number(index), region))
    }
    const number = exemplar.points.length + 1
    const name = t('point.new-name', { number })
    const id = idOf(
      `point-${number}`,
      exemplar.points.map((one) => one.id),
      'point',
    )
    const base = { id, name, why: '', copiesDo: '', side, region, needsPxPerMm: null, tolerance: null, copies: {} }
    const added = createPoint(lastKind.current, base, size)
    set((before) => ({ ...before, points: [...before.points, added] }))
    setChosen(id)
    setActive('region/0')
    requestAnimationFrame(() => {
      const field = form.current?.querySelector<HTMLInputElement>('input')
      field?.focus()
      field?.select()
    })
  }
  const probe = ({ kind, at }: Probe) => {
    if (kind === 'start') sketch.value = { from: at, to: at }
    if (kind === 'move' && sketch.value !== null) sketch.value = { ...sketch.value, to: at }
    if (kind === 'end' && sketch.value !== null) {
      const { from } = sketch.value
      sketch.value = null
      drawn(from, at)
    }
    if (kind === 'press' && drawing) drawn(at, at)
  }

  const marks: PointMark[] = exemplar.points
    .filter((one) => one.side === side)
    .flatMap((one) => {
      const badge = String(exemplar.points.indexOf(one) + 1)
      const whole = one.id === chosen
      return regionsOf(one)
        .filter(({ role }) => whole || role === 'region')
        .map(({ role, index, region }) => ({
          key: `${one.id}|${role}/${index}`,
          label: role === 'region' ? `${badge} ${one.name}` : `${one.name}, ${t(`role.${role}`)}`,
          badge: role === 'region' ? badge : t(`role.${role}`),
          region,
          active: whole && active === `${role}/${index}`,
          movable: whole,
        }))
    })

  const removePoint = (id: string) => {
    const at = exemplar.points.findIndex((one) => one.id === id)
    const gone = exemplar.points[at]!
    set((before) => ({ ...before, points: before.points.filter((one) => one.id !== id) }))
    if (chosen === id) setChosen(null)
    actions.say(t('point.deleted', { name: gone.name }), () =>
      set((before) => ({ ...before, points: moveInList([...before.points, gone], before.points.length, at) })),
    )
  }
  const takePicture = (name: string) => {
    const before = draft
    change((now) => removePicture(now, name))
    setFile(null)
    actions.say(t('picture.deleted', { name }), () => change(() => before))
  }
  const addPictures = (pictures: readonly File[]) =>
    actions.run('add-picture', async () => {
      for (const one of pictures) {
        const bytes = await ports.keepPicture(one)
        change((now) => {
          const next = addPicture(now, one.name, bytes)
          setFile(next.exemplar.pictures.at(-1)!.file)
          return next
        })
      }
    })
  const remove = () =>
    actions.run('delete-exemplar', async () => {
      await settle()
      await ports.deleteExemplar(record.id)
      model.go({ section: 'exemplars', id: null })
      model.refresh()
      actions.say(t('exemplar.deleted', { name: exemplar.title }), () =>
        actions.run('restore-exemplar', async () => {
          await ports.restoreExemplar(record.id)
          model.refresh()
        }),
      )
    })
  const sizeId =
    CARD_SIZES.find(({ widthMm, heightMm }) => widthMm === size.widthMm && heightMm === size.heightMm)?.id ?? 'other'
  const alt = t('exemplar.picture-alt', { side: t(`side.${side}`) })

  return (
    <div class="exemplar">
      <header class="exemplar-head">
        <a class="link" href="#exemplars">
          {t('exemplar.back')}
        </a>
        <h1>{exemplar.title || t('exemplar.untitled')}</h1>
        <SavedWord saving={saving} />
        <div class="form-actions">
          <button
            type="button"
            class="button primary small"
            disabled={exemplar.pictures.length === 0}
            onClick={() => settle().then(() => model.go({ section: 'light-table', id: `new:${record.id}` }))}
          >
            <Icon name="compare" />
            {t('exemplar.lay')}
          </button>
          <button
            type="button"
            class="button small"
            onClick={() =>
              actions.run(
                'export-exemplar',
                () => settle().then(() => ports.exportExemplar(record.id)),
                t('exemplar.exported'),
              )
            }
          >
            <Icon name="save" />
            {t('exemplar.export')}
          </button>
          <GuideButton id={record.id} settle={settle} />
          <button type="button" class="button small" onClick={remove}>
            <Icon name="remove" />
            {t('action.delete')}
          </button>
        </div>
      </header>

      <div class="exemplar-columns">
        <div class="exemplar-glass">
          <ul class="picture-strip" aria-label={t('exemplar.pictures-label')}>
            {exemplar.pictures.map((one, index) => (
              <li key={one.file}>
                <button
                  type="button"
                  class="picture-tab"
                  aria-pressed={one.file === picture?.file}
                  aria-label={t('exemplar.picture-tab', { number: index + 1, side: t(`side.${one.side}`) })}
                  onClick={() => setFile(one.file)}
                >
                  <BlobImage sha256={stored[one.file]?.sha256 ?? null} alt="" />
                  <span>{t(`side.${one.side}`)}</span>
                </button>
              </li>
            ))}
          </ul>
          {picture === null || sha256 === null ? (
            <PictureDrop large label={t('exemplars.choose')} onPictures={addPictures} />
          ) : (
            <>
              <fieldset class="glass-tools" aria-label={t('glass.tools')}>
                {(['points', 'outline', 'ruler'] as const).map((one) => (
                  <button
                    key={one}
                    type="button"
                    class="button small"
                    aria-pressed={(lost && mode === 'points' ? 'outline' : mode) === one}
                    onClick={() => setMode(one)}
                  >
                    {t(`glass.${one}`)}
                  </button>
                ))}
                {mode === 'points' && square !== null && (
                  <>
                    <span class="tool-gap" />
                    <button
                      type="button"
                      class="button small"
                      aria-pressed={drawing}
                      onClick={() => setDrawing(!drawing)}
                    >
                      <Icon name="add" />
                      {point === null ? t('point.new') : t('point.draw-again')}
                    </button>
                    <button type="button" class="button small" aria-pressed={grid} onClick={() => setGrid(!grid)}>
                      {t('table.grid')}
                    </button>
                    <button
                      type="button"
                      class="button small"
                      onClick={() => {
                        if (pane.current !== null) view.value = fitView(size, pane.current)
                      }}
                    >
                      {t('table.whole')}
                    </button>
                  </>
                )}
              </fieldset>
              {lost && mode !== 'ruler' && (
                <p class="field-fault" role="alert">
                  {t('outline.not-found')}
                </p>
              )}
              {loaded.phase === 'failed' && !lost && (
                <p role="alert">
                  <FaultText fault={loaded.fault} />
                </p>
              )}
              {mode === 'outline' || (lost && mode === 'points') ? (
                <Outline
                  sha256={sha256}
                  alt={alt}
                  corners={given ?? (square && { shares: square.corners })}
                  onChange={(corners, width, height) => {
                    set((now) => setPicture(now, picture.file, { corners: cornersInPixels(corners, width, height) }))
                  }}
                />
              ) : mode === 'ruler' ? (
                <Ruler
                  sha256={sha256}
                  alt={alt}
                  onMeasured={(ends, millimetres) => {
                    const measured = picture.corners && sizeFromRuler(picture.corners, ends, millimetres)
                    if (measured == null) return actions.say(t('ruler.no-outline'))
                    set((now) => ({ ...now, nominalSize: measured }))
                    actions.say(t('ruler.taken', { width: measured.widthMm, height: measured.heightMm }), () =>
                      set((now) => ({ ...now, nominalSize: size })),
                    )
                    setMode('points')
                  }}
                />
              ) : (
                <>
                  {drawing && <p class="draw-hint">{t(point === null ? 'point.draw' : 'point.draw-region')}</p>}
                  {square === null ? (
                    <div class="plate-waiting">{t('glass.laying')}</div>
                  ) : (
                    <Plate
                      label={alt}
                      size={size}
                      view={view}
                      drawing={drawing}
                      onProbe={probe}
                      frame={sketch}
                      paint={(surface) => {
                        pane.current = { width: surface.width, height: surface.height }
                        paintPicture(surface, square)
                        if (grid) paintGrid(surface, size)
                        const held = sketch.value
                        if (held === null) return
                        const { context, view: shown } = surface
                        context.strokeStyle = '#e3b75c'
                        context.lineWidth = 2
                        context.strokeRect(
                          (held.from.x - shown.xMm) * shown.scale + surface.width / 2,
                          (held.from.y - shown.yMm) * shown.scale + surface.height / 2,
                          (held.to.x - held.from.x) * shown.scale,
                          (held.to.y - held.from.y) * shown.scale,
                        )
                      }}
                    >
                      {!drawing && (
                        <PointMarks
                          view={view}
                          marks={marks}
                          onChoose={(key) => {
                            const [id, role] = key.split('|') as [string, string]
                            if (id !== chosen) return choose(id, false)
                            setActive(role)
                          }}
                          onChange={(key, region) => {
                            const [id, role] = key.split('|') as [string, string]
                            const moved = exemplar.points.find((one) => one.id === id)
                            if (moved === undefined) return
                            const [name, index] = role.split('/') as [Parameters<typeof setRegion>[1], string]
                            setPoint(setRegion(moved, name, Number(index), keepOnPiece(region, size)))
                          }}
                        />
                      )}
                    </Plate>
                  )}
                </>
              )}
              <p class="hint">
                {square === null ? '' : t('glass.scale', { pxPerMm: Math.round(square.photoPxPerMm * 10) / 10 })}
              </p>
            </>
          )}
        </div>

        <div class="exemplar-side">
          <PointList
            points={exemplar.points}
            chosen={chosen}
            onChoose={choose}
            onMove={(from, to) => set((now) => ({ ...now, points: moveInList(now.points, from, to) }))}
            onRemove={removePoint}
            onNew={() => {
              setChosen(null)
              setMode('points')
              setDrawing(true)
            }}
          />
          {point !== null && (
            <section class="sheet" ref={form} aria-label={t('point.editing', { name: point.name })}>
              <PointForm
                key={point.id + point.kind}
                point={point}
                size={size}
                active={active}
                onActivate={setActive}
                onChange={setPoint}
              />
              <p>
                <button type="button" class="button small" onClick={() => setChosen(null)}>
                  {t('point.close')}
                </button>
              </p>
            </section>
          )}
          <details class="sheet" open={exemplar.points.length === 0}>
            <summary>{t('exemplar.about')}</summary>
            <div class="form">
              <TextField
                label={t('exemplar.title')}
                value={exemplar.title}
                onChange={(title) => set((now) => ({ ...now, title }))}
                fault={exemplar.title.trim() === '' ? t('exemplar.title.fault') : null}
              />
              <TextField
                label={t('exemplar.provenance')}
                hint={t('exemplar.provenance.hint')}
                value={exemplar.provenance}
                onChange={(provenance) => set((now) => ({ ...now, provenance }))}
                lines={3}
              />
              <CardSizeChoice
                key={sizeId}
                sizeId={sizeId}
                size={size}
                onChange={(_id, next) => next !== null && set((now) => ({ ...now, nominalSize: next }))}
              />
              <div class="form-row">
                <TextField
                  label={t('exemplar.author')}
                  value={exemplar.author}
                  onChange={(author) => set((now) => ({ ...now, author }))}
                />
                <TextField
                  label={t('exemplar.licence')}
                  hint={t('exemplar.licence.hint')}
                  value={exemplar.licence}
                  onChange={(licence) => set((now) => ({ ...now, licence }))}
                />
              </div>
            </div>
          </details>
          <details class="sheet">
            <summary>{t('exemplar.pictures-and-pieces')}</summary>
            <p class="quiet">{t('exemplar.pieces.explained')}</p>
            {exemplar.pictures.map((one, index) => (
              <fieldset key={one.file} class="picture-row">
                <legend>
                  {index + 1}. <bdi>{one.file}</bdi>
                </legend>
                <SelectField
                  label={t('point.side')}
                  value={one.side}
                  onChange={(next) => set((now) => setPicture(now, one.file, { side: next as Side }))}
                  options={SIDES.map((value) => ({ value, text: t(`side.${value}`) }))}
                />
                <SelectField
                  label={t('exemplar.piece')}
                  value={one.piece}
                  onChange={(next) =>
                    set((now) => {
                      if (next !== 'new') return setPicture(now, one.file, { piece: next })
                      const name = String(now.pieces.length + 1)
                      const id = idOf(
                        `piece-${name}`,
                        now.pieces.map((piece) => piece.id),
                        'piece',
                      )
                      return setPicture({ ...now, pieces: [...now.pieces, { id, name, provenance: '' }] }, one.file, {
                        piece: id,
                      })
                    })
                  }
                  options={[
                    ...exemplar.pieces.map(({ id, name }) => ({ value: id, text: t('exemplar.piece-name', { name }) })),
                    { value: 'new', text: t('exemplar.piece-new') },
                  ]}
                />
                <button
                  type="button"
                  class="icon-button"
                  aria-label={`${t('action.delete')}: ${one.file}`}
                  onClick={() => takePicture(one.file)}
                >
                  <Icon name="remove" />
                </button>
              </fieldset>
            ))}
            <PictureDrop label={t('exemplar.add-pictures')} onPictures={addPictures} />
          </details>
          <CopiesTable
            exemplar={exemplar}
            onChange={(next) => set(() => next)}
            onRemove={(id) => {
              const before = exemplar
              set((now) => removeMake(now, id))
              actions.say(t('make.deleted'), () =>
                set((now) => ({ ...now, copies: before.copies, points: before.points })),
              )
            }}
          />
        </div>
      </div>
    </div>
  )
}

function SavedWord({ saving }: { saving: Saving }) {
  const { t } = useWording()
  if (saving.phase === 'failed')
    return (
      <p role="alert" class="field-fault">
        <FaultText fault={saving.fault} />
      </p>
    )
  return <p class="quiet saved-word">{t(saving.phase === 'saved' ? 'draft.saved' : 'draft.saving')}</p>
}

function GuideButton({ id, settle }: { id: string; settle: () => Promise<void> }) {
  const { t } = useWording()
  const { actions, ports } = useDesk()
  const [over, setOver] = useState<AbortController | null>(null)
  if (over !== null)
    return (
      <button type="button" class="button small" onClick={() => over.abort()}>
        {t('guide.cancel')}
      </button>
    )
  return (
    <button
      type="button"
      class="button small"
      onClick={() => {
        const controller = new AbortController()
        setOver(controller)
        actions
          .run('guide', () => settle().then(() => ports.exportGuide(id, controller.signal)), t('guide.exported'))
          .finally(() => setOver(null))
      }}
    >
      {t('guide.export')}
    </button>
  )
}
