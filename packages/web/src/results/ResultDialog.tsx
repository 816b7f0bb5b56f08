import { METHODS } from '@rillmark/casebook/results/kinds.ts'
import { knownSamples } from '@rillmark/casebook/results/known-samples.ts'
import { readLabel } from '@rillmark/casebook/label/label.ts'
import type { EffectiveEntry } from '@rillmark/casebook/state/effective.ts'
import { type ReactNode, useState } from 'react'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import { useAmendment } from './amendment.tsx'
import { draftOf, valueOf } from './value-draft.ts'
import { ValueFields } from './ValueFields.tsx'

interface Draft {
  readonly label: string
  readonly laboratory: string
  readonly method: (typeof METHODS)[number]
  readonly species: string
  readonly serogroup: string
  readonly status: 'preliminary' | 'final' | 'corrected'
  readonly reportId: string
  readonly reportedOn: string
  readonly volumeExaminedMl: string
}

/** A single result typed by hand, or an amendment of one with its reason. */
export function ResultDialog({
  amends,
  onClose,
}: {
  readonly amends?: EffectiveEntry<'result.reported'> | undefined
  readonly onClose: () => void
}): ReactNode {
  const { state } = useInvestigation()
  const [draft, setDraft] = useState<Draft>(() =>
    draftFrom(amends, state.results.results.at(-1)?.body.laboratory ?? ''),
  )
  const [value, setValue] = useState(draftOf(amends?.body.value))
  const amendment = useAmendment(amends)
  const { issues, busy, write, object } = useWriting()
  const set = (change: Partial<Draft>): void => setDraft({ ...draft, ...change })
  const save = async (): Promise<void> => {
    const read = valueOf(value)
    if (!read.ok) return object(read.issues)
    const body = { ...kept(amends), ...bodyOf(draft), value: read.value, target: amends?.body.target ?? 'Legionella' }
    if (await write('result.reported', body, amendment.options)) onClose()
  }
  return (
    <WritingDialog
      title={amends === undefined ? 'Type a result' : `Amend the result of ${amends.body.label}`}
      act="Record"
      size="wide"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <SampleFields draft={draft} set={set} fixed={amends !== undefined} />
      <ValueFields draft={value} onChange={setValue} />
      <ReportFields draft={draft} set={set} />
      {amendment.field}
    </WritingDialog>
  )
}

function ReportFields({
  draft,
  set,
}: {
  readonly draft: Draft
  readonly set: (change: Partial<Draft>) => void
}): ReactNode {
  return (
    <>
      <FormRow>
        <NumberField
          label="Volume examined"
          unit="mL"
          hint="Gives a count its limits."
          value={draft.volumeExaminedMl}
          onChange={(volumeExaminedMl) => set({ volumeExaminedMl })}
          min={0}
        />
        <TextField label="Species" value={draft.species} onChange={(species) => set({ species })} />
        <TextField
          label="Serogroup"
          value={draft.serogroup}
          onChange={(serogroup) => set({ serogroup })}
          width="narrow"
        />
      </FormRow>
      <FormRow>
        <DateField label="Reported" value={draft.reportedOn} onChange={(reportedOn) => set({ reportedOn })} />
        <TextField label="Report number" value={draft.reportId} onChange={(reportId) => set({ reportId })} />
        <Select
          label="Status"
          value={draft.status}
          onChange={(status) => set({ status })}
          choices={(['preliminary', 'final', 'corrected'] as const).map((id) => ({ id, label: id }))}
          width="narrow"
        />
      </FormRow>
    </>
  )
}

function SampleFields({
  draft,
  set,
  fixed,
}: {
  readonly draft: Draft
  readonly set: (change: Partial<Draft>) => void
  readonly fixed: boolean
}): ReactNode {
  const { state } = useInvestigation()
  const known = knownSamples(state)
  const read = readLabel(draft.label)
  const wrong =
    draft.label === '' || known.has(draft.label)
      ? undefined
      : read.kind === 'issue'
        ? `No sample has this label: ${read.advice}.`
        : 'No sample has this label.'
  return (
    <FormRow>
      <ComboBox
        label="Sample label"
        value={draft.label}
        onChange={(label) => set({ label })}
        choices={[...known.values()].map(({ label, origin, partOf }) => ({
          id: label,
          label,
          hint: partOf === undefined ? origin : `part of ${partOf.label}`,
        }))}
        issue={wrong}
        disabled={fixed}
        required
      />
      <TextField label="Laboratory" value={draft.laboratory} onChange={(laboratory) => set({ laboratory })} required />
      <Select
        label="Method"
        value={draft.method}
        onChange={(method) => set({ method })}
        choices={METHODS.map((id) => ({ id, label: id }))}
        width="narrow"
      />
    </FormRow>
  )
}

function draftFrom(amends: EffectiveEntry<'result.reported'> | undefined, laboratory: string): Draft {
  const body = amends?.body
  return {
    label: body?.label ?? '',
    laboratory: body?.laboratory ?? laboratory,
    method: body?.method ?? 'culture',
    species: body?.species ?? '',
    serogroup: body?.serogroup ?? '',
    status: body === undefined ? 'final' : 'corrected',
    reportId: body?.reportId ?? '',
    reportedOn: body?.reportedOn ?? '',
    volumeExaminedMl: body?.volumeExaminedMl === undefined ? '' : String(body.volumeExaminedMl),
  }
}

function bodyOf({
  label,
  laboratory,
  method,
  status,
  species,
  serogroup,
  reportId,
  reportedOn,
  volumeExaminedMl,
}: Draft) {
  const volume = readTypedNumber(volumeExaminedMl)
  const words = Object.entries({ species, serogroup, reportId, reportedOn }).filter(([, text]) => text.trim() !== '')
  return {
    label,
    laboratory,
    method,
    status,
    ...Object.fromEntries(words),
    ...(volume.kind === 'number' ? { volumeExaminedMl: volume.value } : {}),
  }
}

/** What an amendment keeps of the first version: the file, row and cells it came from. A mark of half a limit goes: a person has looked. */
function kept(amends: EffectiveEntry<'result.reported'> | undefined) {
  if (amends === undefined) return {}
  const { importedBy, row, asWritten, received, notes } = amends.body
  return {
    ...(importedBy === undefined ? {} : { importedBy }),
    ...(row === undefined ? {} : { row }),
    ...(asWritten === undefined ? {} : { asWritten }),
    ...(received === undefined ? {} : { received }),
    ...(notes === undefined ? {} : { notes }),
  }
}
