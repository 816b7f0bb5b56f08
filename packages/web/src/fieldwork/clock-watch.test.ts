import { expect, it } from 'vitest'
import { ClockWatch } from './clock-watch.ts'

function watched() {
  const at = { wallMs: 1_000_000, countMs: 50 }
  const watch = new ClockWatch(() => ({ ...at }))
  const pass = (ms: number, countedMs = ms): void => {
    at.wallMs += ms
    at.countMs += countedMs
  }
  return { watch, pass, set: (ms: number) => (at.wallMs += ms) }
}

it('time that passes, and a count that is a little off, is no clock that was set', () => {
  const { watch, pass } = watched()
  pass(500)
  expect(watch.look()).toBe(0)
  pass(60_000, 58_500)
  expect(watch.look()).toBe(0)
})

it.each([3_600_000, -3_600_000, -3000])('a clock set by %d ms is told once, by that much', (ms) => {
  const { watch, pass, set } = watched()
  pass(500)
  set(ms)
  expect(watch.look()).toBe(ms)
  pass(500)
  expect(watch.look()).toBe(0)
})

it('a device that slept with a locked screen was not set, and its clock is believed', () => {
  const { watch, pass } = watched()
  expect(watch.see(false)).toBe(0)
  // timers go on for a while before it sleeps
  pass(1000)
  expect(watch.look()).toBe(0)
  pass(600_000, 4000)
  expect(watch.see(true)).toBe(0)
  pass(600_000, 4000)
  expect(watch.look()).toBe(596_000)
})

it('a clock that went back was set, also while the page was hidden', () => {
  const { watch, pass, set } = watched()
  watch.see(false)
  pass(10_000)
  set(-86_400_000)
  expect(watch.look()).toBe(-86_400_000)
})
