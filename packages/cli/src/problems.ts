import { type Issue, issueLine } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'

/** Reports problems on standard error, a line each; resolves to the exit code for unusable input. */
export function reportProblems(issues: readonly Issue[], io: CommandIo): number {
  for (const issue of issues) io.err(`${issueLine(issue)}\n`)
  return exitCode.unusableInput
}
