import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { type Data, openData } from '@rillmark/server/data/open-data.ts'
import type { CommandIo } from './command.ts'
import { reportProblems } from './problems.ts'

/** Opens a data folder that exists, lets the work run, and closes it whatever happens. */
export async function withData(
  { folder, io }: { folder: string; io: CommandIo },
  work: (data: Data) => Promise<number>,
): Promise<number> {
  const path = resolve(io.cwd, folder)
  if (!existsSync(join(path, 'records.sqlite')))
    return reportProblems([{ path: '--data', expected: 'a data folder of rillmark start', received: folder }], io)
  const data = openData(path)
  try {
    return await work(data)
  } finally {
    await data.ledger.close()
  }
}
