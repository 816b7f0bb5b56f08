import { type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'

/**
 * Reports problems on standard error, a line each; resolves to the exit code for unusable input. The part of the building a problem
 * is at is named after it, for nobody counts components in a long file.
 */
export function reportProblems(issues: readonly (Issue & { component?: string | undefined })[], io: CommandIo): number {
  for (const issue of issues)
    io.err(`${issueLine(issue)}${issue.component === undefined ? '' : ` (${issue.component})`}\n`)
  return exitCode.unusableInput
}
