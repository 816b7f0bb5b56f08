import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { allLanes } from './all-lanes.ts'
import { KillLane } from './kill-lane.ts'
import { SEED, tellSeed, times } from './seed.ts'

const KILLS = times(500, 'RILLMARK_SERVER_KILLS')
/** As many as the processors the tests are meant for. */
const LANES = ['first', 'second']

const root = mkdtempSync(join(tmpdir(), 'rillmark-kills-'))
afterAll(() => rmSync(root, { recursive: true, force: true }))

test(`[SRV1] [SRV5] [PIC1] nothing acknowledged is lost or doubled when the server is killed ${KILLS} times while devices write`, async () => {
  tellSeed('server kills')
  const lanes = LANES.map((lane, part) => {
    const name = `faults-${lane}`
    return new KillLane({ name, folder: join(root, name), part }).run(Math.ceil(KILLS / LANES.length))
  })
  const outcomes = await allLanes(lanes)
  const sum = (of: 'kills' | 'inFlight' | 'entries' | 'photos') => outcomes.reduce((all, each) => all + each[of], 0)
  process.stdout.write(
    `server kills: ${sum('kills')}, ${sum('inFlight')} of them during a write; ${sum('entries')} entries and ${sum('photos')} photos were acknowledged\n`,
  )
  expect(
    outcomes.flatMap(({ faults }) => faults),
    `seed ${SEED}`,
  ).toEqual([])
  expect(sum('inFlight')).toBeGreaterThanOrEqual(KILLS)
  expect(sum('entries')).toBeGreaterThan(KILLS)
  expect(sum('photos')).toBeGreaterThan(KILLS / 20)
})
