import { deepStrictEqual, strictEqual } from 'node:assert/strict'
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { createHash } from 'node:crypto'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { buildApp } from '@rillmark/server/api/app.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { openServerKey } from '@rillmark/server/devices/server-key.ts'

export const INVESTIGATION = 'marram-house'
/** the server answers to names of its own machine only */
export const LOCAL = { host: 'localhost:8710' }

/** A server with one small record, and the means to see that nothing happened to it. */
export async function serverUnderTest() {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-bad-input-'))
  const data = openData(folder)
  const failures: unknown[] = []
  const app = await buildApp({
    data,
    appFolder: join(folder, 'no-app'),
    loopbackOnly: true,
    log: (error) => failures.push(error),
  })
  const { make } = entryMaker(INVESTIGATION)
  await data.records.append(INVESTIGATION, [
    make('investigation.opened', {
      title: 'Marram House',
      setting: 'hotel',
      openedOn: '2026-03-02',
      reason: 'two cases',
    }),
    make('note.written', { text: 'one', purpose: 'note' }),
  ])
  // it is made when it is first asked for, by whatever question
  openServerKey(folder)
  const fingerprint = async () => ({ files: filesIn(folder), heads: await headsOf(data) })
  const before = await fingerprint()
  return {
    app,
    /** @throws AssertionError when a file or a record changed, something failed inside, or the server is deaf */
    assertUnharmed: async () => {
      deepStrictEqual(await fingerprint(), before)
      deepStrictEqual(failures, [])
      strictEqual((await app.inject({ url: '/api/health', headers: LOCAL })).statusCode, 200)
    },
    close: async () => {
      await app.close()
      await data.ledger.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

export type ServerUnderTest = Awaited<ReturnType<typeof serverUnderTest>>

/** The database's own working files change by being read; they are known by name only. */
function filesIn(folder: string): string[] {
  return (readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => statSync(join(folder, name)).isFile())
    .map((name) =>
      name.startsWith('records.sqlite')
        ? name
        : `${name} ${createHash('sha256')
            .update(readFileSync(join(folder, name)))
            .digest('hex')}`,
    )
    .toSorted()
}

async function headsOf({ ledger }: ReturnType<typeof openData>): Promise<string[]> {
  const ids = await ledger.investigations()
  return Promise.all(ids.map(async (id) => `${id} ${JSON.stringify(await ledger.head(id))}`))
}
