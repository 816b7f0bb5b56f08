import { disagreements } from '@rillmark/casebook/contests/disagreements.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { registerInstruments } from '../../demo/scenario/visit.ts'
import { unaccounted } from './accounted-for.ts'
import { stateOf } from './derived.ts'
import type { ServerPort } from '../../packages/web/src/sync/server-port.ts'
import { InjectedServer } from './injected-server.ts'
import { OfflineDevice } from './offline-device.ts'
import { wrongTimes } from './wrong-times.ts'

const investigation = 'faults-merge'
const HOUR_MS = 3_600_000
const DAYS = 4
/** One right, one a day ahead, one three hours behind. */
const CLOCKS = [0, 24 * HOUR_MS, -3 * HOUR_MS]
const BEGAN = Date.parse('2026-03-04T08:00:00.000Z')

/** Every way in which three times two halves can come in, each device's own in their order: 6! / (2! 2! 2!) = 90. */
const ORDERS = ordersOf([2, 2, 2])
let base: readonly Entry[]

beforeAll(() => {
  // the server's clock is the one of this story
  vi.useFakeTimers({ toFake: ['Date'], now: BEGAN })
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
  registerInstruments(desk)
  base = desk.entries
})

const servers: InjectedServer[] = []
afterAll(async () => {
  vi.useRealTimers()
  for (const server of servers) await server.close()
})

test('there are as many orders as there must be', () => {
  expect(ORDERS).toHaveLength(90)
})

test(`[SYN6] [CON2] [CON8] three devices away for ${DAYS} days, merged in every order: one record, nothing lost or doubled, disagreements kept`, async () => {
  const counts = new Set<string>()
  for (const order of ORDERS) {
    const { faults, contested, differing, cases, timed } = await merged(order)
    expect(faults, `order ${order.join('')}`).toEqual([])
    // whoever came second or third said the same case otherwise, and that was kept
    expect(contested, `order ${order.join('')}`).toBeGreaterThanOrEqual(2)
    expect(differing, `order ${order.join('')}`).toBeGreaterThanOrEqual(1)
    counts.add(`${cases} cases`)
    expect(timed, `order ${order.join('')}`).toBeGreaterThan(3 * DAYS)
  }
  expect([...counts]).toEqual(['4 cases'])
})

async function merged(order: readonly number[]) {
  const server = new InjectedServer()
  servers.push(server)
  await server.reopen()
  let now = BEGAN
  const pass = (ms: number): number => {
    now += ms
    vi.setSystemTime(now)
    return now
  }
  pass(0)
  await server.push(investigation, { entries: base })
  const deviceNow = (device: OfflineDevice): string => new Date(now + device.clockAheadMs).toISOString()
  const portOf = (device: OfflineDevice): ServerPort => ({
    push: (id, entries, told) => server.push(id, { entries, deviceNow: deviceNow(device), ...told }),
    pull: server.pull.bind(server),
  })
  const devices = CLOCKS.map((clockAheadMs, n) => {
    const device = new OfflineDevice({ name: `phone-${n}`, investigation, now: () => pass(60_000) })
    device.clockAheadMs = clockAheadMs
    return device
  })
  for (const device of devices) await device.sync(portOf(device))
  const halves = new Map<OfflineDevice, Entry[][]>()
  for (const device of devices) halves.set(device, await daysAway(device, pass))
  for (const n of order) {
    const device = devices[n]
    const half = device === undefined ? undefined : halves.get(device)?.shift()
    if (device === undefined || half === undefined) throw new RangeError('no such half')
    // the network holds for the first half only: no pull follows it
    await server.push(investigation, { entries: half, deviceNow: deviceNow(device) })
  }
  for (const device of [...devices, ...devices]) expect(await device.sync(portOf(device))).toEqual({ kind: 'done' })
  const record = await server.record(investigation)
  const state = await stateOf(record, investigation)
  expect(server.failures).toEqual([])
  const times = await wrongTimes(investigation, { record, devices })
  return {
    faults: [...(await unaccounted(investigation, { record, devices })), ...times.wrong],
    timed: times.looked,
    contested: state.contests.contested.size,
    differing: disagreements(state).length,
    cases: state.cases.cases.size,
  }
}

/** What one device writes while it is away, in two halves. All of them write of one case and of one tap, each otherwise. */
async function daysAway(device: OfflineDevice, pass: (ms: number) => void): Promise<Entry[][]> {
  const n = Number(device.name.slice(-1))
  const at = { round: 'R1', stop: stopOf(await device.state()) }
  const own = { link: 'not judged', isolate: 'not known' } as const
  await device.join()
  await must(
    device,
    device.write('case.recorded', {
      code: 'C1',
      classification: 'probable',
      notes: `as ${device.name} knows it`,
      ...own,
    }),
  )
  await must(device, device.write('case.recorded', { code: `C${n + 2}`, classification: 'suspected', ...own }))
  await must(device, device.write('stop.started', at))
  await must(device, device.write('deviation.recorded', { ...at, reason: 'out of order', text: 'readings only today' }))
  for (let day = 0; day < DAYS; day += 1) {
    pass(24 * HOUR_MS)
    await must(device, device.write('note.written', { text: `${device.name}, day ${day}`, purpose: 'note' }))
    const reading = { kind: 'value', value: 50 + n + day / 10, unit: 'Cel' } as const
    await must(
      device,
      device.write('reading.taken', { ...at, quantity: 'hot-temperature', circuit: 'hot', reading, instrument: 'T1' }),
    )
  }
  await must(
    device,
    device.write('stop.finished', { ...at, outcome: 'not possible', reason: `no water, ${device.name}` }),
  )
  const middle = Math.floor(device.written.length / 2)
  return [device.written.slice(0, middle), device.written.slice(middle)]
}

function stopOf(state: Awaited<ReturnType<OfflineDevice['state']>>): string {
  const stop = state.plan.rounds.get('R1')?.body.plan.stops.find(({ component }) => component !== undefined)?.id
  if (stop === undefined) throw new Error('the plan has no stop')
  return stop
}

async function must(device: OfflineDevice, written: Promise<Entry | undefined>): Promise<void> {
  if ((await written) === undefined) throw new Error(`its own rules object: ${JSON.stringify(device.objections)}`)
}

function ordersOf(left: readonly number[]): number[][] {
  if (left.every((count) => count === 0)) return [[]]
  return left.flatMap((count, n) =>
    count === 0 ? [] : ordersOf(left.map((each, m) => (m === n ? each - 1 : each))).map((rest) => [n, ...rest]),
  )
}
