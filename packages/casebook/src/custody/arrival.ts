import type { Arrival } from './kinds.ts'
import type { CustodyState } from './state.ts'

/** What the laboratory said of a sample when it came in; undefined while it has not. */
export function arrivalOf(custody: CustodyState, label: string): Arrival | undefined {
  const box = custody.consignmentOf.get(label)
  const received = box === undefined ? undefined : custody.consignments.get(box)?.received
  return received?.body.samples.find((each) => each.label === label)
}

/** The laboratory will not examine it: so said, or nothing is there. A broken bottle is rejected unless it says otherwise. */
export function isRejected({ condition, rejected }: Pick<Arrival, 'condition' | 'rejected'>): boolean {
  return rejected ?? (condition === 'broken' || condition === 'not in the box')
}
