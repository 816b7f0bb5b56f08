import { readFile, writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { describeReceived, type Issue } from '@rillmark/science/catalogue/issue.ts'
import type { CommandIo } from './command.ts'

/** JSON from a file, or from standard input where no file or `-` is named. */
export async function readJson(
  file: string | undefined,
  io: CommandIo,
): Promise<{ value: unknown } | { issues: Issue[] }> {
  const read = await readText(file, io)
  if ('issues' in read) return read
  try {
    return { value: JSON.parse(read.text.replace(/^\uFEFF/, '')) as unknown }
  } catch {
    const received = read.text.trim() === '' ? 'nothing' : describeReceived(read.text.trim())
    return { issues: [{ path: '', expected: 'JSON', received }] }
  }
}

/** Text from a file, or from standard input where no file or `-` is named. */
export async function readText(
  file: string | undefined,
  io: CommandIo,
): Promise<{ text: string } | { issues: Issue[] }> {
  if (file === undefined || file === '-') return { text: await io.stdin() }
  try {
    return { text: await readFile(resolve(io.cwd, file), 'utf8') }
  } catch (error) {
    const received = `${file} (${(error as NodeJS.ErrnoException).code ?? 'unreadable'})`
    return { issues: [{ path: 'FILE', expected: 'a file that can be read', received }] }
  }
}

/** Writes to a file, or to standard output where none is named; issues where it can't be written. */
export async function writeOutput(
  given: { file: string | undefined; content: string | Uint8Array },
  io: CommandIo,
): Promise<Issue[]> {
  const { file, content } = given
  if (file === undefined) {
    io.out(typeof content === 'string' ? content : Buffer.from(content).toString('latin1'))
    return []
  }
  try {
    await writeFile(resolve(io.cwd, file), content)
    return []
  } catch (error) {
    const received = `${file} (${(error as NodeJS.ErrnoException).code ?? 'not writable'})`
    return [{ path: '-o', expected: 'a file that can be written', received }]
  }
}
