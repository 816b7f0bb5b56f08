import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { labelLetters, labelPlan, labelsTaken } from '@rillmark/casebook/plan/label-plan.ts'
import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import { nextRound } from '@rillmark/casebook/plan/plan-input-from-state.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

const PURPOSES = [
  { id: 'follow-up', label: 'follow-up', hint: 'after remediation, by the follow-up rule' },
  { id: 'extra', label: 'extra', hint: 'more points before anything is treated' },
] as const

/** Adopts the plan as the next round: labels are counted up and the plan becomes an entry. */
export function AdoptDialog(props: {
  readonly plan: Plan
  readonly onClose: () => void
  readonly onAdopted: (round: string) => void
}): ReactNode {
  const { state, propose } = useInvestigation()
  const round = nextRound(state)
  const [purpose, setPurpose] = useState<'follow-up' | 'extra'>('follow-up')
  const [scheduledOn, setScheduledOn] = useState('')
  const [names, setNames] = useState<readonly string[]>([])
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const teams = Math.max(1, ...props.plan.stops.map(({ team }) => team ?? 1))

  const adopt = async (): Promise<void> => {
    const taken = labelsTaken(state)
    const letters = labelLetters({ title: state.brief.opened?.body.title ?? state.investigation, taken })
    const plan = labelPlan({ plan: props.plan, taken, letters })
    const named = Array.from({ length: teams }, (_, at) => names[at]?.trim() || `Team ${at + 1}`)
    const proposed = await propose('plan.adopted', {
      round,
      purpose: round === 'R1' ? 'initial' : purpose,
      ...(scheduledOn === '' ? {} : { scheduledOn }),
      teams: named,
      plan,
    })
    if (proposed.ok) props.onAdopted(round)
    else setIssues(proposed.issues)
  }

  return (
    <Dialog
      title={`Adopt as round ${round}`}
      open
      onClose={props.onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" onPress={() => void adopt()}>
            Adopt and number the labels
          </Button>
          <Button onPress={props.onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        <p>
          {props.plan.totals.samples} labels are numbered in walking order. The plan becomes an entry of the record; a
          change after that is an amendment with a reason.
        </p>
        {round !== 'R1' && (
          <RadioRow label="Purpose" value={purpose} onChange={setPurpose} choices={PURPOSES} stacked />
        )}
        <DateField
          label="Planned for"
          hint="Leave empty while not known."
          value={scheduledOn}
          onChange={setScheduledOn}
        />
        <TeamNames teams={teams} names={names} onChange={setNames} />
      </div>
    </Dialog>
  )
}

export function TeamNames(props: {
  readonly teams: number
  readonly names: readonly string[]
  readonly onChange: (names: readonly string[]) => void
}): ReactNode {
  const { teams, names, onChange } = props
  const named = (at: number, name: string): string[] =>
    Array.from({ length: teams }, (_, index) => (index === at ? name : (names[index] ?? '')))
  return (
    <FormRow>
      {Array.from({ length: teams }, (_, at) => (
        <TextField
          key={`team-${at + 1}`}
          label={`Name of team ${at + 1}`}
          value={names[at] ?? ''}
          onChange={(name) => onChange(named(at, name))}
          width="medium"
        />
      ))}
    </FormRow>
  )
}
