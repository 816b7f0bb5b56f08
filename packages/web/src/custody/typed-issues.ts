import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { readTypedQuantity } from '../form/typed-quantity.ts'
import { instantIn } from '../store/typed-values.ts'

/** What was typed and can't be used as it stands: nothing is dropped in silence. */
export function typedIssues(typed: { at?: string; temperature?: string; seal?: string }): Issue[] {
  const { at = '', temperature = '', seal } = typed
  const issues: Issue[] = []
  if (at !== '' && instantIn(at) === undefined)
    issues.push(issue('when', { expected: 'a date and a time of day', received: at.replace('T', ' ') }))
  if (readTypedQuantity(temperature).kind === 'unreadable')
    issues.push(issue('temperature', { expected: 'a temperature', received: temperature }))
  if (seal === '') issues.push(issue('seal', { expected: 'whether the seal was whole', received: undefined }))
  return issues
}
