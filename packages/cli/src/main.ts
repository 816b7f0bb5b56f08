import { type CommandTable, dispatch } from './dispatch.ts'
import { processIo } from './process-io.ts'

/** Every command, loaded when it is called. To add one, add its line. */
const commands: CommandTable = {
  calc: async () => (await import('./calc.ts')).calcCommand,
}

process.exitCode = await dispatch({ commands, args: process.argv.slice(2), io: processIo() })
