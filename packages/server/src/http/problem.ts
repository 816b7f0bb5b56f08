import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { ToldProblem } from '../folder/told-problem.ts'

/** Something wrong with a request, to be told with a status and issues. */
export class Problem extends ToldProblem {
  override readonly name = 'Problem'
  readonly statusCode: number

  constructor(statusCode: number, issues: readonly Issue[]) {
    super(issues)
    this.statusCode = statusCode
  }
}

export function problem(
  statusCode: number,
  { path = '', expected, received }: { path?: string; expected: string; received: string | undefined },
): Problem {
  return new Problem(statusCode, [statedIssue(path, { expected, received: received?.slice(0, LONGEST_TOLD) })])
}

/** An address or header can be far longer than a message should be. */
const LONGEST_TOLD = 200
