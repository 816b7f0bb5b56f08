import type { Circuit, SampleKind } from '../entry/fields.ts'
import type { ConcentrationUnit } from '../units/quantity.ts'
import type { ResultValue } from '../units/result-value.ts'
import type { METHODS } from './kinds.ts'
import type { Cell } from './raw-table.ts'

export type Method = (typeof METHODS)[number]

/** What was made of a result cell: a value, with a remark where the reading is not plain; or no value, and why. */
export type ValueReading =
  | { readonly kind: 'value'; readonly value: ResultValue; readonly remarks: readonly Remark[] }
  | { readonly kind: 'unread'; readonly remarks: readonly Remark[] }
  | { readonly kind: 'empty' }

/** Something noticed while reading a cell that a person has to look at, with what the value may have been. */
export interface Remark {
  readonly trap: Trap
  readonly words: string
  readonly suggestion?: ResultValue
}

/** What can be wrong with a row. Each is a known way for laboratory files to go wrong. */
export const TRAPS = {
  'date for number': 'a number turned into a date',
  'decimal comma': 'decimal comma or point in doubt',
  'unit missing': 'unit not stated',
  'unit differs': 'unit differs from the other rows',
  'factor of 1000': 'perhaps wrong by a factor of 1000',
  'zero count': 'zero given as a count',
  'limit missing': 'limit not stated',
  'below its limit': 'count below its own limit',
  'half the limit': 'half the detection limit in place of a value',
  unreadable: 'value could not be read',
  'repeated in the file': 'same sample and method twice',
  'near repeat': 'row repeats another',
  'already in the record': 'result already in the record',
  'changes a result': 'differs from what the record holds',
  'corrects nothing': 'corrected report without an earlier one',
  'label mis-keyed': 'label mis-keyed',
  'label unknown': 'label unknown',
  'label missing': 'no label',
  'not collected': 'planned but not recorded as collected',
  'before collection': 'result before collection',
  'too soon': 'too soon for the method',
  'dates differ': 'collection dates differ',
  'refused by the laboratory': 'condition noted at receipt',
  'swab or water': 'unit does not fit the kind of sample',
  'totals row': 'a line of totals',
} as const

export type Trap = keyof typeof TRAPS

export interface ReadResult {
  readonly column: string
  readonly method: Method
  readonly target: string
  readonly reading: ValueReading
  readonly unit: ConcentrationUnit | undefined
  readonly cell: Cell
  /** the limit the row or the column states, in the unit of the row */
  readonly limit?: number | undefined
}

/** One row of a result file after its columns were mapped. Nothing is judged yet. */
export interface ReadRow {
  readonly row: number
  readonly label: string
  readonly results: readonly ReadResult[]
  readonly place?: string
  readonly species?: string
  readonly serogroup?: string
  readonly collectedOn?: string
  readonly receivedOn?: string
  readonly reportedOn?: string
  readonly status?: 'preliminary' | 'final' | 'corrected'
  readonly reportId?: string
  readonly volumeExaminedMl?: number
  readonly temperatureC?: number
  readonly draw?: 'first draw' | 'flushed'
  readonly sampleKind?: SampleKind
  readonly circuit?: Circuit
  readonly group?: string
  readonly notes?: string
  /** remarks on cells other than the results, such as a date that was really a temperature */
  readonly remarks: readonly Remark[]
  /** heading → cell, for every cell that holds something */
  readonly asWritten: Readonly<Record<string, string>>
}
