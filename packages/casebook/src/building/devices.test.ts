import { expect, test } from 'vitest'
import { DEVICES_TO_SWEEP, sweepStanding } from './devices.ts'
import { DEVICE_KINDS } from './water-system.ts'

test('[BLD16] every device is listed once, with where to look, why and how that is known', () => {
  const ids = DEVICES_TO_SWEEP.map((device) => device.id)
  expect(new Set(ids).size).toBe(ids.length)
  const unsourced = DEVICES_TO_SWEEP.filter(
    (one) => one.source.startsWith('common practice') !== (one.known === 'memory'),
  )
  expect(unsourced).toEqual([])
})

test('[BLD16] every kind of device a water system can hold is asked for', () => {
  const asked = new Set(DEVICES_TO_SWEEP.map((device) => device.componentKind))
  expect(DEVICE_KINDS.filter((kind) => !asked.has(kind))).toEqual([])
})

test('[BLD16] a device nobody answered for is not looked at', () => {
  const standing = sweepStanding(new Map([['spa-pool', 'absent']]))
  expect(standing).toHaveLength(DEVICES_TO_SWEEP.length)
  expect(standing.filter((one) => one.answer !== 'not looked at').map((one) => one.device.id)).toEqual(['spa-pool'])
})
