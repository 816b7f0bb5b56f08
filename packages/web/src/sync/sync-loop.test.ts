import { expect, test } from 'vitest'
import type { Exchange } from './sync-engine.ts'
import { SyncLoop } from './sync-loop.ts'

/** A clock that only moves when told; keeps what was asked for. */
function handClock() {
  const asked: number[] = []
  let due: (() => void) | undefined
  const later = (run: () => void, ms: number) => {
    asked.push(ms)
    due = run
    return () => (due = undefined)
  }
  return { asked, timers: { later }, ring: () => due?.() }
}

const done: Exchange = { kind: 'done' }
const down: Exchange = { kind: 'unreachable', reason: 'no network' }
const settled = () => new Promise((resolve) => setTimeout(resolve, 0))

test('[SYN5] after failures it waits twice as long each time, up to a minute, and recovers', async () => {
  const clock = handClock()
  let outcome: Exchange = down
  const loop = new SyncLoop(async () => outcome, clock.timers)
  await loop.nudge()
  for (let n = 0; n < 8; n += 1) {
    clock.ring()
    await settled()
  }
  outcome = done
  clock.ring()
  await settled()
  expect(clock.asked).toEqual([1000, 2000, 4000, 8000, 16_000, 32_000, 60_000, 60_000, 60_000, 30_000])
})

test('[SYN5] never two exchanges at once; a nudge meanwhile brings one more', async () => {
  const clock = handClock()
  let [running, most, runs] = [0, 0, 0]
  const loop = new SyncLoop(async () => {
    running += 1
    runs += 1
    most = Math.max(most, running)
    await settled()
    running -= 1
    return done
  }, clock.timers)
  await Promise.all([loop.nudge(), loop.nudge(), loop.nudge()])
  expect({ most, runs }).toEqual({ most: 1, runs: 2 })
})

test('[SYN5] an exchange that throws is a failure to retry; a stopped loop does nothing', async () => {
  const clock = handClock()
  const loop = new SyncLoop(() => Promise.reject(new Error('boom')), clock.timers)
  await loop.nudge()
  expect(clock.asked).toEqual([1000])
  loop.stop()
  await loop.nudge()
  expect(clock.asked).toEqual([1000])
})

test('[SYN33] when the network comes back it exchanges at once, whatever failed before; one under way that fails is followed by another', async () => {
  const clock = handClock()
  let runs = 0
  let fail: () => void = () => undefined
  let outcome: () => Promise<Exchange> = async () => down
  const loop = new SyncLoop(() => {
    runs += 1
    return outcome()
  }, clock.timers)
  await loop.nudge()
  clock.ring()
  await settled()
  expect(clock.asked).toEqual([1000, 2000])
  outcome = () => new Promise((_, reject) => (fail = () => reject(new Error('dropped'))))
  const under = loop.nudge()
  outcome = async () => done
  const restarted = loop.restart()
  fail()
  await Promise.all([under, restarted])
  expect({ runs, asked: clock.asked }).toEqual({ runs: 4, asked: [1000, 2000, 30_000] })
  // with none under way, the pauses begin anew
  outcome = async () => down
  await loop.nudge()
  await loop.restart()
  expect(clock.asked.slice(3)).toEqual([1000, 1000])
})
