import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { type AmendedPlan, withoutStop, withPoint } from '@rillmark/casebook/plan/amend-plan.ts'
import { labelLetters, labelsTaken } from '@rillmark/casebook/plan/label-plan.ts'
import { preparePlan } from '@rillmark/casebook/plan/make-plan.ts'
import type { Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { planInputFrom } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import type { AskedPoint } from '@rillmark/casebook/plan/plan-input.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { TeamNames } from './AdoptDialog.tsx'
import { PointDialog } from './PointDialog.tsx'

type Adopted = EffectiveEntry<'plan.adopted'>

/** What is to be changed in an adopted round. */
export type Asking =
  | { readonly kind: 'add' }
  | { readonly kind: 'facts' }
  | { readonly kind: 'take out'; readonly stop: Stop }

export interface AmendRoundProps {
  readonly adopted: Adopted
  readonly system: WaterSystem
  readonly asking: Asking
  readonly onClose: () => void
}

/** Changes an adopted round: always an amendment with a reason, never touching a label already printed. */
export function AmendRound({ adopted, system, asking, onClose }: AmendRoundProps): ReactNode {
  const { state, propose } = useInvestigation()
  const { say } = useToasts()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const amend = async (change: Partial<BodyOf<'plan.adopted'>>, reason: string): Promise<void> => {
    const proposed = await propose(
      'plan.adopted',
      { ...adopted.body, ...change },
      { corrects: { entry: adopted.id, reason } },
    )
    if (!proposed.ok) return setIssues(proposed.issues)
    say(`Round ${adopted.body.round} is amended; both versions stay in the record.`)
    onClose()
  }
  const changePoints = (point: AskedPoint): void => {
    const given = amended(state, adopted)
    if (given === undefined) return
    const plan =
      asking.kind === 'take out'
        ? withoutStop(given, { stop: asking.stop.id, why: point.text })
        : added(state, { given, point })
    if (plan === adopted.body.plan)
      setIssues([{ path: 'point', expected: 'a point not yet in the plan', received: point.component }])
    else void amend({ plan }, point.text)
  }
  if (asking.kind === 'facts') return <FactsDialog adopted={adopted} issues={issues} onSave={amend} onClose={onClose} />
  const takesOut = asking.kind === 'take out'
  return (
    <PointDialog
      title={takesOut ? `Take out ${asking.stop.title}` : 'Add a point'}
      act={takesOut ? 'Take out' : 'Add'}
      hint={
        takesOut
          ? 'Why it is not sampled. Its labels are not used for anything else.'
          : 'Why it is worth a sample. It goes to the end, with new labels.'
      }
      point={takesOut ? { component: asking.stop.component ?? asking.stop.id, title: asking.stop.title } : undefined}
      components={system.components}
      issues={issues}
      onDone={changePoints}
      onClose={onClose}
    />
  )
}

function amended(state: InvestigationState, { body: { plan } }: Adopted): AmendedPlan | undefined {
  const input = planInputFrom(state, { budget: plan.budget })
  return input === undefined ? undefined : { plan, prepared: preparePlan(input) }
}

function added(state: InvestigationState, { given, point }: { given: AmendedPlan; point: AskedPoint }) {
  const taken = labelsTaken(state)
  const letters = labelLetters({ title: state.brief.opened?.body.title ?? state.investigation, taken })
  return withPoint(given, { point, taken, letters })
}

interface FactsProps {
  readonly adopted: Adopted
  readonly issues: readonly Issue[]
  readonly onSave: (change: Partial<BodyOf<'plan.adopted'>>, reason: string) => Promise<void>
  readonly onClose: () => void
}

function FactsDialog({ adopted, issues, onSave, onClose }: FactsProps): ReactNode {
  const { plan, round } = adopted.body
  const teams = Math.max(1, ...plan.stops.map(({ team }) => team ?? 1))
  const [scheduledOn, setScheduledOn] = useState(adopted.body.scheduledOn ?? '')
  const [names, setNames] = useState<readonly string[]>(adopted.body.teams)
  const [reason, setReason] = useState('')
  const save = (): void => {
    const named = Array.from({ length: teams }, (_, at) => names[at]?.trim() || `Team ${at + 1}`)
    void onSave({ teams: named, scheduledOn: scheduledOn === '' ? undefined : scheduledOn }, reason)
  }
  return (
    <Dialog
      title={`Amend round ${round}`}
      open
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" onPress={save}>
            Amend
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        <DateField label="Planned for" value={scheduledOn} onChange={setScheduledOn} />
        <TeamNames teams={teams} names={names} onChange={setNames} />
        <TextField
          label="Reason"
          hint="Why it changes; it stays in the record."
          value={reason}
          onChange={setReason}
          required
          width="full"
        />
      </div>
    </Dialog>
  )
}
