import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type CommandIo, exitCode } from './command.ts'

/** One line for a problem: path of the field, what was expected, what was received. */
export function problemLine({ path, expected, received }: Issue): string {
  return `${path === '' ? 'input' : path}: expected ${expected}, received ${received}`.replaceAll(/\s*[\r\n]+\s*/g, ' ')
}

/** Reports problems on standard error, a line each; resolves to the exit code for unusable input. */
export function reportProblems(issues: readonly Issue[], io: CommandIo): number {
  for (const issue of issues) io.err(`${problemLine(issue)}\n`)
  return exitCode.unusableInput
}
