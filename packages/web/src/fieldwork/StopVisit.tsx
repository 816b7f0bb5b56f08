import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import { isElsewhere, isFinished, nextStop, type RoundProgress } from '@rillmark/casebook/fieldwork/round-progress.ts'
import { type VisitPlan, visitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { StopAccounts } from '../contests/StopAccounts.tsx'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { Track } from '../kit/Track.tsx'
import { useAuthor } from '../store/author.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { localDay } from '../store/local-time.ts'
import { useHold } from '../offline/use-hold.ts'
import { CantDialog } from './CantDialog.tsx'
import { CurveStep } from './CurveStep.tsx'
import { useDraft } from './use-draft.ts'
import { AtStop, FinishPart } from './FinishPart.tsx'
import { handWords } from './hand-words.ts'
import { LabelStep } from './LabelStep.tsx'
import { MoreDialog } from './MoreDialog.tsx'
import { NeutralizeStep } from './NeutralizeStep.tsx'
import { PlainStep } from './PlainStep.tsx'
import { ReadingStep } from './ReadingStep.tsx'
import { RunStep } from './RunStep.tsx'
import { StepFoot } from './StepFrame.tsx'
import { StepTitle } from './StepTitle.tsx'
import type { StepProps } from './step-props.ts'
import { NotKept, StopToolsProvider, useStop, useWriting } from './stop-tools.tsx'

export interface StopVisitProps {
  readonly at: { readonly round: string; readonly stop: string }
  readonly progress: RoundProgress
  readonly onGo: (stop: string | undefined) => void
}

/** One stop, a step at a time. Keyed by its stop, so that nothing of one is carried to the next. */
export function StopVisit({ at, progress, onGo }: StopVisitProps): ReactNode {
  const { id, state, version, device } = useInvestigation()
  const { name: author } = useAuthor()
  const draft = useDraft(`${id}/${at.round}/${at.stop}`)
  const [today] = useState(localDay)
  const day = useDraft(`${id}/day ${today}`)
  const [open, setOpen] = useState<'cant' | 'more' | 'leave'>()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const plan = useMemo(() => visitPlan({ ...at, state, author }), [version, at.round, at.stop, author])
  const underWay = plan !== undefined && isUnderWay(plan)
  useHold('a stop is being visited', underWay)
  if (plan === undefined) return <Note kind="warn">This stop is no longer in the plan of {at.round}.</Note>
  const { current, visit } = plan
  const here = progress.stops.find(({ stop }) => stop.id === at.stop)
  const elsewhere = here !== undefined && isElsewhere(here, device) ? here.atWork : undefined
  const close = (): void => setOpen(undefined)
  const tools = {
    at,
    plan,
    cant: () => setOpen(current === undefined || !hasWork(plan) ? 'leave' : 'cant'),
    more: () => setOpen('more'),
  }
  return (
    <StopToolsProvider tools={tools}>
      <section className="field-visit" aria-label={plan.stop.title}>
        <StopAccounts at={at} />
        <StopHead plan={plan} progress={progress} onBack={() => onGo(undefined)} />
        {!(draft.kept && day.kept) && (
          <Note kind="bad">
            This device has no room left to keep what is half typed. Finish each step before you leave it.
          </Note>
        )}
        {elsewhere !== undefined && (
          <Note kind="warn">
            {handWords(elsewhere)} is at this stop on another device. What you write here stands beside it.
          </Note>
        )}
        {visit?.finished !== undefined ? (
          <Finished progress={progress} onGo={onGo} />
        ) : !hasWork(plan) && open !== 'leave' ? (
          <Arrival />
        ) : (
          <>
            <Track
              done={plan.settled}
              of={plan.steps.length}
              label={`${plan.settled} of ${plan.steps.length} steps settled`}
            />
            {current === undefined || open === 'leave' ? (
              <FinishPart draft={draft} onBack={open === 'leave' ? close : undefined} />
            ) : (
              <StepBody key={current.key} step={current} draft={draft} day={day} />
            )}
          </>
        )}
        {open === 'cant' && current !== undefined && <CantDialog step={current} onClose={close} />}
        {open === 'more' && <MoreDialog onClose={close} onLeave={() => setOpen('leave')} />}
      </section>
    </StopToolsProvider>
  )
}

const hasWork = ({ visit }: VisitPlan): boolean =>
  visit !== undefined && (visit.started !== undefined || visit.samples.length > 0 || visit.readings.length > 0)

const isUnderWay = (plan: VisitPlan): boolean => hasWork(plan) && plan.visit?.finished === undefined

function StepBody(props: StepProps): ReactNode {
  const { quantity, step } = props.step
  if (quantity === 'hot-temperature' || quantity === 'cold-temperature') return <CurveStep {...props} />
  if (quantity !== undefined) return <ReadingStep {...props} />
  if (step.kind === 'label') return <LabelStep {...props} />
  if (step.kind === 'neutralize') return <NeutralizeStep {...props} />
  if (step.kind === 'run') return <RunStep {...props} />
  return <PlainStep {...props} />
}

function StopHead({
  plan,
  progress,
  onBack,
}: {
  readonly plan: VisitPlan
  readonly progress: RoundProgress
  readonly onBack: () => void
}): ReactNode {
  const { stop, addedBecause } = plan
  const underWay = isUnderWay(plan)
  const position = progress.stops.find((one) => one.stop.id === stop.id)?.position
  const where = [
    stop.floor === undefined ? undefined : `Floor ${stop.floor}`,
    stop.riser === undefined ? undefined : `riser ${stop.riser}`,
  ].filter((part) => part !== undefined)
  return (
    <header className="field-head">
      <div className="field-head-line">
        <h1>{stop.title}</h1>
        <Button kind="text" onPress={onBack} name={`stop ${position} of ${progress.stops.length}, all stops`}>
          stop {position} of {progress.stops.length}
        </Button>
      </div>
      <p className="quiet">
        {[where.join(', '), underWay ? '' : (addedBecause ?? stop.reasons[0]?.text ?? '')]
          .filter((part) => part !== '')
          .join(' · ')}
      </p>
    </header>
  )
}

/** Before the first step: what is to be taken here and why. */
function Arrival(): ReactNode {
  const { at, plan } = useStop()
  const writing = useWriting()
  const labelled = plan.stop.samples.filter(({ sampleKind }) => sampleKind !== 'readings-only')
  return (
    <>
      <div className="field-step">
        <div>
          <p className="quiet">
            {plan.steps.length} steps, about {Math.round(plan.stop.minutes)} min
          </p>
          <StepTitle>To take here</StepTitle>
        </div>
        <ul className="field-lines">
          {labelled.map(({ sampleKind, label }) => (
            <li key={label ?? sampleKind}>
              <span>{SAMPLE_KIND_WORDS[sampleKind]}</span>
              <span className="mono">{label ?? 'no label planned'}</span>
            </li>
          ))}
          {labelled.length === 0 && <li>readings only</li>}
        </ul>
        <ul className="field-why-list">
          {plan.stop.reasons.map((reason) => (
            <li key={reason.text}>
              <b>{reason.obligation}</b> {reason.text}
            </li>
          ))}
        </ul>
        <NotKept issues={writing.issues} />
      </div>
      <StepFoot
        busy={writing.busy}
        act={{ label: 'Start this stop', onPress: () => void writing.write('stop.started', at) }}
      />
    </>
  )
}

const OUTCOME_WORDS = { sampled: 'Sampled', partly: 'Partly sampled', 'not possible': 'Not possible' } as const

function Finished({
  progress,
  onGo,
}: {
  readonly progress: RoundProgress
  readonly onGo: (stop: string | undefined) => void
}): ReactNode {
  const { at, plan } = useStop()
  const { device } = useInvestigation()
  const next = nextStop(progress.stops, { after: at.stop, device })
  const left = progress.stops.some(({ state, stop }) => !isFinished(state) && stop.id !== at.stop)
  return (
    <>
      <div className="field-step">
        <div>
          <p className="quiet">Stop finished</p>
          <StepTitle>{OUTCOME_WORDS[plan.visit?.finished?.body.outcome ?? 'partly']}</StepTitle>
          {plan.visit?.finished?.body.reason !== undefined && (
            <p className="field-instruction">{plan.visit.finished.body.reason}</p>
          )}
        </div>
        <AtStop />
      </div>
      <div className="field-foot">
        {next === undefined ? (
          <Button kind="primary" size="big" onPress={() => onGo(undefined)}>
            {left ? 'What is left is under way elsewhere. See all stops' : 'The round is walked. See all stops'}
          </Button>
        ) : (
          <Button kind="primary" size="big" onPress={() => onGo(next.stop.id)}>
            Next: {next.stop.title}
          </Button>
        )}
        <div className="field-foot-row">
          <Button onPress={() => onGo(undefined)}>All stops</Button>
        </div>
      </div>
    </>
  )
}
