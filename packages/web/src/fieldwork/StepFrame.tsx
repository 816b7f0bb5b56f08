import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { GuidedStep } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { figureText } from '@rillmark/casebook/units/figure.ts'
import { taskKind } from '@rillmark/casebook/fieldwork/guided-steps.ts'
import type { MouseEvent, ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Note } from '../kit/Note.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { NotKept, useStop, useWriting, type Writing } from './stop-tools.tsx'
import { StepTitle } from './StepTitle.tsx'

export interface Act {
  readonly label: string
  readonly onPress: () => void
  readonly disabled?: boolean | undefined
}

export interface StepFrameProps {
  readonly step: GuidedStep
  readonly children?: ReactNode
  /** the act is under way and its instruction was read: the room goes to what is measured */
  readonly underWay?: boolean | undefined
  readonly writing: Writing
  /** the one big thing to press */
  readonly act: Act
  /** a second way on, beside "Can't do this" */
  readonly other?: Act | undefined
}

/** One step: its kind and place in the row, title, instruction, what is particular to it, its caution, and the acts at the thumb. */
export function StepFrame(props: StepFrameProps): ReactNode {
  const { step, writing } = props
  const { plan } = useStop()
  const number = plan.steps.findIndex(({ key }) => key === step.key) + 1
  return (
    <>
      <div className="field-step" data-still="head">
        <div>
          <p className="quiet">
            Step {number} of {plan.steps.length} · {taskKind(step)}
          </p>
          <StepTitle>{step.title}</StepTitle>
          {props.underWay !== true && <p className="field-instruction">{step.step.instruction}</p>}
        </div>
        <Figures step={step} />
        {props.children}
        <Refused step={step} />
        <NotKept issues={writing.issues} />
        {step.step.caution !== undefined && <Caution>{step.step.caution.text}</Caution>}
      </div>
      <StepFoot act={props.act} other={props.other} busy={writing.busy} />
    </>
  )
}

function Figures({ step: { step, sample, quantity } }: { readonly step: GuidedStep }): ReactNode {
  if (quantity !== undefined) return null
  const figures = [
    step.volume !== undefined && ['Volume', figureText(step.volume)],
    step.headspace !== undefined && ['Air left', figureText(step.headspace)],
    step.dose !== undefined && ['Dose', figureText(step.dose)],
    sample?.label !== undefined &&
      step.kind !== 'label' && ['For', `${sample.label}, ${SAMPLE_KIND_WORDS[sample.sampleKind]}`],
  ].filter((one) => one !== false)
  if (figures.length === 0) return null
  return (
    <dl className="field-figures">
      {figures.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

/** What the record would refuse now, and the one way on: saying so. */
function Refused({ step }: { readonly step: GuidedStep }): ReactNode {
  const { at } = useStop()
  const { write, busy, issues } = useWriting()
  if (step.refused === undefined) return null
  return (
    <div className="stack">
      <Note kind="warn">
        This step comes too {step.quantity === 'hot-temperature' ? 'early' : 'late'}: {step.refused}.
      </Note>
      <NotKept issues={issues} />
      <Button
        busy={busy}
        onPress={() =>
          void write('deviation.recorded', {
            ...at,
            step: step.name,
            procedure: step.procedure,
            reason: 'out of order',
            text: step.refused,
          })
        }
      >
        Record “out of order” and go on
      </Button>
    </div>
  )
}

/** The acts at the foot of the screen: one big, two beside each other, and where the entries are. */
export function StepFoot({
  act,
  other,
  busy,
}: {
  readonly act: Act
  readonly other?: Act | undefined
  readonly busy: boolean
}): ReactNode {
  const { sync } = useInvestigation()
  const { cant, more } = useStop()
  return (
    <div className="field-foot" data-still="blank">
      <div className="field-act" onClickCapture={onceInATap}>
        <Button kind="primary" size="big" disabled={act.disabled} busy={busy} onPress={act.onPress}>
          {act.label}
        </Button>
      </div>
      <div className="field-foot-row">
        <Button onPress={cant}>Can’t do this</Button>
        {other !== undefined && (
          <Button onPress={other.onPress} disabled={other.disabled}>
            {other.label}
          </Button>
        )}
        <Button onPress={more}>More</Button>
      </div>
      <p className="field-sync">{sync.words}</p>
    </div>
  )
}

/** The second tap of a double tap would settle the step that has come up under the thumb, unread. The browser counts the taps. */
function onceInATap(event: MouseEvent): void {
  if (event.detail < 2) return
  event.preventDefault()
  event.stopPropagation()
}
