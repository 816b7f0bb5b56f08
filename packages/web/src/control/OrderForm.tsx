import { given } from '@rillmark/casebook/entry/given.ts'
import { MEASURES } from '@rillmark/casebook/control/kinds.ts'
import { STAGES, type Stage } from '@rillmark/casebook/control/control-view.ts'
import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import { referenceFor } from '@rillmark/casebook/control/reference-measures.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { Split } from '../kit/Split.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { textIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import type { RecordedCalculation } from './recorded-calculation.ts'
import { CalculationPart } from './CalculationPart.tsx'
import { NO_TARGET, type TargetDraft, targetOf, usualStage } from './measure-draft.ts'
import { PlacePicker } from './PlacePicker.tsx'
import { TargetFields } from './TargetFields.tsx'

interface OrderDraft {
  readonly measure: MeasureKind
  readonly stage: Stage
  readonly where: string
  readonly owner: string
  readonly dueOn: string
  readonly notes: string
  readonly target: TargetDraft
  readonly calculation: RecordedCalculation | undefined
}

const FIRST: OrderDraft = {
  measure: 'restrict use',
  stage: 'immediate',
  where: '',
  owner: '',
  dueOn: '',
  notes: '',
  target: NO_TARGET,
  calculation: undefined,
}

/** Orders a measure: what, where, to what target, by whom and when. */
export function OrderForm(props: { readonly onDone: (id?: string) => void }): ReactNode {
  const { state, propose } = useInvestigation()
  const { issues, busy, object } = useWriting()
  const [draft, setDraft] = useState(FIRST)
  const [picked, setPicked] = useState<ReadonlySet<string>>(new Set())
  const { system } = state.building
  const order = async (): Promise<void> => {
    const target = targetOf(draft.target)
    if ('issues' in target) return object(target.issues)
    const { measure, stage, where, owner } = draft
    const more = given({
      dueOn: textIn(draft.dueOn),
      notes: textIn(draft.notes),
      calculation: draft.calculation,
      ...target,
    })
    const proposed = await propose('measure.ordered', {
      measure,
      stage,
      where,
      owner,
      components: [...picked],
      ...more,
    })
    if (proposed.ok) props.onDone(proposed.entry.id)
    else object(proposed.issues)
  }
  const form = (
    <div className="stack">
      <PageHead title="Order a measure" lead="What, where, to what target, by whom and when." />
      <ProblemList problems={issues} />
      <OrderFields draft={draft} onChange={setDraft} />
      <ButtonRow>
        <Button kind="primary" busy={busy} onPress={() => void order()}>
          Order it
        </Button>
        <Button onPress={() => props.onDone()}>Cancel</Button>
      </ButtonRow>
    </div>
  )
  return (
    <Split
      asideLabel="Where"
      aside={
        system === undefined ? (
          <p className="quiet">Describe the building to pick places; until then a measure says where in words only.</p>
        ) : (
          <PlacePicker system={system} picked={picked} onPick={setPicked} />
        )
      }
    >
      {form}
    </Split>
  )
}

function OrderFields(props: { readonly draft: OrderDraft; readonly onChange: (draft: OrderDraft) => void }): ReactNode {
  const { draft } = props
  const set = (change: Partial<OrderDraft>): void => props.onChange({ ...draft, ...change })
  const choose = (measure: MeasureKind): void =>
    set({
      measure,
      stage: usualStage(measure),
      calculation: undefined,
      target: { ...NO_TARGET, from: referenceFor(measure).targets.length > 0 ? '' : 'none' },
    })
  const target = targetOf(draft.target)
  return (
    <div className="form">
      <FormRow>
        <Select
          label="Measure"
          value={draft.measure}
          onChange={choose}
          choices={MEASURES.map((id) => ({ id, label: id }))}
        />
        <RadioRow
          label="Stage"
          value={draft.stage}
          onChange={(stage) => set({ stage })}
          choices={STAGES.map((id) => ({ id, label: id }))}
        />
      </FormRow>
      <TargetFields measure={draft.measure} target={draft.target} onChange={(next) => set({ target: next })} />
      <TextField
        label="Where, in words"
        hint="For example: showers on riser C. Pick the places themselves beside or below."
        value={draft.where}
        onChange={(where) => set({ where })}
        required
        width="full"
      />
      <FormRow>
        <TextField label="Who does it" value={draft.owner} onChange={(owner) => set({ owner })} required />
        <DateField label="By when" value={draft.dueOn} onChange={(dueOn) => set({ dueOn })} />
      </FormRow>
      <CalculationPart
        key={draft.measure}
        measure={draft.measure}
        target={'issues' in target ? undefined : target.target}
        recorded={draft.calculation}
        onRecord={(calculation) => set({ calculation })}
      />
      <TextArea label="Notes" value={draft.notes} onChange={(notes) => set({ notes })} />
    </div>
  )
}
