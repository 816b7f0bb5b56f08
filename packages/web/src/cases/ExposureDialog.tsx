import { componentName } from '@rillmark/casebook/building/labels.ts'
import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import { EXPOSURE_KINDS } from '@rillmark/casebook/cases/kinds.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type ReactNode, useState } from 'react'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DateField } from '../kit/DateField.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { WritingDialog } from '../kit/WritingDialog.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'

const KINDS = EXPOSURE_KINDS.map((id) => ({ id, label: id }))

/** Places already named, then the outlets of the described building. */
function knownPlaces({ cases, building }: InvestigationState): { id: string; label: string }[] {
  const named = [...new Set(cases.exposures.map(({ body }) => body.place))]
  const outlets = (building.system?.components ?? []).filter(isOutlet)
  return [
    ...named.map((label) => ({ id: `place:${label}`, label })),
    ...outlets.map((component) => ({ id: component.id, label: componentName(component) })),
  ]
}

/** Records where one case stayed or met water. */
export function ExposureDialog({
  caseCode,
  onClose,
}: {
  readonly caseCode: string
  readonly onClose: () => void
}): ReactNode {
  const { state } = useInvestigation()
  const { issues, busy, write } = useWriting()
  const places = useDerived(knownPlaces)
  const [place, setPlace] = useState('')
  const [component, setComponent] = useState<string>()
  const [kind, setKind] = useState<(typeof EXPOSURE_KINDS)[number]>('stay')
  const [from, setFrom] = useState('')
  const [to, setTo] = useState('')
  const [notes, setNotes] = useState('')

  const save = async (): Promise<void> => {
    const known = component === undefined ? undefined : state.building.working.component(component)
    const tied = known !== undefined && componentName(known) === place ? { component: known.id } : {}
    const said = notes.trim() === '' ? {} : { notes }
    if (await write('exposure.recorded', { caseCode, place, kind, from, to: to === '' ? from : to, ...tied, ...said }))
      onClose()
  }

  return (
    <WritingDialog
      title={`Where was ${caseCode}?`}
      act="Record"
      issues={issues}
      busy={busy}
      onWrite={save}
      onClose={onClose}
    >
      <ComboBox
        label="Place"
        hint="Write one place one way: shared places are found by name."
        value={place}
        onChange={setPlace}
        onChoose={setComponent}
        choices={places}
        free
        required
        width="full"
      />
      <FormRow>
        <Select label="Kind of exposure" value={kind} onChange={setKind} choices={KINDS} />
        <DateField label="From" value={from} onChange={setFrom} required />
        <DateField label="To" hint="Empty: the same day." value={to} onChange={setTo} />
      </FormRow>
      <TextField label="Notes" value={notes} onChange={setNotes} width="full" />
    </WritingDialog>
  )
}
