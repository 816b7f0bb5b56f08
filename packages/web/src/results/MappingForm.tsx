import { COLUMN_ROLES, columnRoles } from '@rillmark/casebook/results/columns.ts'
import { type Mapping, METHODS } from '@rillmark/casebook/results/kinds.ts'
import type { RawTable } from '@rillmark/casebook/results/raw-table.ts'
import { cellText } from '@rillmark/casebook/results/raw-table.ts'
import { CONCENTRATION_UNITS } from '@rillmark/casebook/units/quantity.ts'
import { type ReactNode, useState } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { readTypedNumber } from '../kit/typed-number.ts'

interface MappingFormProps {
  readonly table: RawTable
  readonly mapping: Mapping
  readonly onChange: (mapping: Mapping) => void
}

const USES = [
  { id: '', label: 'not used' },
  { id: 'result', label: 'results' },
  { id: 'part of label', label: 'part of the label' },
  ...columnRoles.map((id) => ({ id, label: COLUMN_ROLES[id] })),
]

/** What each column of the file holds, with an example from it; a person corrects the guess. */
export function MappingForm({ table, mapping, onChange }: MappingFormProps): ReactNode {
  return (
    <div className="form">
      <FormRow>
        <RadioRow
          label="Decimal sign"
          value={mapping.decimal}
          onChange={(decimal) => onChange({ ...mapping, decimal })}
          choices={[
            { id: 'point', label: 'point, 1.5' },
            { id: 'comma', label: 'comma, 1,5' },
          ]}
        />
        <RadioRow
          label="Dates"
          value={mapping.dateOrder}
          onChange={(dateOrder) => onChange({ ...mapping, dateOrder })}
          choices={[
            { id: 'year-month-day', label: '2026-03-02' },
            { id: 'day-month-year', label: '02.03.2026, 2 March' },
            { id: 'month-day-year', label: '03/02/2026, 2 March' },
          ]}
        />
      </FormRow>
      <DataTable
        caption={`${table.headers.length} columns`}
        rows={table.headers}
        rowId={(header) => header}
        columns={[
          { id: 'header', head: 'Column', cell: (header) => header },
          {
            id: 'example',
            head: 'For example',
            cell: (header) => <span className="mono">{exampleOf(table, header)}</span>,
          },
          {
            id: 'use',
            head: 'Holds',
            cell: (header) => <ColumnUse header={header} mapping={mapping} onChange={onChange} />,
          },
        ]}
      />
      <ResultColumns mapping={mapping} onChange={onChange} />
      {(mapping.labelFrom ?? []).length > 0 && (
        <TextField
          label="Words before each label"
          hint={`Labels are made of ${(mapping.labelFrom ?? []).join(' and ')}.`}
          value={mapping.labelPrefix ?? ''}
          onChange={(labelPrefix) => onChange({ ...mapping, labelPrefix })}
          maxLength={30}
        />
      )}
    </div>
  )
}

function ColumnUse({
  header,
  mapping,
  onChange,
}: {
  readonly header: string
  readonly mapping: Mapping
  readonly onChange: (mapping: Mapping) => void
}): ReactNode {
  return (
    <Select
      label={`${header} holds`}
      labelHidden
      value={useOf(header, mapping)}
      onChange={(use) => onChange(withUse(mapping, { header, use }))}
      choices={USES}
    />
  )
}

function ResultColumns({ mapping, onChange }: Omit<MappingFormProps, 'table'>): ReactNode {
  const results = mapping.results ?? []
  const set = (column: string, change: object): void =>
    onChange({
      ...mapping,
      results: results.map((each) => (each.column === column ? clean({ ...each, ...change }) : each)),
    })
  return results.map((result) => (
    <FormRow key={result.column}>
      <Select
        label={`${result.column}: method`}
        value={result.method}
        onChange={(method) => set(result.column, { method })}
        choices={METHODS.map((id) => ({ id, label: id }))}
        width="narrow"
      />
      <Select
        label="Unit where the cell has none"
        value={result.unit ?? 'none'}
        onChange={(unit) => set(result.column, { unit: unit === 'none' ? undefined : unit })}
        choices={[{ id: 'none', label: 'stated in the file' }, ...CONCENTRATION_UNITS.map((id) => ({ id, label: id }))]}
      />
      <LimitField key={result.column} limit={result.limit} onChange={(limit) => set(result.column, { limit })} />
    </FormRow>
  ))
}

function LimitField({
  limit,
  onChange,
}: {
  readonly limit: number | undefined
  readonly onChange: (limit: number | undefined) => void
}): ReactNode {
  const [typed, setTyped] = useState(limit === undefined ? '' : String(limit))
  const type = (text: string): void => {
    setTyped(text)
    const read = readTypedNumber(text)
    onChange(read.kind === 'number' && read.value > 0 ? read.value : undefined)
  }
  return <NumberField label="“Below LOD” means" hint="The limit, in that unit." value={typed} onChange={type} min={0} />
}

function clean<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T
}

function useOf(header: string, mapping: Mapping): string {
  if ((mapping.results ?? []).some(({ column }) => column === header)) return 'result'
  if ((mapping.labelFrom ?? []).includes(header)) return 'part of label'
  return Object.entries(mapping.columns).find(([, column]) => column === header)?.[0] ?? ''
}

function withUse(mapping: Mapping, { header, use }: { header: string; use: string }): Mapping {
  const columns = Object.fromEntries(
    Object.entries(mapping.columns).filter(([role, column]) => column !== header && role !== use),
  )
  const results = (mapping.results ?? []).filter(({ column }) => column !== header)
  const labelFrom = (mapping.labelFrom ?? []).filter((column) => column !== header)
  const rest = { ...mapping, columns, results, labelFrom }
  if (use === 'result') return { ...rest, results: [...results, { column: header, method: 'culture' }] }
  if (use === 'part of label') return { ...rest, labelFrom: [...labelFrom, header] }
  return use === '' ? rest : { ...rest, columns: { ...columns, [use]: header } }
}

function exampleOf(table: RawTable, header: string): string {
  const index = table.headers.indexOf(header)
  const texts = table.rows
    .slice(0, 50)
    .map(({ cells }) => cellText(cells[index]))
    .filter((text) => text !== '')
  return [...new Set(texts)].slice(0, 3).join(' · ').slice(0, 60)
}
