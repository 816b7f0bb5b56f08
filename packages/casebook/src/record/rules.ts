import type { Entry } from '../entry/entry.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Kind } from '../entry/kinds.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** What was signed by a device about itself, or by the server about an arrival, is not set right afterwards. */
export const FINAL: ReadonlySet<Kind> = new Set(['device.joined', 'device.revoked', 'entry.contested'])

/** An amendment names an entry of the same kind that is in the record and not withdrawn; a withdrawal names any such entry. */
export function amendmentIssues(entry: Entry, state: InvestigationState): Issue[] {
  if (entry.corrects === undefined)
    return entry.kind === 'entry.withdrawn'
      ? [issue('corrects', { expected: 'the entry to withdraw and the reason', received: undefined })]
      : []
  const target = entry.corrects.entry
  const first = state.record.firstOf.get(target)
  const versions = first === undefined ? undefined : state.record.versions.get(first)
  if (versions === undefined)
    return [issue('corrects.entry', { expected: 'an entry of this record', received: target })]
  if (versions.withdrawn !== undefined)
    return [issue('corrects.entry', { expected: 'an entry that was not withdrawn', received: target })]
  if (FINAL.has(versions.first.kind))
    return [issue('corrects.entry', { expected: 'an entry that can be corrected', received: versions.first.kind })]
  if (entry.kind !== 'entry.withdrawn' && entry.kind !== versions.first.kind)
    return [issue('kind', { expected: `the kind it amends (${versions.first.kind})`, received: entry.kind })]
  return []
}
