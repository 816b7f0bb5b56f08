import { commands } from './commands.ts'
import { dispatch } from './dispatch.ts'
import { processIo } from './process-io.ts'

process.exitCode = await dispatch({ commands, args: process.argv.slice(2), io: processIo() })
