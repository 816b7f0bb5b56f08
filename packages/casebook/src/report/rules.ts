import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { Entry } from '../entry/entry.ts'
import type { Kind } from '../entry/kinds.ts'
import type { Rule, Rules } from '../rules/rule.ts'

/** A report speaks of a whole record: it can be issued only of the record as it stands, not of an older or a longer one. */
const namesPresentHead: Rule<'report.issued'> = ({ body, seen }, { state, amends }) => {
  const issuedAs = state.report.issued.find(({ id }) => id === amends)
  const expected = issuedAs === undefined ? state.record.entries.length : issuedAs.body.headSequence
  const oldest = issuedAs === undefined ? oldestHead(state.record.entries, seen ?? expected) : expected
  return body.headSequence >= oldest && body.headSequence <= expected
    ? []
    : [
        issue('body.headSequence', {
          expected: `${expected}, the last entry of the record as it stands`,
          received: body.headSequence,
        }),
      ]
}

/** The earliest head that is still the present one for the writer: after it came only what was not seen, or what devices say of themselves. */
function oldestHead(entries: readonly Entry[], seen: number): number {
  let head = entries.length
  while (head > 0 && (head > seen || SAYS_NOTHING.has(entries[head - 1]?.kind ?? 'report.issued'))) head -= 1
  return head
}

const SAYS_NOTHING: ReadonlySet<Kind> = new Set(['device.joined', 'device.revoked'])

const hasSomethingToReport: Rule<'report.issued'> = (_, { state }) =>
  state.record.entries.length > 0
    ? []
    : [issue('body.headSequence', { expected: 'a record with entries', received: 'an empty one' })]

/** The bytes that were given out and the record they spoke of can't be set right afterwards: that is another report. */
const bytesStand: Rule<'report.issued'> = ({ body }, { state, amends }) => {
  const before = state.report.issued.find(({ id }) => id === amends)?.body
  if (before === undefined) return []
  return (['sha256', 'headHash', 'variant'] as const).flatMap((field) =>
    body[field] === before[field]
      ? []
      : [issue(`body.${field}`, { expected: `${before[field]}, as issued`, received: body[field] })],
  )
}

export const reportRules: Rules = {
  'report.issued': [namesPresentHead, hasSomethingToReport, bytesStand],
}
