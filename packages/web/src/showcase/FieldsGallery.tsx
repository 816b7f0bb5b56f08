import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { DateTimeField } from '../kit/DateTimeField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Menu } from '../kit/Menu.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'

const PLACES = ['101 shower', '101 basin tap', '304 shower', '504 basin tap', '604 shower'].map((label) => ({
  id: label,
  label,
  hint: `floor ${label[0] ?? ''}`,
}))
const CIRCUITS = [
  { id: 'hot', label: 'hot' },
  { id: 'cold', label: 'cold' },
  { id: 'mixed', label: 'mixed', hint: 'after a mixing valve' },
] as const

export function FieldsGallery(): ReactNode {
  const [text, setText] = useState('Room 304')
  const [typed, setTyped] = useState('44,6')
  const [wrong, setWrong] = useState('1.250,5')
  const [circuit, setCircuit] = useState<(typeof CIRCUITS)[number]['id'] | ''>('')
  const [place, setPlace] = useState('')
  const [date, setDate] = useState('2026-03-14')
  const [moment, setMoment] = useState('2026-03-14T09:40')
  const [yes, setYes] = useState(true)
  return (
    <>
      <Acts />
      <Section title="Fields">
        <div className="form">
          <FormRow>
            <TextField label="Place" value={text} onChange={setText} hint="As the facility calls it." />
            <ComboBox
              label="Outlet"
              value={place}
              onChange={setPlace}
              choices={PLACES}
              free
              placeholder="type to narrow"
            />
            <Select label="Circuit" value={circuit} onChange={setCircuit} choices={CIRCUITS} required />
          </FormRow>
          <FormRow>
            <NumberField label="Hot reading" unit="°C" value={typed} onChange={setTyped} min={0} max={100} />
            <NumberField
              label="Volume"
              unit="mL"
              value={wrong}
              onChange={setWrong}
              issue="Type the number without marks between thousands, for example 1250 or 1250.5."
            />
            <DateField label="Onset" value={date} onChange={setDate} />
            <DateTimeField label="Collected" value={moment} onChange={setMoment} />
          </FormRow>
          <RadioRow label="Water" value={circuit} onChange={setCircuit} choices={CIRCUITS} />
          <CheckboxField
            label="Aerator removed before the swab"
            checked={yes}
            onChange={setYes}
            hint="Put it back afterwards."
          />
          <TextArea
            label="Notes"
            value=""
            onChange={() => undefined}
            placeholder="What a reader of the record should know"
          />
          <FileDrop label="the laboratory's file" hint="CSV or XLSX, up to 20 MB" onFiles={() => undefined} />
        </div>
      </Section>
    </>
  )
}

function Acts(): ReactNode {
  const [open, setOpen] = useState(false)
  const toasts = useToasts()
  return (
    <Section title="Acts" aside="one primary act on a screen">
      <ButtonRow>
        <Button kind="primary" onPress={() => setOpen(true)}>
          Adopt the plan
        </Button>
        <Button onPress={() => toasts.say('Stop 7 was left out.', { undo: () => undefined })}>Leave out</Button>
        <Button kind="danger">Withdraw the entry</Button>
        <Button disabled>Not possible now</Button>
        <Button kind="text">Show the working</Button>
        <Menu
          label="Print"
          items={[
            { id: 'labels', label: 'Labels', hint: 'PDF' },
            { id: 'sheets', label: 'Run sheets', hint: 'PDF' },
          ]}
          onChoose={(id) => toasts.say(`Made the ${id}.`)}
        />
      </ButtonRow>
      <Dialog
        title="Adopt this plan?"
        open={open}
        onClose={() => setOpen(false)}
        actions={
          <>
            <Button kind="primary" onPress={() => setOpen(false)}>
              Adopt
            </Button>
            <Button onPress={() => setOpen(false)}>Go on planning</Button>
          </>
        }
      >
        <p>
          22 stops, 31 samples. Labels are numbered when the plan is adopted; a later change is an amendment with a
          reason.
        </p>
      </Dialog>
    </Section>
  )
}
