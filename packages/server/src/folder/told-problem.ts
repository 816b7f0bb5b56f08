import type { Issue } from '@rillmark/science/catalogue/issue.ts'

/** What was expected and what was there instead, in our own words. */
export interface Told {
  readonly expected: string
  readonly received: string
}

/** What a code of the system, the database or the protocol means, in words. */
export type ToldBy<Code extends string | number> = Readonly<Partial<Record<Code, Told>>>

/** A failure whose cause lies outside the program, told by issues. */
export abstract class ToldProblem extends Error {
  readonly issues: readonly Issue[]

  constructor(issues: readonly Issue[]) {
    super(
      issues.map(({ path, expected, received }) => `${path}: expected ${expected}, received ${received}`).join('; '),
    )
    this.issues = issues
  }
}
