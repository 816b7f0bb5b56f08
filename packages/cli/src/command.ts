import type { Issue } from '@rillmark/science/catalogue/issue.ts'

/** Input that can't be used, found where no list of issues can be handed back. */
export class UnusableInput extends Error {
  override readonly name = 'UnusableInput'
  readonly issues: readonly Issue[]

  constructor(issues: readonly Issue[]) {
    super('input that can’t be used')
    this.issues = issues
  }
}

/** What a command may touch of the world: handed in, so that tests need no process. */
export interface CommandIo {
  /** All of standard input. */
  stdin(): Promise<string>
  /** Standard input line by line, as it arrives; commands fall back to `stdin` where it is absent. */
  stdinLines?(): AsyncIterable<string>
  /** Writes to standard output as is. */
  out(text: string): void
  /** Writes to standard error as is. */
  err(text: string): void
  /** Waits until what was written has been taken up; without it a slow reader would fill the memory. */
  drained?(): Promise<void>
  cwd: string
  /** Whether standard output is a terminal: a person reads it there, a program elsewhere. */
  terminal?: boolean
  /** Opens an address in the browser where there is one; says whether it was tried. */
  open?(address: string): boolean
  /** Whether standard error is a terminal somebody watches: progress is shown there and nowhere else. */
  watched?: boolean
}

/** One subcommand of `rillmark`. */
export interface Command {
  name: string
  /** What `--help` prints. */
  help: string
  /** Runs with the arguments after the name; resolves to the exit code. */
  run(args: string[], io: CommandIo): Promise<number>
}

/** How every command ends. */
export const exitCode = { success: 0, internalFailure: 1, unusableInput: 2 } as const
