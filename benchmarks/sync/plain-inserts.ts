import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import type { Load } from './load.ts'

/** The same bytes into SQLite as they are: a row for each batch's entries and each photo, with the same durability, nothing checked. */
export function plainInserts(folder: string, loads: readonly Load[]): number {
  const began = performance.now()
  const database = new DatabaseSync(join(folder, 'plain.sqlite'))
  database.exec(`PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
    CREATE TABLE entries (number INTEGER PRIMARY KEY, entry TEXT); CREATE TABLE photos (name TEXT PRIMARY KEY, bytes BLOB)`)
  const entry = database.prepare('INSERT INTO entries (entry) VALUES (?)')
  const photo = database.prepare('INSERT INTO photos VALUES (?, ?)')
  for (const { batches, photos } of loads) {
    for (const batch of batches) {
      database.exec('BEGIN')
      for (const each of (JSON.parse(batch) as { entries: unknown[] }).entries) entry.run(JSON.stringify(each))
      database.exec('COMMIT')
    }
    for (const { sha256, content } of photos) photo.run(sha256, content)
  }
  database.close()
  return performance.now() - began
}
