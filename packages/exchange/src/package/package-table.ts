import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { Cell } from './csv.ts'

export interface Field {
  readonly name: string
  readonly type: 'string' | 'number' | 'integer' | 'boolean' | 'date' | 'datetime'
}

/** A column whose values stand in a column of another table too. */
export interface Reference {
  readonly field: string
  readonly table: string
  readonly its: string
}

/** One derived table of the package: for reading elsewhere; importing never reads it. */
export interface PackageTable {
  readonly name: string
  readonly title: string
  readonly fields: readonly Field[]
  /** the column that tells rows apart */
  readonly key: string
  readonly refers?: readonly Reference[]
  readonly rows: (state: InvestigationState) => Cell[][]
}

export const text = (name: string): Field => ({ name, type: 'string' })
export const number = (name: string): Field => ({ name, type: 'number' })
export const flag = (name: string): Field => ({ name, type: 'boolean' })
export const date = (name: string): Field => ({ name, type: 'date' })
export const moment = (name: string): Field => ({ name, type: 'datetime' })

/** The id of the entry a row comes from, as it stands in the record. */
export const entryId = text('entry')
