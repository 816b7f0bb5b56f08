import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { requireBuiltApp } from '../../scripts/phases/running-app.ts'
import { openStop, type Shown, takePhoto, writeNote } from './capture.ts'
import { cutProxy } from './cut-proxy.ts'
import { brokenInBrowser } from './kept-in-browser.ts'
import { brokenOnServer } from './kept-on-server.ts'
import { openBrowser } from './killable-browser.ts'
import { planVisit } from './plan-visit.ts'
import { Requests } from './requests.ts'
import { chance } from './seed.ts'
import { startServer } from './server-process.ts'

const INVESTIGATION = 'faults-lost-database'
const SYNCED = { state: 'attached', timeout: 60_000 } as const

const root = mkdtempSync(join(tmpdir(), 'rillmark-lost-'))
afterAll(() => rmSync(root, { recursive: true, force: true, maxRetries: 10 }))

// What Chromium does by itself where the log of the database ends in half a record and was then written on
// (https://github.com/google/leveldb/issues/1287): it begins an empty one.
test('[OFF15] what waited for the server is back after the browser lost its whole database, and reaches the server once', async () => {
  requireBuiltApp()
  const server = await startServer({ dataFolder: join(root, 'data') })
  const proxy = await cutProxy({ target: () => server.url, plan: () => ({ up: undefined, down: undefined }) })
  const profile = join(root, 'profile')
  const requests = new Requests(() => server.url)
  const shown: Shown = { notes: [], photos: [] }
  const texts = ['life 1.1', 'life 1.2', 'life 1.3']
  try {
    await planVisit(INVESTIGATION, requests)
    const address = `${proxy.url}/i/${INVESTIGATION}/fieldwork`
    const before = await openBrowser(profile)
    await openStop(before.page, address)
    const said = /^All \d+ entries are on the server$/
    await before.page.getByRole('status').filter({ hasText: said }).first().waitFor(SYNCED)
    proxy.mode = 'away'
    for (const text of texts.slice(0, 2)) await writeNote(before.page, { text, shown })
    await takePhoto(before.page, { text: 'life 1.3', shown, chance: chance(7) })
    await before.kill()
    rmSync(join(profile, 'Default', 'IndexedDB'), { recursive: true })

    proxy.mode = 'through'
    const after = await openBrowser(profile)
    try {
      await openStop(after.page, address)
      await after.page.getByRole('alert').filter({ hasText: 'This browser lost what it kept' }).waitFor()
      await after.page.getByRole('status').filter({ hasText: said }).first().waitFor(SYNCED)
      expect(await brokenInBrowser(after.page, { shown, tried: texts })).toEqual([])
      expect(await brokenOnServer(requests, { investigation: INVESTIGATION, shown })).toEqual([])
    } finally {
      await after.kill()
    }
  } finally {
    await proxy.close()
    await server.kill()
  }
})
