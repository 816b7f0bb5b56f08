import { isServersName } from '@rillmark/casebook/devices/server-names.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { AppendOutcome, Arrival, Records } from '../records/records.ts'

/**
 * Takes what came over the network. Only the server itself writes under its own names and joins as a server: what claims to be it is refused,
 * and the rest is taken. What is in the record already (a copy sent back) is known, as anything sent again.
 */
export async function takeFromOutside(
  records: Records,
  given: { investigation: string; entries: readonly unknown[]; arrival: Arrival },
): Promise<AppendOutcome> {
  const { investigation, entries, arrival } = given
  const claims = entries.flatMap((entry) => {
    const issues = claimIssues(entry)
    return issues.length === 0 ? [] : [{ entry, id: idOf(entry), issues }]
  })
  if (claims.length === 0) return records.append(investigation, entries, arrival)
  const known = await records.ledger.sequencesOf(
    investigation,
    claims.map(({ id }) => id),
  )
  const untrue = claims.filter(({ id }) => !known.has(id))
  const left = new Set(untrue.map(({ entry }) => entry))
  const outcome = await records.append(
    investigation,
    entries.filter((entry) => !left.has(entry)),
    arrival,
  )
  return { ...outcome, refused: [...outcome.refused, ...untrue.map(({ id, issues }) => ({ id, issues }))] }
}

function claimIssues(entry: unknown): Issue[] {
  if (!isObject(entry)) return []
  const { device, kind, body } = entry
  if (typeof device === 'string' && isServersName(device))
    return [statedIssue('device', { expected: 'a name that is not the server’s own', received: device })]
  if (kind === 'device.joined' && isObject(body) && body['role'] === 'server')
    return [statedIssue('body.role', { expected: 'lead, sampler or reader', received: 'server' })]
  return []
}

function idOf(entry: unknown): string {
  return isObject(entry) && typeof entry['id'] === 'string' ? entry['id'] : ''
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
}
