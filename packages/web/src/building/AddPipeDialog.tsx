import type { Circuit, KnownBy, Pipe, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { CIRCUITS, pipeSchema } from '@rillmark/casebook/building/water-system.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { KnownChoice } from './KnownTag.tsx'
import { PartChoice } from './PartChoice.tsx'
import { useEdit } from './use-edit.ts'
import { circuitWord } from './words.ts'

/** Joins two parts by a pipe. */
export function AddPipeDialog(props: {
  readonly system: WaterSystem
  readonly from: string
  readonly onClose: () => void
}): ReactNode {
  const { system, onClose } = props
  const edit = useEdit()
  const [from, setFrom] = useState(props.from)
  const [to, setTo] = useState('')
  const [circuit, setCircuit] = useState<Circuit | ''>('')
  const [length, setLength] = useState('')
  const [bore, setBore] = useState('')
  const [known, setKnown] = useState<KnownBy | ''>('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const add = async (): Promise<void> => {
    const read = pipeOf({ system, from, to, circuit, lengthM: typed(length), boreMm: typed(bore), known })
    if (!read.ok) return setIssues(read.issues)
    const refused = await edit({ changes: [{ change: 'put-pipe', pipe: read.value }], said: 'Pipe added.' })
    setIssues(refused)
    if (refused.length === 0) onClose()
  }
  return (
    <Dialog
      title="Add a pipe"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" disabled={to === '' || circuit === '' || known === ''} onPress={() => void add()}>
            Add the pipe
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <PartChoice label="From" system={system} value={from} onChange={setFrom} required width="full" />
        <PartChoice label="To" system={system} value={to} onChange={setTo} required width="full" />
        <RadioRow
          label="Water in it"
          value={circuit}
          onChange={setCircuit}
          choices={CIRCUITS.map((id) => ({ id, label: circuitWord(id) }))}
        />
        <FormRow>
          <QuantityField label="Length" unit="m" value={length} onChange={setLength} min={0} required />
          <QuantityField label="Bore" unit="mm" value={bore} onChange={setBore} min={0} />
        </FormRow>
        <KnownChoice label="How do you know it?" value={known} onChange={setKnown} />
        <ProblemList problems={issues} />
      </div>
    </Dialog>
  )
}

function typed(text: string): number | string | undefined {
  const read = readTypedQuantity(text)
  return read.kind === 'number' ? read.value : read.kind === 'empty' ? undefined : text
}

function pipeOf({ system, known, ...facts }: Record<string, unknown> & { system: WaterSystem; known: KnownBy | '' }) {
  const stated = Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined))
  const base = `${String(facts['circuit'])}-${String(facts['from'])}-to-${String(facts['to'])}`.slice(0, 76)
  const taken = new Set(system.pipes.map((pipe: Pipe) => pipe.id))
  const id = taken.has(base) ? `${base}-${taken.size}` : base
  return parseWith(pipeSchema, { id, ...stated, provenance: { default: known } })
}
