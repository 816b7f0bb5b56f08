import type { Command, CommandIo } from './command.ts'

/** Runs a command as in a folder, and gives back what it said and how it ended. */
export async function runIn(folder: string, { command, args }: { command: Command; args: string[] }) {
  let [out, err] = ['', '']
  const io: CommandIo = {
    stdin: async () => '',
    out: (text) => (out += text),
    err: (text) => (err += text),
    cwd: folder,
  }
  return { code: await command.run(args, io), out, err }
}
