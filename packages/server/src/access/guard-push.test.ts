import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type ClosedServer, closedServer, type TestDevice, testDevice } from './closed-server.fixture.ts'

const OPENED = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'two cases' } as const
const note = (text: string) => ({ text, purpose: 'note' }) as const

let server: ClosedServer
let phone: TestDevice
beforeEach(async () => {
  server = await closedServer()
  phone = await server.enrolled('sampler')
})
afterEach(() => server.close())

const sequence = async () => (await server.data.ledger.head('marram-house')).sequence

describe('what a device may send', () => {
  test('[ACC9] what it wrote and signed itself goes into the record', async () => {
    const answer = await phone.push([phone.joined('sampler'), phone.written('investigation.opened', OPENED)])
    expect(answer.json()).toMatchObject({ accepted: [{ sequence: 1 }, { sequence: 2 }], refused: [] })
    const { links } = (await phone.ask({ path: '/api/investigations/marram-house/entries' })).json() as {
      links: { entry: { device: string; signature: { key: string } } }[]
    }
    expect(links.map(({ entry }) => entry.device)).toEqual([phone.id, phone.id])
  })

  test('[ACC9] who has the session of a device but not its key writes nothing', async () => {
    await phone.push([phone.joined('sampler'), phone.written('investigation.opened', OPENED)])
    const thief = testDevice(phone.id, server.ask)
    thief.jar.cookie = phone.jar.cookie
    const { make } = entryMaker('marram-house', { device: phone.id })
    for (const text of ['one', 'two']) make('note.written', note(text))
    const unsigned = make('note.written', note('forged'))
    const byThief = thief.signed(unsigned)
    const sameName = {
      ...byThief,
      signature: { ...byThief.signature, key: phone.written('note.written', note('x')).signature?.key },
    }
    const paths = []
    for (const forged of [unsigned, byThief]) {
      const { status, issue } = await thief.push([forged])
      paths.push([status, issue])
    }
    expect(paths).toEqual([
      [403, 'entries[0].signature'],
      [403, 'entries[0].signature'],
    ])
    // the name of the right key over a signature by another: the record's own check finds it
    expect((await thief.push([sameName])).json()).toMatchObject({ accepted: [], refused: [{ id: sameName.id }] })
    expect(await sequence()).toBe(2)
  })

  test('[ACC9] it writes for no other device, and all or nothing of what it sends', async () => {
    const other = await server.enrolled('sampler', 'browser-other')
    const own = phone.written('investigation.opened', OPENED)
    const answer = await phone.push([phone.joined('sampler'), own, other.joined('sampler')])
    expect([answer.status, answer.issue]).toEqual([403, 'entries[2].device'])
    expect(await sequence()).toBe(0)
    for (const name of ['server', 'laboratory-link-1']) {
      const forged = { ...phone.written('note.written', note('x')), device: name }
      expect((await phone.push([forged])).issue).toBe('entries[0].device')
    }
  })

  test('[ACC9] it joins as what it was enrolled as, with the key it was enrolled with', async () => {
    expect((await phone.push([phone.joined('lead')])).issue).toBe('entries[0].body.role')
    const other = testDevice('browser-x', server.ask)
    const body = { name: 'Phone', role: 'sampler', key: other.key } as const
    expect((await phone.push([phone.written('device.joined', body)])).issue).toBe('entries[0].body.key')
    expect(await sequence()).toBe(0)
  })

  test('[ACC9] garbage among the entries is refused as garbage', async () => {
    const answer = await phone.push([phone.joined('sampler'), null, 7, 'x', []])
    expect(answer.status).toBe(403)
    expect((await phone.push([null, 7, 'x'])).json()).toMatchObject({ accepted: [], refused: [{}, {}, {}] })
    expect((await phone.push([])).status).toBe(400)
  })

  test('[ACC9] a reader sends nothing', async () => {
    const reader = await server.enrolled('reader')
    const answer = await reader.push([reader.joined('reader')])
    expect([answer.status, answer.issue]).toEqual([403, 'role'])
  })
})

describe('pages of other sites', () => {
  const foreign: readonly Record<string, string>[] = [
    { origin: 'https://evil.example' },
    { origin: 'null' },
    { 'sec-fetch-site': 'cross-site' },
    { 'sec-fetch-site': 'same-site' },
    { origin: 'https://127.0.0.1:1' },
  ]
  test.each(foreign)('[ACC10] write nothing even with the session: %j', async (headers) => {
    const body = { entries: [phone.joined('sampler')] }
    const answer = await phone.ask({ path: '/api/investigations/marram-house/entries', body, headers })
    expect([answer.status, answer.issue]).toEqual([403, 'origin'])
    expect(await sequence()).toBe(0)
  })

  test('[ACC10] the same host without HTTPS is another site', async () => {
    const origin = server.origin.replace('https:', 'http:')
    const answer = await phone.ask({ method: 'DELETE', path: '/api/session', headers: { origin } })
    expect([answer.status, answer.issue]).toEqual([403, 'origin'])
    expect((await phone.ask({ path: '/api/session' })).status).toBe(200)
  })

  test('[ACC10] a form of another site reaches no route: none takes what a form can send', async () => {
    for (const type of ['application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', 'text/plain']) {
      const answer = await phone.ask({
        path: '/api/investigations/marram-house/entries',
        raw: JSON.stringify({ entries: [phone.joined('sampler')] }),
        headers: { 'content-type': type },
      })
      expect(answer.status).toBe(type === 'text/plain' ? 400 : 415)
    }
    expect(await sequence()).toBe(0)
  })

  test('[ACC10] the server’s own page can', async () => {
    const headers = { origin: server.origin, 'sec-fetch-site': 'same-origin' }
    const body = { entries: [phone.joined('sampler')] }
    expect((await phone.ask({ path: '/api/investigations/marram-house/entries', body, headers })).status).toBe(200)
  })
})
