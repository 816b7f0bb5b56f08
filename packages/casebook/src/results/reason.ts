import type { ResultValue } from '../units/result-value.ts'
import type { Trap } from './read-row.ts'

/** Something a person should know about a row before it is accepted. */
export interface Reason {
  readonly trap: Trap
  readonly words: string
  /** whether the row waits for a decision because of it; otherwise it is a note kept with the result */
  readonly blocks: boolean
  /** the result column it is about; the whole row where absent */
  readonly column?: string
  readonly suggestion?: ResultValue
  /** labels the written one may have been */
  readonly nearest?: readonly string[]
}

/** Reasons found for the rows of a file, by row number. */
export type Reasons = Map<number, Reason[]>

export function addReason(reasons: Reasons, { row, ...reason }: Reason & { readonly row: number }): void {
  const others = reasons.get(row)
  if (others === undefined) reasons.set(row, [reason])
  else others.push(reason)
}
