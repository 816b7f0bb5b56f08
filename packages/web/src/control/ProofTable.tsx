import type { MeasureView } from '@rillmark/casebook/control/control-view.ts'
import type { PlaceProof } from '@rillmark/casebook/control/measure-progress.ts'
import { proofWord } from '@rillmark/casebook/control/proof-words.ts'
import { shortOf } from '@rillmark/casebook/control/target-reached.ts'
import { type Amount, amountWords } from '@rillmark/casebook/control/target-words.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Tag } from '../kit/Tag.tsx'
import { TextField } from '../kit/TextField.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { instantIn, numberIn } from '../store/typed-values.ts'
import { useWriting } from '../store/use-writing.ts'
import { localInstant } from '../store/local-time.ts'

/** What is the same for a walk along the outlets: who measures, and when, where it is not now. */
interface Walk {
  readonly by: string
  readonly at: string
}

/** The proof at each place of a measure: what was reached, and a quick line to type what is measured now. */
export function ProofTable({ view, open }: { readonly view: MeasureView; readonly open: boolean }): ReactNode {
  const [walk, setWalk] = useState<Walk>({ by: view.measure.ordered.body.owner, at: '' })
  const { issues, write, object } = useWriting()
  const record = async (proof: Measured): Promise<boolean> => {
    const body = proofOf(view, { walk, proof })
    if ('issues' in body) {
      object(body.issues)
      return false
    }
    return write('measure.achieved', body)
  }
  const places: readonly PlaceProof[] =
    view.places.length > 0 ? view.places : [{ component: '', proof: view.measure.proofs.at(-1), reached: false }]
  return (
    <div className="stack">
      {open && (
        <FormRow>
          <TextField label="Measured by" value={walk.by} onChange={(by) => setWalk({ ...walk, by })} required />
          <DateTimeField
            label="When"
            hint="Leave empty for now."
            value={walk.at}
            onChange={(at) => setWalk({ ...walk, at })}
          />
        </FormRow>
      )}
      <ProblemList problems={issues} />
      <ul className="proofs" aria-label="Proof at each place">
        {places.map((place) => (
          <ProofLine key={place.component} place={place} view={view} open={open} onRecord={record} />
        ))}
      </ul>
    </div>
  )
}

interface Measured {
  readonly component: string
  readonly value: string
  readonly minutes: string
}

function ProofLine(props: {
  readonly place: PlaceProof
  readonly view: MeasureView
  readonly open: boolean
  readonly onRecord: (proof: Measured) => Promise<boolean>
}): ReactNode {
  const { place, view, open, onRecord } = props
  const { target } = view.measure.ordered.body
  const [value, setValue] = useState('')
  const [minutes, setMinutes] = useState(target?.minutes === undefined ? '' : String(target.minutes))
  const name = place.component === '' ? view.measure.ordered.body.where : view.nameOf(place.component)
  const record = async (): Promise<void> => {
    if (await onRecord({ component: place.component, value, minutes })) setValue('')
  }
  return (
    <li className="proof">
      <span className="proof-place">{name}</span>
      <ProofSaid place={place} view={view} />
      {open && (
        <div className="proof-entry">
          {target !== undefined && (
            <QuantityField
              label={`${target.quantity} at ${name}`}
              labelHidden
              unit={target.unit}
              value={value}
              onChange={setValue}
              width="narrow"
            />
          )}
          {target?.minutes !== undefined && (
            <QuantityField
              label={`held at ${name}`}
              labelHidden
              unit="min"
              value={minutes}
              onChange={setMinutes}
              width="narrow"
            />
          )}
          <Button
            name={`${target === undefined ? 'Done here' : 'Record'}: ${name}`}
            onPress={() => void record()}
            disabled={target !== undefined && value.trim() === ''}
          >
            {target === undefined ? 'Done here' : 'Record'}
          </Button>
        </div>
      )}
    </li>
  )
}

function ProofSaid({ place: { proof }, view }: { readonly place: PlaceProof; readonly view: MeasureView }): ReactNode {
  const { units } = usePreferences()
  if (proof === undefined)
    return (
      <Tag shape="open" kind="faint">
        not yet
      </Tag>
    )
  const { achieved, reached, at, by } = proof.body
  const words = [achieved === undefined ? undefined : amountWords(achieved, units), proofWord(view.measure, proof)]
  return (
    <span className="proof-said">
      <Tag shape={reached ? 'check' : 'cross'} kind={reached ? 'accent' : 'bad'}>
        {words.filter((word) => word !== undefined).join(', ')}
      </Tag>
      <span className="faint">
        {wallClock({ instant: at, offset: proof.offset })}, {by}
      </span>
    </span>
  )
}

/** A proof as the record keeps it. Whether the target was reached follows from what was measured, it is not ticked. */
function proofOf(
  view: MeasureView,
  { walk, proof }: { walk: Walk; proof: Measured },
): Parameters<typeof bodyOf>[0] | { issues: Issue[] } {
  const { target } = view.measure.ordered.body
  const at = walk.at === '' ? localInstant().instant : instantIn(walk.at)
  if (at === undefined)
    return { issues: [issue('when', { expected: 'a date and a time of day', received: walk.at.replace('T', ' ') })] }
  const common = {
    measure: view.id,
    at,
    by: walk.by,
    ...(proof.component === '' ? {} : { component: proof.component }),
  }
  if (target === undefined) return bodyOf({ ...common, reached: true })
  const value = numberIn(proof.value)
  const minutes = numberIn(proof.minutes)
  if (value === undefined) return { issues: [issue('measured', { expected: 'a number', received: proof.value })] }
  const achieved: Amount = {
    quantity: target.quantity,
    value,
    unit: target.unit,
    ...(target.minutes === undefined || minutes === undefined ? {} : { minutes }),
  }
  return bodyOf({ ...common, achieved, reached: shortOf(target, achieved) === undefined })
}

const bodyOf = (body: {
  measure: string
  at: string
  by: string
  component?: string
  achieved?: Amount
  reached: boolean
}) => body
