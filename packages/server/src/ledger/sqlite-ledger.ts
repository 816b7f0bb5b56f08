import { DatabaseSync, type StatementSync } from 'node:sqlite'
import { emptyHead, type Head, type Link } from '@rillmark/casebook/chain/link.ts'
import { checkContinuation } from '@rillmark/casebook/ledger/continuation.ts'
import type { Ledger } from '@rillmark/casebook/ledger/ledger.ts'

const SCHEMA_VERSION = 1
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

interface Row {
  readonly sequence: number
  readonly received: string
  readonly previous: string
  readonly hash: string
  readonly entry: string
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
    this.#database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF')
    this.#migrate(path)
    this.#statements = prepare(this.#database)
  }

  async commit(links: readonly Link[]): Promise<void> {
    const investigation = links[0]?.entry.investigation
    if (investigation === undefined) return
    this.#database.exec('BEGIN IMMEDIATE')
    try {
      const has = (id: string) => this.#statements.sequenceOf.get(investigation, id) !== undefined
      checkContinuation(links, { head: this.#head(investigation), has })
      for (const { sequence, received, previous, hash, entry } of links)
        this.#statements.insert.run(investigation, sequence, entry.id, received, previous, hash, JSON.stringify(entry))
      this.#database.exec('COMMIT')
    } catch (error) {
      if (this.#database.isTransaction) this.#database.exec('ROLLBACK')
      throw error
    }
  }

  async read(investigation: string, { after, limit }: { after: number; limit: number }): Promise<Link[]> {
    const rows = this.#statements.read.all(investigation, after, limit) as unknown as Row[]
    return rows.map(({ sequence, received, previous, hash, entry }) => ({
      sequence,
      received,
      previous,
      hash,
      entry: JSON.parse(entry) as Link['entry'],
    }))
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

  async close(): Promise<void> {
    if (this.#database.isOpen) this.#database.close()
  }

  #head(investigation: string): Head {
    const row = this.#statements.head.get(investigation)
    return row === undefined
      ? emptyHead(investigation)
      : { sequence: Number(row['sequence']), hash: String(row['hash']) }
  }

  #migrate(path: string): void {
    const version = Number(this.#database.prepare('PRAGMA user_version').get()?.['user_version'])
    if (version > SCHEMA_VERSION)
      throw new RangeError(`Cannot open ${path} because a newer version of the program wrote it: got format ${version}`)
    if (version < SCHEMA_VERSION)
      this.#database.exec(`BEGIN IMMEDIATE; ${SCHEMA} PRAGMA user_version = ${SCHEMA_VERSION}; COMMIT`)
  }
}

function prepare(database: DatabaseSync) {
  const of = (sql: string): StatementSync => database.prepare(sql)
  return {
    insert: of(
      'INSERT INTO links (investigation, sequence, id, received, previous, hash, entry) VALUES (?, ?, ?, ?, ?, ?, ?)',
    ),
    read: of(
      'SELECT sequence, received, previous, hash, entry FROM links WHERE investigation = ? AND sequence > ? ORDER BY sequence LIMIT ?',
    ),
    head: of('SELECT sequence, hash FROM links WHERE investigation = ? ORDER BY sequence DESC LIMIT 1'),
    sequenceOf: of('SELECT sequence FROM links WHERE investigation = ? AND id = ?'),
    investigations: of('SELECT DISTINCT investigation FROM links ORDER BY investigation'),
    forget: of('DELETE FROM links WHERE investigation = ?'),
  }
}
