import { chmodSync, closeSync, openSync } from 'node:fs'
import { DatabaseSync } from 'node:sqlite'
import { DataProblem } from '../folder/data-problem.ts'

const BUSY_MS = 5000
const OWNER_ONLY = 0o600

/** What each format adds to the one before it, the first at index 0. A step that was ever released is not changed again. */
const UPGRADES = [
  `
  CREATE TABLE devices (
    id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL, key TEXT NOT NULL, thumbprint TEXT NOT NULL UNIQUE,
    enrolled INTEGER NOT NULL, invited_by TEXT NOT NULL, seen INTEGER NOT NULL,
    revoked INTEGER, reason TEXT, revoked_by TEXT, recorded INTEGER NOT NULL DEFAULT 0
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE invitations (
    id TEXT PRIMARY KEY, hash TEXT NOT NULL, role TEXT NOT NULL, name TEXT, made_by TEXT NOT NULL,
    expires INTEGER NOT NULL, used_by TEXT
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE sessions (
    id TEXT PRIMARY KEY, hash TEXT NOT NULL, previous TEXT, rotated INTEGER NOT NULL,
    device TEXT NOT NULL REFERENCES devices (id), made INTEGER NOT NULL, used INTEGER NOT NULL
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX sessions_device ON sessions (device);
  CREATE TABLE links (
    number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, hash TEXT NOT NULL,
    investigation TEXT NOT NULL, consignment TEXT NOT NULL, made INTEGER NOT NULL, made_by TEXT NOT NULL,
    expires INTEGER NOT NULL, received TEXT, revoked INTEGER
  ) STRICT;
  CREATE INDEX links_investigation ON links (investigation);
`,
  // who made it, by the name of the device in the register: what it calls itself is free, and another may be called the same
  `
  ALTER TABLE invitations ADD COLUMN maker TEXT;
  ALTER TABLE links ADD COLUMN maker TEXT;
  ALTER TABLE devices ADD COLUMN revoked_by_device TEXT;
`,
]
const SCHEMA_VERSION = UPGRADES.length

/**
 * Opens the register of who may come in: one SQLite file beside the records, readable by its owner only. Every commit is on disk when the
 * call returns, so that a revoked device stays out whatever happens next.
 *
 * @param path a file, made when absent
 */
export function openAccessDatabase(path: string): DatabaseSync {
  const database = opened(path)
  try {
    database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF')
    migrate(database)
    return database
  } catch (error) {
    database.close()
    throw told(error)
  }
}

function opened(path: string): DatabaseSync {
  try {
    // before the database makes its working files: they take its permissions
    closeSync(openSync(path, 'a', OWNER_ONLY))
    chmodSync(path, OWNER_ONLY)
    return new DatabaseSync(path, { timeout: BUSY_MS })
  } catch (error) {
    throw told(error)
  }
}

function migrate(database: DatabaseSync): void {
  const version = versionOf(database)
  if (version > SCHEMA_VERSION)
    throw new DataProblem({
      expected: `access.sqlite in format ${SCHEMA_VERSION} or older`,
      received: `format ${version}, written by a newer version of this program`,
    })
  if (version < SCHEMA_VERSION)
    inTransaction(database, () => {
      // another process may have been quicker
      for (const step of UPGRADES.slice(versionOf(database))) database.exec(step)
      database.exec(`PRAGMA user_version = ${SCHEMA_VERSION}`)
    })
}

function versionOf(database: DatabaseSync): number {
  return Number(database.prepare('PRAGMA user_version').get()?.['user_version'])
}

function told(error: unknown): unknown {
  if (error instanceof DataProblem || !(error instanceof Error)) return error
  return new DataProblem({ expected: 'access.sqlite to open', received: error.message })
}

/** Runs work all or nothing. */
export function inTransaction<T>(database: DatabaseSync, work: () => T): T {
  database.exec('BEGIN IMMEDIATE')
  try {
    const result = work()
    database.exec('COMMIT')
    return result
  } catch (error) {
    if (database.isTransaction) database.exec('ROLLBACK')
    throw error
  }
}
