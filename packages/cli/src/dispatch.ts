import { DataProblem } from '@rillmark/server/folder/data-problem.ts'
import { type Command, type CommandIo, exitCode, UnusableInput } from './command.ts'
import { reportProblems } from './problems.ts'

/** Commands by name: a line for the list of commands, and the command itself, loaded when it is called. */
export type CommandTable = Record<string, { readonly summary: string; readonly load: () => Promise<Command> }>

export interface Invocation {
  commands: CommandTable
  args: string[]
  io: CommandIo
}

/** Runs the command the arguments name; resolves to the exit code of the process. */
export async function dispatch({ commands, args, io }: Invocation): Promise<number> {
  const [name, ...rest] = args
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    io.out(overview(commands))
    return exitCode.success
  }
  const known = Object.hasOwn(commands, name) ? commands[name] : undefined
  if (known === undefined) {
    io.err(`command: expected one of ${Object.keys(commands).join(', ')}, received ${JSON.stringify(name)}\n`)
    return exitCode.unusableInput
  }
  try {
    const command = await known.load()
    if (rest.includes('--help') || rest.includes('-h')) {
      io.out(`${command.help.trimEnd()}\n`)
      return exitCode.success
    }
    return await command.run(rest, io)
  } catch (error) {
    if (error instanceof DataProblem || error instanceof UnusableInput) return reportProblems(error.issues, io)
    io.err(`rillmark ${name} failed: ${error instanceof Error ? error.message : String(error)}\n`)
    return exitCode.internalFailure
  }
}

function overview(commands: CommandTable): string {
  const width = Math.max(...Object.keys(commands).map((name) => name.length))
  const lines = Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`)
  return `Usage: rillmark COMMAND [options]\n\nCommands:\n${lines.join('\n')}\n\nrillmark COMMAND --help tells more about one.\n`
}
