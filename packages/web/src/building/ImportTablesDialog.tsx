import { changesBetween } from '@rillmark/casebook/building/changed-system.ts'
import { columnsOf, type TableName } from '@rillmark/casebook/building/table-columns.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/casebook/entry/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { mergeCsv } from '@rillmark/exchange/building/csv-tables.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { FileProblems } from './FromFile.tsx'
import { useEdit } from './use-edit.ts'

/** One edit holds so many changes; a larger table is a new description. */
const MOST_CHANGES = 5000

/** Merges a table into the described building: known ids are changed, new ones added. */
export function ImportTablesDialog({
  system,
  onClose,
}: {
  readonly system: WaterSystem
  readonly onClose: () => void
}): ReactNode {
  const edit = useEdit()
  const { propose } = useInvestigation()
  const [table, setTable] = useState<TableName>('components')
  const [file, setFile] = useState<{ name: string; bytes: Uint8Array }>()
  const [why, setWhy] = useState('')
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const merged = useMemo(
    () => (file === undefined ? undefined : mergeCsv(system, { table, file: file.bytes })),
    [system, table, file],
  )
  const words = merged === undefined ? '' : wordsFor(merged)

  const record = async (next: WaterSystem): Promise<void> => {
    const changes = changesBetween(system, next)
    const issues =
      changes.length > MOST_CHANGES
        ? await propose('building.described', { source: 'tables', system: next }).then((done) =>
            done.ok ? [] : done.issues,
          )
        : await edit({ changes, why: why === '' ? (file?.name ?? '') : why, said: `From the table: ${words}.` })
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
        <FileDrop
          label="the table"
          hint={file?.name ?? 'CSV by comma, semicolon or tab'}
          accept={['.csv', '.txt', '.tsv', 'text/csv']}
          onFiles={([one]) => {
            setRefused([])
            if (one !== undefined)
              void one.arrayBuffer().then((read) => setFile({ name: one.name, bytes: new Uint8Array(read) }))
          }}
        />
        <p className="quiet">
          Columns by name, in any order:{' '}
          {columnsOf(table)
            .map(({ name }) => name)
            .join(', ')}
          . A row with a known id changes what it states; an empty cell says nothing.
        </p>
        {merged !== undefined && (
          <p role="status">
            {words}
            {merged.issues.length > 0 ? `; ${counted(merged.issues.length, 'thing')} can’t be used` : ''}.
          </p>
        )}
        <FileProblems problems={refused} kind="bad" name="The table" />
        <FileProblems problems={merged?.issues ?? []} kind="warn" name={file?.name ?? 'the table'} />
        <TextField label="Where it comes from" value={why} onChange={setWhy} width="full" />
      </div>
    </Dialog>
  )
}

const wordsFor = ({ added, changed }: { added: readonly string[]; changed: readonly string[] }): string =>
  [added.length > 0 && `${added.length} new`, changed.length > 0 && `${changed.length} changed`]
    .filter((part) => part !== false)
    .join(', ') || 'nothing new'
