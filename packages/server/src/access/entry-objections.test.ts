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

interface Pushed {
  readonly accepted: readonly { readonly sequence: number }[]
  readonly refused: readonly { readonly issues: readonly { readonly path: string }[] }[]
}

/** Where the first objection to each is, of entries none of which is taken. */
const refusals = async (entries: readonly unknown[], by = phone) => {
  const answer = await by.push(entries)
  expect(answer.status).toBe(200)
  const { accepted, refused } = answer.json() as Pushed
  expect(accepted).toEqual([])
  return refused.map(({ issues }) => issues[0]?.path)
}
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
    for (const forged of [unsigned, byThief]) expect(await refusals([forged], thief)).toEqual(['signature'])
    // the name of the right key over a signature by another: the record's own check finds it
    expect((await thief.push([sameName])).json()).toMatchObject({ accepted: [], refused: [{ id: sameName.id }] })
    expect(await sequence()).toBe(2)
  })

  test('[ACC9] what is not so is refused entry by entry, and the rest is taken', async () => {
    const [joined, opened] = [phone.joined('sampler'), phone.written('investigation.opened', OPENED)]
    const stranger = testDevice('browser-x', server.ask)
    const body = { name: 'Phone', role: 'sampler', key: stranger.key } as const
    const bad = [
      { ...phone.written('note.written', note('x')), device: 'server' },
      { ...phone.written('note.written', note('x')), device: 'laboratory-link-1' },
      stranger.joined('sampler'),
      null,
    ]
    const answer = await phone.push([joined, ...bad, opened, phone.written('device.joined', body)])
    const { accepted, refused } = answer.json() as Pushed
    expect(accepted.map(({ sequence }) => sequence)).toEqual([1, 2])
    expect(refused.map(({ issues }) => issues[0]?.path)).toEqual(['', 'device', 'device', 'device', 'body.key'])
    for (const { issues } of refused) expect(issues[0]).toMatchObject({ expected: expect.any(String) })
    expect(await sequence()).toBe(2)
  })

  test('[ACC9] it joins as what it was enrolled as, with the key it was enrolled with', async () => {
    expect(await refusals([phone.joined('lead')])).toEqual(['body.role'])
    const other = testDevice('browser-x', server.ask)
    const body = { name: 'Phone', role: 'sampler', key: other.key } as const
    expect(await refusals([phone.written('device.joined', body)])).toEqual(['body.key'])
    expect(await sequence()).toBe(0)
  })

  test('[ACC9] it carries what another device wrote and signed, as long as that one is in', async () => {
    const before = await server.enrolled('sampler', 'browser-before')
    const [joined, opened] = [before.joined('sampler'), before.written('investigation.opened', OPENED)]
    const forged = { ...before.written('note.written', note('x')), body: note('something else') }
    const answer = await phone.push([joined, opened, forged, phone.joined('sampler')])
    expect(answer.json()).toMatchObject({
      accepted: [{ sequence: 1 }, { sequence: 2 }, { sequence: 3 }],
      refused: [{ id: forged.id, issues: [{ path: 'signature' }] }],
    })
    const renamed = { ...phone.written('note.written', note('x')), device: before.id }
    expect(await refusals([renamed])).toEqual(['signature'])
    server.access.devices.revoke(before.id, { reason: 'lost', by: 'R. Vale' })
    expect(await refusals([before.written('note.written', note('later'))])).toEqual(['device'])
    // what is in the record already is known, whoever sends it again
    expect((await phone.push([opened])).json()).toMatchObject({ accepted: [{ id: opened.id, sequence: 2 }] })
    const reader = await server.enrolled('reader')
    expect(await refusals([reader.joined('reader')])).toEqual(['device'])
    expect(await sequence()).toBe(3)
  })

  test('[ACC9] garbage among the entries is refused as garbage', async () => {
    const answer = await phone.push([phone.joined('sampler'), null, 7, 'x', []])
    expect(answer.json()).toMatchObject({ accepted: [{ sequence: 1 }], refused: [{}, {}, {}, {}] })
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
