import { counted } from '@rillmark/casebook/units/counted.ts'
import { TRAPS } from '@rillmark/casebook/results/read-row.ts'
import { resultWords } from '@rillmark/casebook/units/result-words.ts'
import type { ReviewedRow } from '@rillmark/casebook/results/review.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ComboBox } from '../kit/ComboBox.tsx'
import { DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Select } from '../kit/Select.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { MappingForm } from './MappingForm.tsx'
import type { FileInHand, Import } from './use-import.ts'
import { WaitingRows } from './WaitingRows.tsx'

type Face = ReviewedRow['state']

/** A file before it is accepted: how it was read, what matched, what waits, what is set aside. */
export function ImportReview({ imported, file }: { readonly imported: Import; readonly file: FileInHand }): ReactNode {
  const { table, review } = imported
  const [face, setFace] = useState<Face>('attention')
  if (table === undefined) return null
  return (
    <div className="stack">
      <FileHead imported={imported} file={file} />
      {file.before !== undefined && <Note kind="warn">{file.before}</Note>}
      <Disclosure
        summary={`How the columns were read${file.rememberedFrom === undefined ? ', by their headings' : `, as in ${file.rememberedFrom}`}`}
        open={imported.issues.some(({ path }) => path.startsWith('columns') || path.startsWith('results'))}
      >
        <MappingForm table={table} mapping={file.mapping} onChange={(mapping) => imported.change({ mapping })} />
      </Disclosure>
      {review?.notes.map((note) => (
        <Note key={note} kind="warn">
          {note}
        </Note>
      ))}
      {review !== undefined && (
        <Tabs
          label="rows of the file"
          selected={face}
          onSelect={setFace}
          tabs={[
            { id: 'attention', label: 'To look at', count: review.counts.attention },
            { id: 'matched', label: 'Matched', count: review.counts.matched },
            { id: 'set aside', label: 'Nothing new', count: review.counts['set aside'] },
          ]}
        >
          {face === 'attention' ? (
            <WaitingRows rows={review.rows} imported={imported} />
          ) : (
            <PlainRows rows={review.rows.filter(({ state }) => state === face)} face={face} />
          )}
        </Tabs>
      )}
      <AcceptRow imported={imported} file={file} />
    </div>
  )
}

function FileHead({ imported, file }: { readonly imported: Import; readonly file: FileInHand }): ReactNode {
  const { state } = useInvestigation()
  const laboratories = [...new Set(state.results.results.map(({ body }) => body.laboratory))].map((id) => ({
    id,
    label: id,
  }))
  return (
    <>
      <p className="quiet">
        {[file.name, ...(imported.table?.notes ?? []), `${imported.table?.rows.length ?? 0} rows`].join(' · ')}
      </p>
      <FormRow>
        {file.tables.length > 1 && (
          <Select
            label="Sheet"
            value={String(file.sheet)}
            onChange={(sheet) => imported.chooseSheet(Number(sheet))}
            choices={file.tables.map(({ sheet }, index) => ({ id: String(index), label: sheet ?? String(index + 1) }))}
          />
        )}
        <ComboBox
          label="Laboratory"
          value={file.laboratory}
          onChange={(laboratory) => imported.change({ laboratory })}
          choices={laboratories}
          free
          required
        />
        <TextField
          label="Samples of others were taken by"
          hint="For rows whose label is not ours: registers them as such."
          value={file.takenBy}
          onChange={(takenBy) => imported.change({ takenBy })}
          maxLength={120}
        />
      </FormRow>
    </>
  )
}

function PlainRows({ rows, face }: { readonly rows: readonly ReviewedRow[]; readonly face: Face }): ReactNode {
  return (
    <DataTable
      caption={face === 'matched' ? 'Rows that are accepted as read' : 'Rows that bring nothing new'}
      captionHidden
      rows={rows}
      rowId={({ row }) => String(row)}
      empty="None."
      columns={[
        { id: 'row', head: 'Row', cell: ({ row }) => row, sort: ({ row }) => row, numeric: true },
        {
          id: 'label',
          head: 'Sample',
          cell: ({ label, registers, sample }) => (
            <>
              <span className="mono">{label}</span>
              {sample?.partOf !== undefined && (
                <span className="faint result-part">
                  part of {sample.partOf.label}, for {sample.partOf.to.name}
                </span>
              )}
              {registers && <span className="faint"> new, of others</span>}
            </>
          ),
          sort: ({ label }) => label,
        },
        {
          id: 'value',
          head: 'Read as',
          cell: ({ results }) =>
            results
              .map(({ value, method }) => (value === undefined ? 'not read' : resultWords(value, { method })))
              .join('; '),
        },
        {
          id: 'notes',
          head: 'Notes',
          cell: ({ reasons }) => [...new Set(reasons.map(({ trap }) => TRAPS[trap]))].join(', '),
        },
      ]}
    />
  )
}

function AcceptRow({ imported, file }: { readonly imported: Import; readonly file: FileInHand }): ReactNode {
  const { say } = useToasts()
  const waiting =
    imported.review?.rows.filter(({ row, state }) => state === 'attention' && !file.decisions.has(row)).length ?? 0
  const rows = imported.review?.rows ?? []
  const accepted = rows.filter(
    ({ row, state }) =>
      (file.decisions.get(row)?.action ?? (state === 'matched' ? 'accept' : 'set aside')) !== 'set aside',
  ).length
  const nothingNew = file.before !== undefined && accepted === 0
  const accept = async (): Promise<void> => {
    const count = await imported.accept()
    if (count !== undefined) say(`${file.name} is in the record: ${count} entries.`)
  }
  return (
    <div className="accept-row">
      <ProblemList problems={imported.issues} />
      <ButtonRow>
        {!nothingNew && (
          <Button kind="primary" disabled={imported.review === undefined || waiting > 0} onPress={() => void accept()}>
            {accepted === 0 ? 'Record that the file brought nothing' : `Accept ${counted(accepted, 'row')}`}
          </Button>
        )}
        <Button onPress={imported.drop}>Put the file away</Button>
        {nothingNew && <span className="quiet">Nothing in it is new. A row set aside then may still be accepted.</span>}
        {!nothingNew && waiting > 0 && (
          <span className="quiet">
            {waiting} {waiting === 1 ? 'row waits' : 'rows wait'} for you first. Nothing is in the record yet.
          </span>
        )}
      </ButtonRow>
    </div>
  )
}
