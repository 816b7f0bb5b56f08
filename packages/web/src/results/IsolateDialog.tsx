import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { knownSamples } from '@rillmark/casebook/results/known-samples.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import { useAmendment } from './amendment.tsx'

const TYPING = ['serogroup', 'monoclonalType', 'sequenceType', 'laboratory', 'keptUntil'] as const

type Isolate = EffectiveEntry<'isolate.recorded'>

interface Draft {
  readonly code: string
  readonly origin: 'case' | 'sample'
  readonly of: string
  readonly species: string
  readonly typing: Readonly<Record<(typeof TYPING)[number], string>>
}

interface PartProps {
  readonly draft: Draft
  readonly set: (change: Partial<Draft>) => void
}

/** A strain recovered from a case or a sample, with as much typing as was done. */
export function IsolateDialog({
  amends,
  onClose,
}: {
  readonly amends?: Isolate | undefined
  readonly onClose: () => void
}): ReactNode {
  const [draft, setDraft] = useState(() => draftFrom(amends))
  const amendment = useAmendment(amends)
  const { issues, busy, write } = useWriting()
  const set = (change: Partial<Draft>): void => setDraft({ ...draft, ...change })
  const save = async (): Promise<void> => {
    if (await write('isolate.recorded', bodyOf(draft), amendment.options)) onClose()
  }
  return (
    <WritingDialog
      title={amends === undefined ? 'Record an isolate' : `Amend isolate ${amends.body.code}`}
      act="Record"
      size="wide"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <OriginFields draft={draft} set={set} />
      <TypingFields draft={draft} set={set} />
      <p className="quiet">Leave empty what was not done: an empty field is “not compared”, never “different”.</p>
      {amendment.field}
    </WritingDialog>
  )
}

function OriginFields({ draft, set }: PartProps): ReactNode {
  const { state } = useInvestigation()
  const { code, origin, of } = draft
  const known = origin === 'case' ? state.cases.cases : knownSamples(state)
  return (
    <FormRow>
      <TextField
        label="Isolate code"
        hint="The laboratory’s or your own."
        value={code}
        onChange={(typed) => set({ code: typed })}
        required
        width="narrow"
        focusFirst
      />
      <RadioRow
        label="Recovered from"
        value={origin}
        onChange={(chosen) => set({ origin: chosen, of: '' })}
        choices={[
          { id: 'sample', label: 'a sample' },
          { id: 'case', label: 'a case' },
        ]}
      />
      <ComboBox
        label={origin === 'case' ? 'Case code' : 'Sample label'}
        value={of}
        onChange={(typed) => set({ of: typed })}
        choices={[...known.keys()].map((id) => ({ id, label: id }))}
        required
      />
    </FormRow>
  )
}

function TypingFields({ draft, set }: PartProps): ReactNode {
  const { species, typing } = draft
  const type = (change: Partial<Draft['typing']>): void => set({ typing: { ...typing, ...change } })
  return (
    <>
      <FormRow>
        <TextField label="Species" value={species} onChange={(typed) => set({ species: typed })} required />
        <TextField
          label="Serogroup"
          value={typing.serogroup}
          onChange={(serogroup) => type({ serogroup })}
          width="narrow"
        />
        <TextField
          label="Monoclonal type"
          value={typing.monoclonalType}
          onChange={(monoclonalType) => type({ monoclonalType })}
        />
        <TextField
          label="Sequence type"
          value={typing.sequenceType}
          onChange={(sequenceType) => type({ sequenceType })}
          width="narrow"
        />
      </FormRow>
      <FormRow>
        <TextField label="Laboratory" value={typing.laboratory} onChange={(laboratory) => type({ laboratory })} />
        <DateField label="Kept until" value={typing.keptUntil} onChange={(keptUntil) => type({ keptUntil })} />
      </FormRow>
    </>
  )
}

function draftFrom(amends: Isolate | undefined): Draft {
  const body = amends?.body
  const from = body?.from
  const typing = Object.fromEntries(TYPING.map((field) => [field, body?.[field] ?? ''])) as Draft['typing']
  const of = from === undefined ? '' : from.origin === 'case' ? from.caseCode : from.label
  return { code: body?.code ?? '', origin: from?.origin ?? 'sample', of, species: body?.species ?? '', typing }
}

function bodyOf({ code, origin, of, species, typing }: Draft): BodyOf<'isolate.recorded'> {
  const from: BodyOf<'isolate.recorded'>['from'] = origin === 'case' ? { origin, caseCode: of } : { origin, label: of }
  return { code, from, species, ...Object.fromEntries(Object.entries(typing).filter(([, text]) => text.trim() !== '')) }
}
