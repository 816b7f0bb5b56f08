import * as fc from 'fast-check'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { SEED, tellSeed, times } from './seed.ts'
import { SyncWorld, type Trouble } from './sync-world.ts'

const RUNS = times(100, 'RILLMARK_MODEL_RUNS')
const DEVICES = 3
const MOST_COMMANDS = 50
const CODES = 2

/** What must hold of the world whatever happened: how many entries every device has written. */
interface Expected {
  written: number
}
type Command = fc.AsyncCommand<Expected, SyncWorld>

const device = fc.nat(DEVICES - 1)
const command = (words: string, run: (world: SyncWorld, expected: Expected) => Promise<void>): Command => ({
  check: () => true,
  run: (expected, world) => run(world, expected),
  toString: () => words,
})

const writesNote = device.map((n) =>
  command(`${n} writes a note`, async (world, expected) => {
    if ((await world.device(n).write('note.written', { text: world.text(), purpose: 'note' })) !== undefined)
      expected.written += 1
  }),
)
/** Few codes, so that devices that do not know of each other use the same one. */
const writesCase = fc.tuple(device, fc.integer({ min: 1, max: CODES })).map(([n, code]) =>
  command(`${n} writes case C${code}`, async (world, expected) => {
    const body = { code: `C${code}`, classification: 'probable', link: 'not judged', isolate: 'not known' } as const
    if ((await world.device(n).write('case.recorded', { ...body, notes: world.text() })) !== undefined)
      expected.written += 1
  }),
)
/** A stay of a case that its own device knows: it is refused, or a second account, where the case was. */
const writesStay = fc.tuple(device, fc.integer({ min: 1, max: CODES })).map(([n, code]) =>
  command(`${n} writes a stay of C${code}`, async (world, expected) => {
    const stay = { caseCode: `C${code}`, place: 'Spa', kind: 'stay', from: '2026-02-01', to: '2026-02-02' } as const
    if ((await world.device(n).write('exposure.recorded', stay)) !== undefined) expected.written += 1
  }),
)
const amends = device.map((n) =>
  command(`${n} sets its first case right`, async (world, expected) => {
    const first = world.device(n).written.find(({ kind }) => kind === 'case.recorded')
    if (first?.kind !== 'case.recorded') return
    const body = { ...first.body, notes: world.text() }
    const corrects = { entry: first.id, reason: 'asked again' }
    if ((await world.device(n).write('case.recorded', body, corrects)) !== undefined) expected.written += 1
  }),
)
const settles = fc
  .tuple(device, fc.constantFrom('first stands' as const, 'second stands' as const))
  .map(([n, decision]) =>
    command(`${n} settles: ${decision}`, async (world, expected) => {
      const { contests } = await world.device(n).state()
      const open = [...contests.contested.keys()].find((id) => !contests.settled.has(id))
      if (open === undefined) return
      const body = { contested: open, decision, reason: 'asked both' }
      if ((await world.device(n).write('contest.settled', body)) !== undefined) expected.written += 1
    }),
  )
const writesStray = device.map((n) =>
  command(`${n} writes what no server takes`, async (world, expected) => {
    await world.device(n).writeStray()
    expected.written += 1
  }),
)
const syncs = device.map((n) => command(`${n} syncs`, (world) => world.sync(n)))
const way = fc.constantFrom<Trouble['way']>('lost on the way', 'answer lost', 'page killed before', 'page killed after')
const syncsBadly = fc
  .tuple(device, fc.integer({ min: 1, max: 4 }), way)
  .map(([n, at, how]) => command(`${n} syncs, request ${at}: ${how}`, (world) => world.sync(n, { at, way: how })))
const together = command('all sync at once', async (world) => {
  await Promise.all(world.devices.map((_, n) => world.sync(n)))
})
const restarts = command('the server restarts', (world) => world.server.reopen())
const replays = command('old batches arrive again, the last first', (world) => world.replay())
const clocks = fc.tuple(device, fc.integer({ min: -30, max: 30 })).map(([n, hours]) =>
  command(`the clock of ${n} is set ${hours} h ahead`, async (world) => {
    world.device(n).clockAheadMs = hours * 3_600_000
  }),
)
const passes = fc
  .integer({ min: 1, max: 72 })
  .map((hours) => command(`${hours} h pass`, async (world) => world.passHours(hours)))

/** What matters most is named most often: chance picks evenly. */
const COMMANDS = [
  writesCase,
  writesCase,
  writesCase,
  syncs,
  syncs,
  syncsBadly,
  syncsBadly,
  settles,
  settles,
  writesNote,
  writesStay,
  amends,
  writesStray,
  clocks,
  passes,
  fc.constant(together),
  fc.constant(restarts),
  fc.constant(replays),
]

beforeAll(() => void vi.useFakeTimers({ toFake: ['Date'] }))
afterAll(() => void vi.useRealTimers())

test(`[SYN2] [SYN6] [SYN15] [CON2] [CLK2] whatever is written, cut, killed, replayed, set wrong and settled, in ${RUNS} stories: all copies agree, every entry is accounted for, and times are right`, async () => {
  tellSeed('sync model')
  const seen = { contested: 0, refused: 0, timed: 0 }
  await fc.assert(
    fc.asyncProperty(fc.commands(COMMANDS, { maxCommands: MOST_COMMANDS, size: 'max' }), async (commands) => {
      const world = new SyncWorld(DEVICES)
      const expected: Expected = { written: DEVICES }
      try {
        await world.begin()
        await fc.asyncModelRun(() => ({ model: expected, real: world }), commands)
        expect(await world.settled()).toEqual([])
        expect(world.devices.reduce((sum, { written }) => sum + written.length, 0)).toBe(expected.written)
        const state = await world.device(0).state()
        seen.timed += world.timed
        seen.contested += state.contests.contested.size
        for (const { outbox } of world.devices) seen.refused += (await outbox.pending(world.investigation)).length
      } finally {
        await world.server.close()
      }
    }),
    { seed: SEED, numRuns: RUNS },
  )
  process.stdout.write(`sync model: ${JSON.stringify(seen)}\n`)
  // stories in which nothing was ever contested or refused would prove little
  expect(seen.contested).toBeGreaterThan(0)
  expect(seen.refused).toBeGreaterThan(0)
  expect(seen.timed).toBeGreaterThan(0)
})
