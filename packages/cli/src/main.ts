import { type CommandTable, dispatch } from './dispatch.ts'
import { processIo } from './process-io.ts'

/** Every command, loaded when it is called. To add one, add its line. */
const commands: CommandTable = {
  report: async () => (await import('./report.ts')).reportCommand,
  export: async () => (await import('./export.ts')).exportCommand,
  import: async () => (await import('./import.ts')).importCommand,
  verify: async () => (await import('./verify.ts')).verifyCommand,
  start: async () => (await import('./start.ts')).startCommand,
  plan: async () => (await import('./plan.ts')).planCommand,
  schema: async () => (await import('./schema.ts')).schemaCommand,
  calc: async () => (await import('./calc.ts')).calcCommand,
  system: async () => (await import('./system.ts')).systemCommand,
}

process.exitCode = await dispatch({ commands, args: process.argv.slice(2), io: processIo() })
