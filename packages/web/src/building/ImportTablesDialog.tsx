import { changesBetween } from '@rillmark/casebook/building/changed-system.ts'
import type { Merged } from '@rillmark/casebook/building/tables.ts'
import type { TableName } from '@rillmark/casebook/building/table-columns.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { mergeCsv } from '@rillmark/exchange/building/csv-tables.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { FileProblems } from './FromFile.tsx'
import { TableDrop, type TableFile } from './TableDrop.tsx'
import { useEdit } from './use-edit.ts'

/** One edit holds so many changes; a larger table is a new description. */
const MOST_CHANGES = 5000

/** Merges a table into the described building: known ids are changed, new ones added. */
export function ImportTablesDialog(props: { readonly system: WaterSystem; readonly onClose: () => void }): ReactNode {
  const { system, onClose } = props
  const take = useTaking(system)
  const [table, setTable] = useState<TableName>('components')
  const [file, setFile] = useState<TableFile>()
  const [why, setWhy] = useState('')
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const merged = useMemo(
    () => (file === undefined ? undefined : mergeCsv(system, { table, file: file.bytes })),
    [system, table, file],
  )
  const words = merged === undefined ? '' : wordsFor(merged)

  const record = async (next: WaterSystem): Promise<void> => {
    const source = why.trim() === '' ? (file?.name ?? '') : why
    const issues = await take(next, { why: source, said: `From the table: ${words}.` })
    setRefused(issues)
    if (issues.length === 0) onClose()
  }

  return (
    <Dialog
      title="Bring in a table"
      size="wide"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button
            kind="primary"
            disabled={merged === undefined || merged.added.length + merged.changed.length === 0}
            onPress={() => merged !== undefined && void record(merged.system)}
          >
            {merged === undefined ? 'Take it in' : `Take it in: ${words}`}
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <RadioRow
          label="It lists"
          value={table}
          onChange={setTable}
          choices={[
            { id: 'components', label: 'outlets and other parts' },
            { id: 'pipes', label: 'pipes' },
          ]}
        />
        <TableDrop
          table={table}
          file={file}
          onFile={(next) => {
            setRefused([])
            setFile(next)
          }}
        />
        <p className="quiet">A row with a known id changes what it states; an empty cell says nothing.</p>
        <FileProblems problems={refused} kind="bad" name="The table" />
        {merged !== undefined && <WhatItBrings merged={merged} name={file?.name ?? 'the table'} />}
        <TextField label="Where it comes from" value={why} onChange={setWhy} width="full" />
      </div>
    </Dialog>
  )
}

function WhatItBrings({ merged, name }: { readonly merged: Merged; readonly name: string }): ReactNode {
  const unusable = merged.issues.length
  return (
    <>
      <p role="status">
        {wordsFor(merged)}
        {unusable > 0 ? `; ${counted(unusable, 'thing')} can’t be used` : ''}.
      </p>
      <FileProblems problems={merged.issues} kind="warn" name={name} />
    </>
  )
}

/** Records what a table brings: as one edit, or as a new description where it is more than an edit holds. */
function useTaking(system: WaterSystem) {
  const edit = useEdit()
  const { propose } = useInvestigation()
  return async (next: WaterSystem, how: { why: string; said: string }): Promise<readonly Issue[]> => {
    const changes = changesBetween(system, next)
    if (changes.length === 0) return []
    if (changes.length <= MOST_CHANGES) return edit({ changes, ...how })
    const proposed = await propose('building.described', { source: 'tables', system: next })
    return proposed.ok ? [] : proposed.issues
  }
}

const wordsFor = ({ added, changed }: { added: readonly string[]; changed: readonly string[] }): string =>
  [added.length > 0 && `${added.length} new`, changed.length > 0 && `${changed.length} changed`]
    .filter((part) => part !== false)
    .join(', ') || 'nothing new'
