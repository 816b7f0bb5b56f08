import { readFile, realpath, stat, writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { describeReceived, type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { writeWhole } from '@rillmark/server/folder/write-whole.ts'
import type { CommandIo } from './command.ts'

type Read<T> = T | { issues: Issue[] }

/** JSON from a file, or from standard input where no file or `-` is named. */
export async function readJson(file: string | undefined, io: CommandIo): Promise<Read<{ value: unknown }>> {
  const read = await readText(file, io)
  if ('issues' in read) return read
  try {
    return { value: JSON.parse(read.text.replace(/^\uFEFF/, '')) as unknown }
  } catch (error) {
    const received = read.text.trim() === '' ? 'nothing' : describeReceived(read.text.trim()) + placeOf(error)
    return { issues: [{ path: '', expected: 'JSON', received }] }
  }
}

/** Where text stops being JSON, as far as the parser tells: a line and column, or what stands around it. */
function placeOf(error: unknown): string {
  const told = error instanceof Error ? error.message : ''
  const [, line, column] = /\(line (\d+) column (\d+)\)/.exec(told) ?? []
  if (line !== undefined) return `, no JSON from line ${line}, column ${column} on`
  const around = /\.\.\.(.*)\.\.\. is not valid JSON/s.exec(told)?.[1]
  return around === undefined ? '' : `, no JSON about ${describeReceived(around.trim())}`
}

/** Larger than this, no description of a building and no request is. */
const LARGEST_TEXT_BYTES = 100 * 1024 * 1024

/** Text from a file, or from standard input where no file or `-` is named. */
export async function readText(file: string | undefined, io: CommandIo): Promise<Read<{ text: string }>> {
  if (file === undefined || file === '-') return { text: await io.stdin() }
  const read = await readBytes({ file, largestBytes: LARGEST_TEXT_BYTES }, io)
  if ('issues' in read) return read
  const text = utf8(read.bytes)
  return text === undefined ? { issues: [NOT_UTF8] } : { text }
}

/** What is said of text in another encoding. */
export const NOT_UTF8 = statedIssue('', { expected: 'text in UTF-8', received: 'another encoding or a binary file' })

/** Bytes as text; undefined where they are no UTF-8. */
export function utf8(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}

/** The bytes of a file that is not larger than it may be. */
export async function readBytes(
  { file, largestBytes }: { file: string; largestBytes: number },
  io: CommandIo,
): Promise<Read<{ bytes: Uint8Array }>> {
  const path = resolve(io.cwd, file)
  try {
    const { size } = await stat(path)
    if (size > largestBytes) {
      const megabytes = (bytes: number): string => `${Math.ceil(bytes / 1024 / 1024)} MB`
      const told = { expected: `a file of at most ${megabytes(largestBytes)}`, received: megabytes(size) }
      return { issues: [statedIssue('FILE', told)] }
    }
    return { bytes: await readFile(path) }
  } catch (error) {
    return { issues: [fileIssue('FILE', { expected: 'a file that can be read', file, error })] }
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
    await replaceFile(resolve(io.cwd, file), content)
    return []
  } catch (error) {
    return [fileIssue('-o', { expected: 'a file that can be written', file, error })]
  }
}

/** All or nothing, through links and with the permissions of the file before. */
async function replaceFile(named: string, content: string | Uint8Array): Promise<void> {
  const path = await realpath(named).catch(() => named)
  const there = await stat(path).catch(() => undefined)
  // a device or pipe can't be put in place, only written to; a folder refuses by itself
  if (there !== undefined && !there.isFile()) return writeFile(path, content)
  await writeWhole(path, { content, mode: there?.mode })
}

const TROUBLE: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EISDIR: 'a folder',
  ENOTDIR: 'a path that leads through a file',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'a disk that is read only',
  ENOSPC: 'a full disk',
  ENAMETOOLONG: 'too long a path',
}

function fileIssue(path: string, { expected, file, error }: { expected: string; file: string; error: unknown }): Issue {
  const code = (error as NodeJS.ErrnoException).code ?? 'unreadable'
  return statedIssue(path, { expected, received: `${file} (${TROUBLE[code] ?? code})` })
}
