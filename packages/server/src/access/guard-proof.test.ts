import { createHash } from 'node:crypto'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { type Asked, type ClosedServer, closedServer, type TestDevice, testDevice } from './closed-server.fixture.ts'

const INVITE: Asked = { path: '/api/invitations', body: { role: 'lead' } }
const LINKS = '/api/investigations/marram-house/consignment-links'

let server: ClosedServer
let lead: TestDevice
beforeEach(async () => {
  server = await closedServer()
  lead = await server.enrolled('lead')
  const { make } = entryMaker('marram-house')
  const opened = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-02', reason: 'two cases' } as const
  const box = { consignment: 'C-1', container: 'cooler' } as const
  await server.data.records.append('marram-house', [
    make('investigation.opened', opened),
    make('consignment.opened', box),
  ])
})
afterEach(() => server.close())

const challengeIn = async (asked: Asked) => {
  const answer = await lead.ask({ ...asked, unproved: true })
  expect([answer.status, answer.issue]).toEqual([401, 'proof'])
  return String(answer.headers['rillmark-challenge'])
}
const sha256 = (text: string) => createHash('sha256').update(text).digest('hex')
const statementOf = (nonce: string, more: object = {}) => ({
  device: lead.id,
  nonce,
  method: 'POST',
  path: INVITE.path,
  body: sha256(JSON.stringify(INVITE.body)),
  ...more,
})
const invitedWith = (nonce: string, statement: object) =>
  lead.ask({ ...INVITE, headers: { 'rillmark-proof': `${nonce}.${lead.proof(statement)}` } })

describe('what gives power', () => {
  test('[ACC9] is done by the key of a device: who has its session alone does none of it', async () => {
    const { link } = (await lead.ask({ path: LINKS, body: { consignment: 'C-1' } })).json() as { link: number }
    const thief = testDevice(lead.id, server.ask)
    thief.jar.cookie = lead.jar.cookie
    const zip = { raw: Buffer.from('PK'), headers: { 'content-type': 'application/zip' } }
    const acts: readonly Asked[] = [
      INVITE,
      { path: `/api/devices/${lead.id}/revocation`, body: { reason: 'mine now' } },
      { path: '/api/investigations/import', ...zip },
      { path: '/api/demo', method: 'POST' },
      { path: LINKS, body: { consignment: 'C-1' } },
      { path: `${LINKS}/${link}/revocation`, body: {} },
    ]
    for (const act of acts)
      for (const each of [act, { ...act, unproved: true }]) {
        const { status, issue } = await thief.ask(each)
        expect([act.path, status, issue]).toEqual([act.path, 401, 'proof'])
      }
    expect(server.access.deviceList()).toMatchObject([{ id: lead.id, revoked: undefined }])
    expect(server.access.linksOf('marram-house')).toMatchObject([{ number: link, revoked: undefined }])
    expect(await server.data.ledger.investigations()).toEqual(['marram-house'])
    // whoever has the key does
    expect((await lead.ask(INVITE)).status).toBe(200)
  })

  test('[ACC9] a proof is for one request, once, by its device', async () => {
    const nonce = await challengeIn(INVITE)
    expect((await invitedWith(nonce, statementOf(nonce))).status).toBe(200)
    expect((await invitedWith(nonce, statementOf(nonce))).issue).toBe('proof')
    const wrong: readonly object[] = [
      { path: '/api/demo' },
      { method: 'PUT' },
      { body: sha256('{"role":"reader"}') },
      { device: 'browser-other' },
      { nonce: 'another' },
    ]
    for (const more of wrong) {
      const fresh = await challengeIn(INVITE)
      expect((await invitedWith(fresh, statementOf(fresh, more))).issue).toBe('proof')
      // used up by the try
      expect((await invitedWith(fresh, statementOf(fresh))).issue).toBe('proof')
    }
    const late = await challengeIn(INVITE)
    server.pass(121_000)
    expect((await invitedWith(late, statementOf(late))).issue).toBe('proof')
    for (const header of ['', '.', `${late}.`, 'x'.repeat(5000)])
      expect((await lead.ask({ ...INVITE, headers: { 'rillmark-proof': header } })).issue).toBe('proof')
  })

  test('[ACC9] a body that is too large, broken or cut short is still told as such', async () => {
    const sent = (raw: string) => lead.ask({ path: INVITE.path, raw, headers: { 'content-type': 'application/json' } })
    expect((await sent('{')).status).toBe(400)
    expect((await sent(JSON.stringify({ role: 'x'.repeat(2_000_000) }))).status).toBe(413)
    expect((await sent('{"role":"queen"}')).status).toBe(400)
    expect(server.failures).toEqual([])
  })
})
