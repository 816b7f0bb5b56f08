import { counted } from '@rillmark/casebook/units/counted.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import { setsWithFollowUp } from '@rillmark/casebook/follow-up/criteria-of.ts'
import type { CriteriaSet } from '@rillmark/casebook/criteria/criteria-set.ts'
import { followUpSchedule } from '@rillmark/science/follow-up/schedule.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { DateField } from '../kit/DateField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { typedDateIssue } from '../kit/typed-date.ts'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'

/** Starts follow-up, or starts it again after renewed remediation: by which rule, from which day. */
export function StartForm({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write } = useWriting()
  const sets = setsWithFollowUp(state)
  const { started } = state.followUp
  const [picked, setPicked] = useState(() => started?.body.criteria ?? state.findings.criteria?.body.criteria ?? '')
  const [day, setDay] = useState(() => lastRemediation(state) ?? '')
  const [reason, setReason] = useState('')
  const set = sets.find(({ id }) => id === picked)
  const start = async (): Promise<void> => {
    const body = { remediationCompletedOn: day, criteria: set?.id ?? '', version: set?.version ?? '' }
    if (await write('follow-up.started', { ...body, ...given({ reason: textIn(reason) }) })) onClose()
  }
  return (
    <WritingDialog
      title={started === undefined ? 'Start follow-up' : 'Start again after remediation'}
      act={started === undefined ? 'Start' : 'Start again'}
      issues={issues}
      busy={busy}
      onWrite={start}
      onClose={onClose}
      size="wide"
    >
      <RadioRow
        label="Rule"
        stacked
        value={set?.id ?? ''}
        onChange={setPicked}
        choices={sets.map((each) => ({ id: each.id, label: ruleTitle(each), hint: ` ${ruleSource(each)}` }))}
      />
      <DateField
        label="Remediation completed on"
        hint="The rounds are counted from this day."
        width="medium"
        value={day}
        onChange={setDay}
        required
      />
      <Preview set={set} day={day} />
      <TextArea label="Reason or remark" value={reason} onChange={setReason} rows={2} />
    </WritingDialog>
  )
}

/** The rule by its jurisdiction and its title. */
export const ruleTitle = ({ jurisdiction, followUp }: CriteriaSet): string =>
  `${jurisdiction}: ${followUp?.title ?? ''}`

/** Where the rule is from and how it is known. */
export function ruleSource({ followUp }: CriteriaSet): string {
  if (followUp === undefined) return ''
  const known = followUp.known === 'memory' ? 'from memory, verify before use' : followUp.known
  return `${followUp.source} (${known}).${followUp.note === undefined ? '' : ` ${followUp.note}`}`
}

function Preview({ set, day }: { readonly set: CriteriaSet | undefined; readonly day: string }): ReactNode {
  const rule = set?.followUp?.rule
  if (rule === undefined || day === '' || typedDateIssue(day) !== undefined) return null
  const { rounds, closing } = followUpSchedule({ rule, remediationCompletedOn: day })
  return (
    <p className="quiet">
      {counted(rounds.length, 'round')}, the first due on {rounds[0]?.dueOn}; closing on {closing.earliestOn} at the
      earliest.
    </p>
  )
}

/** The day the last remediation was completed, as far as Control knows. */
function lastRemediation({ control }: InvestigationState): string | undefined {
  return [...control.measures.values()]
    .filter(({ ordered, completed }) => ordered.body.stage === 'remediation' && completed?.body.outcome !== 'dropped')
    .flatMap(({ completed }) => completed?.body.completedOn ?? [])
    .sort()
    .at(-1)
}
