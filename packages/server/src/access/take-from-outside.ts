import type { AppendOutcome, Arrival, Records } from '../records/records.ts'
import { type DeviceOf, entryObjections } from './entry-objections.ts'

export interface FromOutside {
  readonly investigation: string
  readonly entries: readonly unknown[]
  readonly arrival: Arrival
  /** where devices have to come in: the register */
  readonly deviceOf: DeviceOf | undefined
}

/**
 * Takes what came over the network. What is objected to is refused, entry by entry, and the rest is taken: one bad entry never holds up the
 * others. What is in the record already (a copy sent back) is known, as anything sent again.
 */
export async function takeFromOutside(
  records: Records,
  { investigation, entries, arrival, deviceOf }: FromOutside,
): Promise<AppendOutcome> {
  const objected = entries.flatMap((entry) => {
    const issues = entryObjections(entry, deviceOf)
    return issues.length === 0 ? [] : [{ entry, id: idOf(entry), issues }]
  })
  if (objected.length === 0) return records.append(investigation, entries, arrival)
  const known = await records.ledger.sequencesOf(
    investigation,
    objected.map(({ id }) => id),
  )
  const { contested } = (await records.state(investigation)).state.contests
  const refused = objected.filter(({ id }) => !known.has(id) && !contested.has(id))
  const left = new Set(refused.map(({ entry }) => entry))
  const outcome = await records.append(
    investigation,
    entries.filter((entry) => !left.has(entry)),
    arrival,
  )
  return { ...outcome, refused: [...outcome.refused, ...refused.map(({ id, issues }) => ({ id, issues }))] }
}

function idOf(entry: unknown): string {
  if (typeof entry !== 'object' || entry === null || !('id' in entry)) return ''
  return typeof entry.id === 'string' ? entry.id : ''
}
