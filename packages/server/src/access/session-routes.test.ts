import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClosedServer, closedServer, HOUR_MS, type TestDevice, testDevice } from './closed-server.fixture.ts'

let server: ClosedServer
let phone: TestDevice
beforeEach(async () => {
  server = await closedServer()
  phone = await server.enrolled('sampler')
})
afterEach(() => server.close())

const MINUTE_MS = 60_000
const statusOf = async (device: TestDevice) => (await device.ask({ path: '/api/session' })).status
const withCookie = (cookie: string) => server.ask({ path: '/api/investigations', headers: { cookie } })

async function challenge(device: string): Promise<string> {
  const answer = await server.ask({ path: '/api/session/challenge', body: { device } })
  return (answer.json() as { nonce: string }).nonce
}

describe('coming back', () => {
  test('[ACC4] a device that signs a fresh number gets a session of its own', async () => {
    const before = phone.jar.cookie
    const answer = await phone.comeBack()
    expect(answer.json()).toEqual({ device: phone.id, role: 'sampler', name: `Device ${phone.id}` })
    expect(phone.jar.cookie).not.toBe(before)
    expect(await statusOf(phone)).toBe(200)
    expect((await withCookie(before)).status).toBe(401)
  })

  test('[ACC4] a number is good once, for the device it was made for, and for two minutes', async () => {
    const other = await server.enrolled('reader')
    const start = (device: TestDevice, nonce: string, proof = device.proof({ device: device.id, nonce })) =>
      server.ask({ path: '/api/session', body: { device: device.id, nonce, proof } })
    const nonce = await challenge(phone.id)
    expect((await start(phone, nonce)).status).toBe(200)
    expect((await start(phone, nonce)).issue).toBe('proof')
    expect((await start(other, await challenge(phone.id))).issue).toBe('proof')
    const spoiled = await challenge(phone.id)
    expect((await start(phone, spoiled, 'A'.repeat(86))).issue).toBe('proof')
    expect((await start(phone, spoiled)).issue).toBe('proof')
    const late = await challenge(phone.id)
    server.pass(2 * MINUTE_MS)
    expect((await start(phone, late)).issue).toBe('proof')
  })

  test('[ACC4] an unknown device, another key and a made-up number are answered alike', async () => {
    const thief = testDevice(phone.id, server.ask)
    const stranger = testDevice('browser-nobody', server.ask)
    const nonce = 'A'.repeat(43)
    const invented = await server.ask({
      path: '/api/session',
      body: { device: phone.id, nonce, proof: phone.proof({ device: phone.id, nonce }) },
    })
    const answers = [await thief.comeBack(), await stranger.comeBack(), invented]
    expect(answers.map(({ status }) => status)).toEqual([401, 401, 401])
    expect(new Set(answers.map(({ text }) => text)).size).toBe(1)
  })

  test('[ACC11] numbers are not handed out without end', async () => {
    const statuses = await Promise.all(
      Array.from(
        { length: 250 },
        async () => (await server.ask({ path: '/api/session/challenge', body: { device: 'browser-x' } })).status,
      ),
    )
    expect(statuses.filter((status) => status === 200)).toHaveLength(240)
    expect(statuses.filter((status) => status === 429)).toHaveLength(10)
  })
})

describe('a session', () => {
  test('[ACC5] ends when it was not used for half an hour', async () => {
    server.pass(29 * MINUTE_MS)
    expect(await statusOf(phone)).toBe(200)
    server.pass(29 * MINUTE_MS)
    expect(await statusOf(phone)).toBe(200)
    server.pass(30 * MINUTE_MS)
    expect(await statusOf(phone)).toBe(401)
    expect((await phone.comeBack()).status).toBe(200)
  })

  test('[ACC5] ends after twelve hours however much it is used', async () => {
    const used: number[] = []
    for (let minutes = 0; minutes < 12 * 60; minutes += 20) {
      used.push(await statusOf(phone))
      server.pass(20 * MINUTE_MS)
    }
    expect(new Set(used)).toEqual(new Set([200]))
    expect(await statusOf(phone)).toBe(401)
  })

  test('[ACC5] ends when the device says so, and takes its cookie back', async () => {
    const { cookie } = phone.jar
    const answer = await phone.ask({ method: 'DELETE', path: '/api/session' })
    expect(answer.headers['set-cookie']?.[0]).toMatch(/^__Host-rillmark=; .*Expires=Thu, 01 Jan 1970/)
    expect((await withCookie(cookie)).status).toBe(401)
    expect((await phone.ask({ method: 'DELETE', path: '/api/session' })).status).toBe(200)
  })

  test('[ACC6] its token changes every hour; for a minute the old one still works for what was under way', async () => {
    const first = phone.jar.cookie
    for (let n = 0; n < 3; n += 1) {
      server.pass(20 * MINUTE_MS)
      expect(await statusOf(phone)).toBe(200)
    }
    expect(phone.jar.cookie).not.toBe(first)
    expect((await withCookie(first)).status).toBe(200)
    expect((await withCookie(phone.jar.cookie)).status).toBe(200)
  })

  test('[ACC6] an old token that turns up later is in the wrong hands: the session ends for both', async () => {
    const stolen = phone.jar.cookie
    for (let n = 0; n < 3; n += 1) {
      server.pass(20 * MINUTE_MS)
      await statusOf(phone)
    }
    server.pass(2 * MINUTE_MS)
    expect((await withCookie(stolen)).status).toBe(401)
    expect(await statusOf(phone)).toBe(401)
    // the device holds the key, and the thief does not
    expect((await phone.comeBack()).status).toBe(200)
    expect((await withCookie(stolen)).status).toBe(401)
  })

  test('[ACC7] its cookie is for this host over HTTPS only, seen by no script, sent by no other site’s page', async () => {
    const [cookie] = (await phone.comeBack()).headers['set-cookie'] ?? []
    const [pair = '', ...attributes] = (cookie ?? '').split('; ')
    expect(pair).toMatch(/^__Host-rillmark=[\w.-]{56}$/)
    expect(attributes.sort()).toEqual(['HttpOnly', 'Max-Age=43200', 'Path=/', 'SameSite=Strict', 'Secure'])
  })

  test.each([
    'x',
    `${'A'.repeat(12)}.${'A'.repeat(43)}`,
    `${'A'.repeat(12)}.${'A'.repeat(42)}`,
    '',
    '%00',
    "' OR 1=1 --",
    'A'.repeat(4000),
  ])('[ACC5] the cookie %j opens nothing', async (value) => {
    expect((await withCookie(`__Host-rillmark=${value}`)).status).toBe(401)
    expect((await withCookie(`rillmark=${phone.jar.cookie.split('=')[1]}`)).status).toBe(401)
    expect(server.failures).toEqual([])
  })

  test('[ACC5] a device has a few sessions at most: with each new one the oldest end', async () => {
    const cookies: string[] = []
    for (let n = 0; n < 6; n += 1) {
      phone.jar.cookie = ''
      await phone.comeBack()
      cookies.push(phone.jar.cookie)
      server.pass(1000)
    }
    const statuses = await Promise.all(cookies.map(async (cookie) => (await withCookie(cookie)).status))
    expect(statuses).toEqual([401, 401, 200, 200, 200, 200])
  })

  test('[ACC5] what is kept of sessions that ended is cleared away', async () => {
    server.pass(13 * HOUR_MS)
    await phone.comeBack()
    expect(await statusOf(phone)).toBe(200)
  })
})
