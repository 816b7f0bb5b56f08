import { counted } from '../units/counted.ts'
import { wallClock } from '../units/local-time.ts'
import type { ResultsState } from './state.ts'

/** When and by whom the very same file was taken into the record before, in words; undefined where it was not. */
export function acceptedBefore({ imports }: Pick<ResultsState, 'imports'>, sha256: string): string | undefined {
  const before = imports.findLast(({ body }) => body.sha256 === sha256)
  if (before === undefined) return undefined
  const { fileName, accepted, rows, setAside } = before.body
  const aside = setAside.length === 0 ? '' : `, ${setAside.length} set aside or without anything new`
  return `This file is in the record already: ${fileName}, accepted on ${wallClock(before)} by ${before.author}, ${accepted} of ${counted(rows, 'row')}${aside}.`
}
