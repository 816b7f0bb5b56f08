import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { requireBuiltApp } from '../../scripts/phases/running-app.ts'
import { allLanes } from './all-lanes.ts'
import { BrowserLane } from './browser-lane.ts'
import { SEED, tellSeed, times } from './seed.ts'
import { startServer } from './server-process.ts'

const KILLS = times(200, 'RILLMARK_BROWSER_KILLS')
/** As many as the processors the tests are meant for. */
const LANES = [0, 1]

const root = mkdtempSync(join(tmpdir(), 'rillmark-browser-'))
afterAll(() => rmSync(root, { recursive: true, force: true, maxRetries: 10 }))

test(`[SYN2] [SYN7] [SYN11] [SYN12] what the screen showed as kept is there once after the browser was killed ${KILLS} times`, async () => {
  tellSeed('browser kills')
  requireBuiltApp()
  const server = await startServer({ dataFolder: join(root, 'data') })
  try {
    const lanes = LANES.map((lane) => {
      const given = { profile: join(root, `profile-${lane}`), server: server.url, part: 200 + 10 * lane }
      return new BrowserLane(given).run(Math.ceil(KILLS / LANES.length))
    })
    const outcomes = await allLanes(lanes)
    const sum = (of: 'kills' | 'notes' | 'photos' | 'losses') => outcomes.reduce((all, each) => all + each[of], 0)
    process.stdout.write(
      `browser kills: ${sum('kills')}; ${sum('notes')} notes and ${sum('photos')} photos were shown as kept; ${sum('losses')} times the browser lost its database\n`,
    )
    expect(
      outcomes.flatMap(({ faults }) => faults),
      `seed ${SEED}`,
    ).toEqual([])
    expect(sum('kills')).toBeGreaterThanOrEqual(KILLS)
    expect(sum('notes')).toBeGreaterThan(KILLS / 2)
    expect(sum('photos')).toBeGreaterThan(KILLS / 10)
    expect(server.troubles()).toBe('')
  } finally {
    await server.kill()
  }
})
