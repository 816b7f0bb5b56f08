import { type Command, type CommandIo, exitCode } from './command.ts'

/** Commands by name, each loaded when it is called. */
export type CommandTable = Record<string, () => Promise<Command>>

export interface Invocation {
  commands: CommandTable
  args: string[]
  io: CommandIo
}

/** Runs the command the arguments name; resolves to the exit code of the process. */
export async function dispatch({ commands, args, io }: Invocation): Promise<number> {
  const [name, ...rest] = args
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    io.out(await overview(commands))
    return exitCode.success
  }
  const load = Object.hasOwn(commands, name) ? commands[name] : undefined
  if (load === undefined) {
    io.err(`command: expected one of ${Object.keys(commands).join(', ')}, received ${JSON.stringify(name)}\n`)
    return exitCode.unusableInput
  }
  try {
    const command = await load()
    if (rest.includes('--help') || rest.includes('-h')) {
      io.out(`${command.help.trimEnd()}\n`)
      return exitCode.success
    }
    return await command.run(rest, io)
  } catch (error) {
    io.err(`rillmark ${name} failed: ${error instanceof Error ? error.message : String(error)}\n`)
    return exitCode.internalFailure
  }
}

async function overview(commands: CommandTable): Promise<string> {
  const loaded = await Promise.all(Object.values(commands).map((load) => load()))
  const width = Math.max(...loaded.map(({ name }) => name.length))
  const lines = loaded.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`)
  return `Usage: rillmark COMMAND [options]\n\nCommands:\n${lines.join('\n')}\n\nrillmark COMMAND --help tells more about one.\n`
}
