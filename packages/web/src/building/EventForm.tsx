import { BUILDING_KINDS } from '@rillmark/casebook/building/kinds.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { Recorded } from './ChangesAside.tsx'
import { nameIn, partChoice } from './words.ts'

type Body = BodyOf<'history.recorded'>
const WHATS = BUILDING_KINDS['history.recorded'].body.shape.what.options
const SHOWN_PLACES = 30

/** One change: when, what, and where, picked on the drawing or by name. */
export function EventForm(props: {
  readonly system: WaterSystem
  readonly amends: Recorded | undefined
  readonly picked: ReadonlySet<string>
  readonly onPick: (picked: ReadonlySet<string>) => void
  readonly onClose: () => void
}): ReactNode {
  const { system, amends, picked, onPick, onClose } = props
  const { propose } = useInvestigation()
  const [on, setOn] = useState(amends?.body.on ?? '')
  const [until, setUntil] = useState(amends?.body.until ?? '')
  const [what, setWhat] = useState<Body['what'] | ''>(amends?.body.what ?? '')
  const [text, setText] = useState(amends?.body.text ?? '')
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])

  const record = async (): Promise<void> => {
    const given = { on, what, text, components: [...picked], ...(until === '' ? {} : { until }) }
    // What is still missing is named by the record's own check.
    const proposed = await propose(
      'history.recorded',
      given as Body,
      amends === undefined ? {} : { corrects: { entry: amends.id, reason } },
    )
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }

  return (
    <div className="form">
      <PageHead
        title={amends === undefined ? 'Record a change' : 'Amend a change'}
        name="What changed lately · Building"
        lead="Tap the places on the drawing, or find them by name. None means the whole building."
      />
      <ProblemList problems={issues.map((one) => ({ ...one, path: one.path.replace(/^body\./, '') }))} />
      <FormRow>
        <DateField label="On" value={on} onChange={setOn} required />
        <DateField label="Until, if it lasted" value={until} onChange={setUntil} />
        <Select
          label="What"
          value={what}
          onChange={setWhat}
          choices={WHATS.map((id) => ({ id, label: id }))}
          required
          width="narrow"
        />
      </FormRow>
      <TextArea
        label="What happened"
        hint="What was done or seen, and who says so, by role."
        value={text}
        onChange={setText}
        required
      />
      <Places system={system} picked={picked} onPick={onPick} />
      {amends !== undefined && (
        <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
      )}
      <ButtonRow>
        <Button kind="primary" onPress={() => void record()}>
          Record
        </Button>
        <Button onPress={onClose}>Cancel</Button>
      </ButtonRow>
    </div>
  )
}

function Places(props: {
  readonly system: WaterSystem
  readonly picked: ReadonlySet<string>
  readonly onPick: (picked: ReadonlySet<string>) => void
}): ReactNode {
  const { system, picked, onPick } = props
  const [typed, setTyped] = useState('')
  const choices = useMemo(() => placeChoices(system), [system])
  const drop = (id: string): void => onPick(new Set([...picked].filter((one) => one !== id)))
  const shown = [...picked].slice(0, SHOWN_PLACES)
  return (
    <fieldset className="joints">
      <legend>{picked.size === 0 ? 'Places: the whole building' : counted(picked.size, 'place')}</legend>
      <ul className="picked">
        {shown.map((id) => (
          <li key={id}>
            {nameIn(system, id)}{' '}
            <Button kind="text" name={`Leave ${nameIn(system, id)} out`} onPress={() => drop(id)}>
              leave out
            </Button>
          </li>
        ))}
      </ul>
      {picked.size > shown.length && <p className="quiet">and {picked.size - shown.length} more</p>}
      <ComboBox
        label="Add a place"
        value={typed}
        onChange={setTyped}
        onChoose={(id) => {
          onPick(new Set([...picked, ...idsOf(system, id)]))
          setTyped('')
        }}
        choices={choices}
        placeholder="a name, a riser, a floor"
        width="full"
      />
    </fieldset>
  )
}

const RISER = 'riser:'
const FLOOR = 'floor:'

/** Whole risers and floors first, then every part but junctions. */
function placeChoices({ components }: WaterSystem) {
  const outlets = components.filter(isOutlet)
  const risers = [...new Set(outlets.flatMap(({ riser }) => riser ?? []))].sort()
  const floors = [...new Set(outlets.flatMap(({ floor }) => floor ?? []))].sort((a, b) => a - b)
  return [
    ...risers.map((riser) => ({ id: `${RISER}${riser}`, label: `every outlet of riser ${riser}` })),
    ...floors.map((floor) => ({ id: `${FLOOR}${floor}`, label: `every outlet of floor ${floor}` })),
    ...components.filter(({ kind }) => kind !== 'junction').map(partChoice),
  ]
}

function idsOf({ components }: WaterSystem, choice: string): string[] {
  const outlets = components.filter(isOutlet)
  if (choice.startsWith(RISER))
    return outlets.filter(({ riser }) => riser === choice.slice(RISER.length)).map(({ id }) => id)
  if (choice.startsWith(FLOOR))
    return outlets.filter(({ floor }) => String(floor) === choice.slice(FLOOR.length)).map(({ id }) => id)
  return [choice]
}
