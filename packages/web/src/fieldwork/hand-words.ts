import type { Hand, WorkAtStop } from '@rillmark/casebook/fieldwork/team-view.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'

/** A person, with the device where it has a name of its own. */
export const handWords = ({ author, deviceName }: Hand): string =>
  deviceName === undefined || deviceName === author ? author : `${author} (${deviceName})`

const TIME = 'YYYY-MM-DD '.length

/** When somebody was at a stop, by the clock on the wall there: `09:10–09:24`, with the day of the first. */
export function timeOf({ from, to, offset }: Pick<WorkAtStop, 'from' | 'to' | 'offset'>): string {
  const [first, last] = [wallClock({ instant: from, offset }), wallClock({ instant: to, offset })]
  const ends = last.slice(0, TIME) === first.slice(0, TIME) ? last.slice(TIME) : last
  return first === last ? first : `${first}–${ends}`
}
