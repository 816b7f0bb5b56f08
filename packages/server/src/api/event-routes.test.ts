import { afterEach, beforeEach, expect, test } from 'vitest'
import { type ClosedServer, closedServer } from '../access/closed-server.fixture.ts'

const EVENTS = '/api/investigations/marram-house/events'

let server: ClosedServer
beforeEach(async () => {
  server = await closedServer()
})
afterEach(() => server.close())

test('[SRV15] a device that listens twenty times over takes nobody else’s place', async () => {
  const [phone, desk] = [await server.enrolled('sampler'), await server.enrolled('lead')]
  const listening = Array.from({ length: 20 }, () => phone.ask({ path: EVENTS }).catch(() => 'ended'))
  const another = async (device = phone) => (await device.ask({ path: EVENTS, statusOnly: true })).status
  await expect.poll(() => another(), { timeout: 10_000 }).toBe(429)
  expect(await another(desk)).toBe(200)
  await desk.ask({ path: `/api/devices/${phone.id}/revocation`, body: { reason: 'left on a bus' } })
  expect(new Set(await Promise.all(listening))).toEqual(new Set(['ended']))
})
