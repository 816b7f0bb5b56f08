import { columnsOf, type TableName } from '@rillmark/casebook/building/table-columns.ts'
import type { ReactNode } from 'react'
import { FileDrop } from '../kit/FileDrop.tsx'

/** A table as its file, not read yet. */
export interface TableFile {
  readonly name: string
  readonly bytes: Uint8Array
}

const WORDS: Readonly<Record<TableName, string>> = {
  components: 'the table of outlets and other parts',
  pipes: 'the table of pipes',
}

/** Takes the CSV file of a table and says which columns it may have. */
export function TableDrop(props: {
  readonly table: TableName
  readonly file: TableFile | undefined
  readonly onFile: (file: TableFile) => void
}): ReactNode {
  const { table, file, onFile } = props
  const names = columnsOf(table).map(({ name }) => name)
  return (
    <div className="table-drop">
      <FileDrop
        label={WORDS[table]}
        hint={file?.name ?? 'CSV by comma, semicolon or tab'}
        accept={['.csv', '.txt', '.tsv', 'text/csv']}
        onFiles={([one]) => {
          if (one !== undefined)
            void one.arrayBuffer().then((read) => onFile({ name: one.name, bytes: new Uint8Array(read) }))
        }}
      />
      <p className="field-hint">Columns by name, in any order: {names.join(', ')}.</p>
    </div>
  )
}
