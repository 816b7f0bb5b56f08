import { lstatSync, mkdirSync, statSync } from 'node:fs'
import { statfs } from 'node:fs/promises'
import { join } from 'node:path'
import { Attachments } from '../attachments/attachments.ts'
import { Pieces } from '../attachments/pieces.ts'
import { openServerKey, type ServerKey } from '../devices/server-key.ts'
import { SqliteLedger } from '../ledger/sqlite-ledger.ts'
import { Records } from '../records/records.ts'
import { DataProblem, dataProblemOf } from '../folder/data-problem.ts'
import { OWNER_ONLY_FOLDER, ownerOnlyFile, ownerOnlyFolder } from '../folder/owner-only.ts'
import { Room } from '../folder/room.ts'

/** What a data folder holds. */
export interface Data {
  readonly folder: string
  readonly ledger: SqliteLedger
  readonly records: Records
  readonly attachments: Attachments
  readonly pieces: Pieces
  readonly room: Room
}

/**
 * Opens a data folder, making it when absent.
 * @throws DataProblem when the folder or its database can't be used
 */
export function openData(folder: string): Data {
  const ledger = openLedger(folder)
  let key: ServerKey | undefined
  const records = new Records(ledger, {
    now: () => new Date().toISOString(),
    key: () => (key ??= openServerKey(folder)),
  })
  const attachments = new Attachments(join(folder, 'attachments'))
  const room = new Room({ freeBytes: () => freeBytesAt(folder), now: () => Date.now() })
  const pieces = new Pieces({
    attachments,
    folder: join(folder, 'attachments', 'unfinished'),
    now: () => Date.now(),
    room,
  })
  return { folder, ledger, records, attachments, pieces, room }
}

async function freeBytesAt(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder)
  return bavail * bsize
}

/** The same, after the database was looked through and found sound and writable. */
export function openSoundData(folder: string): Data {
  const data = openData(folder)
  try {
    data.ledger.examine()
    return data
  } catch (error) {
    void data.ledger.close()
    throw dataProblemOf(error) ?? error
  }
}

function openLedger(folder: string): SqliteLedger {
  try {
    // a path that is a link and leads nowhere can't be made a folder of
    if (lstatSync(folder, { throwIfNoEntry: false })?.isSymbolicLink() === true) statSync(folder)
    mkdirSync(folder, { recursive: true, mode: OWNER_ONLY_FOLDER })
    const path = join(folder, 'records.sqlite')
    ownerOnlyFile(path)
    ownerOnlyFolder(join(folder, 'attachments'))
    return new SqliteLedger(path)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT')
      throw new DataProblem({ expected: 'a folder', received: 'a link that leads nowhere' })
    throw dataProblemOf(error) ?? error
  }
}
