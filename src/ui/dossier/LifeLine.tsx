/** Where the dossier stands, as a line of its stages. The stage that it is in is named in words beside its shape. */
import type { DossierState, Stage } from '../../domain/dossier/derive-state.ts'
import { useWording } from '../wording.ts'

const BOUGHT: readonly Stage[] = ['kept', 'asked', 'answered', 'decided', 'arrived', 'checked', 'closed']
const NOT_BOUGHT: readonly Stage[] = ['kept', 'asked', 'answered', 'decided', 'closed']

type Place = 'past' | 'present' | 'ahead'

export function LifeLine({ state }: { state: DossierState }) {
  const { t, date } = useWording()
  const { decision, since } = state
  const stages = decision === 'declined' || decision === 'lost' ? NOT_BOUGHT : BOUGHT
  const present = state.stage === 'answered-in-part' ? 'answered' : state.stage
  const at = stages.indexOf(present)
  return (
    <ol class="life-line" aria-label={t('life.line')}>
      {stages.map((stage, index) => {
        const place: Place = index < at ? 'past' : index === at ? 'present' : 'ahead'
        return (
          <li key={stage} class={`life-stage is-${place}`} aria-current={place === 'present' ? 'step' : undefined}>
            <StageShape place={place} />
            <span>{nameOf(stage, state, t)}</span>
            {place === 'present' && since !== null && <time dateTime={since}>{date(since)}</time>}
          </li>
        )
      })}
    </ol>
  )
}

function nameOf(stage: Stage, state: DossierState, t: ReturnType<typeof useWording>['t']): string {
  if (stage === 'decided' && state.decision !== null) return t(`life.decided.${state.decision}`)
  if (stage === 'answered' && state.stage === 'answered-in-part') return t('life.stage.answered-in-part')
  return t(`life.stage.${stage}`)
}

function StageShape({ place }: { place: Place }) {
  return (
    <svg class="shape life-shape" viewBox="0 0 14 14" aria-hidden="true" focusable="false">
      {place === 'past' && <path class="tick" d="M2.5 7.5 5.8 11 11.5 3.5" />}
      {place === 'present' && <path class="filled" d="M7 .8 13.2 7 7 13.2.8 7Z" />}
      {place === 'ahead' && <path class="outlined" d="M7 1.8 12.2 7 7 12.2 1.8 7Z" />}
    </svg>
  )
}
