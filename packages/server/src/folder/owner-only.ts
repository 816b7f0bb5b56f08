import { chmodSync, closeSync, openSync, statSync } from 'node:fs'

export const OWNER_ONLY_FOLDER = 0o700
const OWNER_ONLY_FILE = 0o600

/** Makes a database's file where there is none, for its owner's eyes only; what the database puts beside it takes the same permissions. */
export function ownerOnlyFile(path: string): void {
  try {
    closeSync(openSync(path, 'wx', OWNER_ONLY_FILE))
  } catch (error) {
    // whatever stands there, the database says what is wrong with it
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
    if (statSync(path, { throwIfNoEntry: false })?.isFile() !== true) return
  }
  restrict(path, OWNER_ONLY_FILE)
}

/** The same for a folder, where it is there. */
export function ownerOnlyFolder(path: string): void {
  restrict(path, OWNER_ONLY_FOLDER)
}

/** What belongs to another account of this machine, or lies where there are no permissions, stays as that account keeps it. */
function restrict(path: string, mode: number): void {
  try {
    chmodSync(path, mode)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code !== 'ENOENT' && code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'EROFS') throw error
  }
}
