import type { Issue } from '@rillmark/casebook/entry/issue.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { knownSamples } from '@rillmark/casebook/results/known-samples.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'

const FIELDS = ['serogroup', 'monoclonalType', 'sequenceType', 'laboratory', 'keptUntil'] as const

/** A strain recovered from a case or a sample, with as much typing as was done. */
export function IsolateDialog({
  amends,
  onClose,
}: {
  readonly amends?: EffectiveEntry<'isolate.recorded'> | undefined
  readonly onClose: () => void
}): ReactNode {
  const { state, propose } = useInvestigation()
  const [code, setCode] = useState(amends?.body.code ?? '')
  const [origin, setOrigin] = useState<'case' | 'sample'>(amends?.body.from.origin ?? 'sample')
  const [of, setOf] = useState(
    amends === undefined ? '' : amends.body.from.origin === 'case' ? amends.body.from.caseCode : amends.body.from.label,
  )
  const [species, setSpecies] = useState(amends?.body.species ?? '')
  const [typing, setTyping] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(FIELDS.map((field) => [field, amends?.body[field] ?? ''])),
  )
  const [reason, setReason] = useState('')
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const choices = (origin === 'case' ? [...state.cases.cases.keys()] : [...knownSamples(state).keys()]).map((id) => ({
    id,
    label: id,
  }))
  const set = (change: Readonly<Record<string, string>>): void => setTyping({ ...typing, ...change })
  const save = async (): Promise<void> => {
    const from: BodyOf<'isolate.recorded'>['from'] =
      origin === 'case' ? { origin, caseCode: of } : { origin, label: of }
    const typed = Object.fromEntries(Object.entries(typing).filter(([, text]) => text.trim() !== ''))
    const proposed = await propose(
      'isolate.recorded',
      { code, from, species, ...typed },
      amends === undefined ? {} : { corrects: { entry: amends.id, reason } },
    )
    if (proposed.ok) onClose()
    else setIssues(proposed.issues)
  }
  return (
    <Dialog
      title={amends === undefined ? 'Record an isolate' : `Amend isolate ${amends.body.code}`}
      open
      size="wide"
      mustAnswer
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" onPress={() => void save()}>
            Record
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} />
        <FormRow>
          <TextField
            label="Isolate code"
            hint="The laboratory’s or your own."
            value={code}
            onChange={setCode}
            required
            width="narrow"
            focusFirst
          />
          <RadioRow
            label="Recovered from"
            value={origin}
            onChange={setOrigin}
            choices={[
              { id: 'sample', label: 'a sample' },
              { id: 'case', label: 'a case' },
            ]}
          />
          <ComboBox
            label={origin === 'case' ? 'Case code' : 'Sample label'}
            value={of}
            onChange={setOf}
            choices={choices}
            required
          />
        </FormRow>
        <FormRow>
          <TextField label="Species" value={species} onChange={setSpecies} required />
          <TextField
            label="Serogroup"
            value={typing['serogroup'] ?? ''}
            onChange={(serogroup) => set({ serogroup })}
            width="narrow"
          />
          <TextField
            label="Monoclonal type"
            value={typing['monoclonalType'] ?? ''}
            onChange={(monoclonalType) => set({ monoclonalType })}
          />
          <TextField
            label="Sequence type"
            value={typing['sequenceType'] ?? ''}
            onChange={(sequenceType) => set({ sequenceType })}
            width="narrow"
          />
        </FormRow>
        <FormRow>
          <TextField
            label="Laboratory"
            value={typing['laboratory'] ?? ''}
            onChange={(laboratory) => set({ laboratory })}
          />
          <DateField
            label="Kept until"
            value={typing['keptUntil'] ?? ''}
            onChange={(keptUntil) => set({ keptUntil })}
          />
        </FormRow>
        <p className="quiet">Leave empty what was not done: an empty field is “not compared”, never “different”.</p>
        {amends !== undefined && (
          <TextField label="Reason for the amendment" value={reason} onChange={setReason} required width="full" />
        )}
      </div>
    </Dialog>
  )
}
