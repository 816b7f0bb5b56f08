import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Cell } from './csv.ts'
import type { Field, PackageTable, Reference } from './package-table.ts'
import { PACKAGE_TABLES } from './tables.ts'

/** Instants are written with milliseconds; the standard's own format has none. */
const INSTANT_FORMAT = '%Y-%m-%dT%H:%M:%S.%fZ'

interface TableFile {
  readonly table: PackageTable
  readonly rows: readonly (readonly Cell[])[]
  readonly bytes: Uint8Array
}

/**
 * Describes the tables in the words of the Data Package standard (Frictionless Data, version 1), so that any tool can type and join them.
 * A reference to another table is declared where every row keeps it: what a row pointed at may have been withdrawn since.
 */
export function dataPackage(state: InvestigationState, files: readonly TableFile[]): object {
  return {
    profile: 'tabular-data-package',
    name: state.investigation,
    title: state.brief.opened?.body.title ?? state.investigation,
    resources: files.map((file) => resourceOf(file, files)),
  }
}

/** The files of a package's tables, in order. */
export function tableFiles(
  state: InvestigationState,
  csvOf: (header: readonly string[], rows: readonly (readonly Cell[])[]) => Uint8Array,
): TableFile[] {
  return PACKAGE_TABLES.map((table) => {
    const rows = table.rows(state)
    return {
      table,
      rows,
      bytes: csvOf(
        table.fields.map(({ name }) => name),
        rows,
      ),
    }
  })
}

function resourceOf({ table, rows, bytes }: TableFile, files: readonly TableFile[]): object {
  const kept = (table.refers ?? []).filter((reference) => isKept(reference, { table, rows, files }))
  const foreignKeys = kept.map(({ field, table: resource, its }) => ({
    fields: field,
    reference: { resource, fields: its },
  }))
  return {
    profile: 'tabular-data-resource',
    name: table.name,
    title: table.title,
    path: `tables/${table.name}.csv`,
    format: 'csv',
    mediatype: 'text/csv',
    encoding: 'utf-8',
    bytes: bytes.length,
    hash: `sha256:${sha256OfBytes(bytes)}`,
    schema: {
      fields: table.fields.map((field) => fieldOf(field, table.key)),
      primaryKey: table.key,
      missingValues: [''],
      ...(foreignKeys.length === 0 ? {} : { foreignKeys }),
    },
  }
}

function fieldOf({ name, type }: Field, key: string): object {
  return {
    name,
    type,
    ...(type === 'datetime' ? { format: INSTANT_FORMAT } : {}),
    ...(name === key ? { constraints: { required: true, unique: true } } : {}),
  }
}

function isKept(
  { field, table: other, its }: Reference,
  { table, rows, files }: { table: PackageTable; rows: TableFile['rows']; files: readonly TableFile[] },
): boolean {
  const target = files.find((file) => file.table.name === other)
  const there = new Set(target === undefined ? [] : columnOf(target, its))
  return columnOf({ table, rows }, field).every((cell) => cell === undefined || there.has(cell))
}

function columnOf({ table, rows }: Pick<TableFile, 'table' | 'rows'>, name: string): Cell[] {
  const at = table.fields.findIndex((field) => field.name === name)
  return rows.map((row) => row[at])
}
