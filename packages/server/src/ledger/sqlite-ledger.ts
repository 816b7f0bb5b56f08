import { DatabaseSync, type StatementSync } from 'node:sqlite'
import { emptyHead, type Head, type Link } from '@rillmark/casebook/chain/link.ts'
import { checkContinuation } from '@rillmark/casebook/ledger/continuation.ts'
import type { Ledger } from '@rillmark/casebook/ledger/ledger.ts'
import { DataProblem } from '../folder/data-problem.ts'

const SCHEMA_VERSION = 2
const BUSY_MS = 5000

const SCHEMA = `
  CREATE TABLE IF NOT EXISTS links (
    investigation TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    id TEXT NOT NULL,
    received TEXT NOT NULL,
    previous TEXT NOT NULL,
    hash TEXT NOT NULL,
    entry TEXT NOT NULL,
    PRIMARY KEY (investigation, sequence)
  ) STRICT, WITHOUT ROWID;
  CREATE UNIQUE INDEX IF NOT EXISTS links_id ON links (investigation, id);
`
/** Format 2: what was found of a device's clock. */
const CLOCKS = 'ALTER TABLE links ADD COLUMN clock_ahead_s INTEGER;'

/** From one to the next by the index: as many steps as there are investigations, not entries. */
const INVESTIGATIONS = `
  WITH RECURSIVE each (investigation) AS (
    SELECT min(investigation) FROM links
    UNION ALL
    SELECT (SELECT min(investigation) FROM links WHERE investigation > each.investigation)
    FROM each WHERE each.investigation IS NOT NULL
  )
  SELECT investigation FROM each WHERE investigation IS NOT NULL
`

interface Row {
  readonly sequence: number
  readonly received: string
  readonly previous: string
  readonly hash: string
  readonly entry: string
  readonly clock_ahead_s: number | null
}

/**
 * A ledger in one SQLite file. A commit is one transaction, on disk when the promise resolves (write-ahead log, synchronous FULL).
 * Several processes may share the file: the head is always that of the last row, read inside the transaction that extends it.
 */
export class SqliteLedger implements Ledger {
  readonly #database: DatabaseSync
  readonly #statements: ReturnType<typeof prepare>

  /** @param path a file, made when absent, or ':memory:' */
  constructor(path: string) {
    this.#database = new DatabaseSync(path, { timeout: BUSY_MS })
    try {
      this.#database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF')
      this.#migrate()
      this.#statements = prepare(this.#database)
    } catch (error) {
      this.#database.close()
      throw error
    }
  }

  async commit(links: readonly Link[]): Promise<void> {
    const investigation = links[0]?.entry.investigation
    if (investigation === undefined) return
    this.#database.exec('BEGIN IMMEDIATE')
    try {
      const has = (id: string) => this.#statements.sequenceOf.get(investigation, id) !== undefined
      checkContinuation(links, { head: this.#head(investigation), has })
      for (const { sequence, received, previous, hash, entry, clockAheadS } of links) {
        const row = [investigation, sequence, entry.id, received, previous, hash, JSON.stringify(entry)]
        this.#statements.insert.run(...row, clockAheadS ?? null)
      }
      this.#database.exec('COMMIT')
    } catch (error) {
      if (this.#database.isTransaction) this.#database.exec('ROLLBACK')
      throw error
    }
  }

  async read(investigation: string, { after, limit }: { after: number; limit: number }): Promise<Link[]> {
    const rows = this.#statements.read.all(investigation, after, limit) as unknown as Row[]
    return rows.map(({ sequence, received, previous, hash, entry, clock_ahead_s: clockAheadS }) => ({
      sequence,
      received,
      previous,
      hash,
      entry: entryOf(entry, { investigation, sequence }),
      ...(clockAheadS === null ? {} : { clockAheadS }),
    }))
  }

  /**
   * What `read` gives, as the text of a JSON array: each entry goes out as it was stored, without being made an object and text again.
   * @throws DataProblem when one of them is no JSON
   */
  readJson(investigation: string, { after, limit }: { after: number; limit: number }): string {
    const rows = this.#statements.read.all(investigation, after, limit) as unknown as (Row & { sound: number })[]
    const links = rows.map(({ sequence, received, previous, hash, entry, clock_ahead_s: ahead, sound }) => {
      // what is not sound is told as `read` does
      if (sound !== 1) entryOf(entry, { investigation, sequence })
      const tie = JSON.stringify({ sequence, received, previous, hash })
      return `${tie.slice(0, -1)},"entry":${entry}${ahead === null ? '' : `,"clockAheadS":${ahead}`}}`
    })
    return `[${links.join(',')}]`
  }

  async head(investigation: string): Promise<Head> {
    return this.#head(investigation)
  }

  async sequencesOf(investigation: string, ids: readonly string[]): Promise<Map<string, number>> {
    const found = new Map<string, number>()
    for (const id of ids) {
      const row = this.#statements.sequenceOf.get(investigation, id)
      if (row !== undefined) found.set(id, Number(row['sequence']))
    }
    return found
  }

  async investigations(): Promise<string[]> {
    return this.#statements.investigations.all().map((row) => String(row['investigation']))
  }

  async forget(investigation: string): Promise<void> {
    this.#statements.forget.run(investigation)
  }

  /**
   * Looks through the whole file and writes nothing into it but that it may.
   * @throws DataProblem when it is damaged, and what the database throws when it can't be written
   */
  examine(): void {
    const found = this.#database.prepare('PRAGMA quick_check(1)').get()?.['quick_check']
    if (found !== 'ok')
      throw new DataProblem({
        expected: 'a sound records.sqlite',
        received: 'a damaged file: restore it from a copy, or import a package',
      })
    this.#database.exec('BEGIN IMMEDIATE; ROLLBACK')
  }

  async close(): Promise<void> {
    if (this.#database.isOpen) this.#database.close()
  }

  #head(investigation: string): Head {
    const row = this.#statements.head.get(investigation)
    return row === undefined
      ? emptyHead(investigation)
      : { sequence: Number(row['sequence']), hash: String(row['hash']) }
  }

  #migrate(): void {
    if (this.#version() === SCHEMA_VERSION) return
    // another process may be at it too: what is there is looked at once it is let in
    this.#database.exec('BEGIN IMMEDIATE')
    const version = this.#version()
    if (version < 1) this.#database.exec(SCHEMA)
    if (version < 2) this.#database.exec(CLOCKS)
    this.#database.exec(`PRAGMA user_version = ${SCHEMA_VERSION}; COMMIT`)
  }

  #version(): number {
    const version = Number(this.#database.prepare('PRAGMA user_version').get()?.['user_version'])
    if (version <= SCHEMA_VERSION) return version
    throw new DataProblem({
      expected: `records.sqlite in format ${SCHEMA_VERSION} or older`,
      received: `format ${version}, written by a newer version of this program`,
    })
  }
}

function entryOf(text: string, at: { investigation: string; sequence: number }): Link['entry'] {
  try {
    return JSON.parse(text) as Link['entry']
  } catch {
    const expected = `entry ${at.sequence} of ${at.investigation} as it was written`
    throw new DataProblem({ expected, received: 'damaged text: restore records.sqlite from a copy' })
  }
}

function prepare(database: DatabaseSync) {
  const of = (sql: string): StatementSync => database.prepare(sql)
  return {
    insert: of(
      'INSERT INTO links (investigation, sequence, id, received, previous, hash, entry, clock_ahead_s) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    ),
    read: of(
      'SELECT sequence, received, previous, hash, entry, clock_ahead_s, json_valid(entry) AS sound FROM links WHERE investigation = ? AND sequence > ? ORDER BY sequence LIMIT ?',
    ),
    head: of('SELECT sequence, hash FROM links WHERE investigation = ? ORDER BY sequence DESC LIMIT 1'),
    sequenceOf: of('SELECT sequence FROM links WHERE investigation = ? AND id = ?'),
    investigations: of(INVESTIGATIONS),
    forget: of('DELETE FROM links WHERE investigation = ?'),
  }
}
