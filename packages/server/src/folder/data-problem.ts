import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { type Told, type ToldBy, ToldProblem } from './told-problem.ts'

/** Why a data folder can't be used, in words for whoever started the program; what is wrong is outside it. */
export class DataProblem extends ToldProblem {
  override readonly name = 'DataProblem'

  constructor(told: Told) {
    super([statedIssue('--data', told)])
  }
}

const FILE_TROUBLE: ToldBy<string> = {
  EACCES: { expected: 'a folder that may be written', received: 'one without permission' },
  EPERM: { expected: 'a folder that may be written', received: 'one without permission' },
  EROFS: { expected: 'a folder that may be written', received: 'one on a disk that is read only' },
  EEXIST: { expected: 'a folder', received: 'a file' },
  ENOTDIR: { expected: 'a folder', received: 'a path that leads through a file' },
  ELOOP: { expected: 'a folder', received: 'a link that leads nowhere' },
  ENOSPC: { expected: 'room on the disk', received: 'a full disk' },
  ENAMETOOLONG: { expected: 'a shorter path', received: 'a longer one than the disk takes' },
  ERR_INVALID_ARG_VALUE: { expected: 'a path', received: 'text that is none' },
}

/** Primary result codes of SQLite (sqlite.org/rescode.html; known from memory), as they stand in the lowest byte. */
const DATABASE_TROUBLE: ToldBy<number> = {
  5: { expected: 'records.sqlite free to write', received: 'a file another program holds locked' },
  8: { expected: 'records.sqlite free to write', received: 'a file or folder that is read only' },
  10: { expected: 'a disk that can be read and written', received: 'an error of the disk' },
  11: { expected: 'a sound records.sqlite', received: 'a damaged file: restore it from a copy, or import a package' },
  13: { expected: 'room on the disk', received: 'a full disk' },
  14: { expected: 'records.sqlite to open', received: 'a file that can’t be opened, or a folder that is read only' },
  26: { expected: 'a records.sqlite of this program', received: 'a file that is no database' },
}

/** The problem behind a failure of the disk or the database; undefined for anything else. */
export function dataProblemOf(error: unknown): DataProblem | undefined {
  if (error instanceof DataProblem) return error
  if (!(error instanceof Error)) return undefined
  const { code, errcode } = error as { code?: unknown; errcode?: unknown }
  const told =
    typeof errcode === 'number' ? DATABASE_TROUBLE[errcode & 0xff] : FILE_TROUBLE[typeof code === 'string' ? code : '']
  return told === undefined ? undefined : new DataProblem(told)
}
