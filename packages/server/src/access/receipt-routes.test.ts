import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openServerKey } from '../devices/server-key.ts'
import { type Answer, type ClosedServer, closedServer, type TestDevice } from './closed-server.fixture.ts'

const DAY_MS = 86_400_000
const LINKS = '/api/investigations/marram-house/consignment-links'

let server: ClosedServer
let sampler: TestDevice
beforeEach(async () => {
  server = await closedServer()
  sampler = await server.enrolled('sampler')
  const { make } = entryMaker('marram-house')
  const outcome = await server.data.records.append('marram-house', [
    make('investigation.opened', {
      title: 'Marram House',
      setting: 'hotel',
      openedOn: '2026-03-02',
      reason: 'a secret',
    }),
    make('consignment.opened', { consignment: 'C-1', container: 'cooler' }),
    make('consignment.opened', { consignment: 'C-2', container: 'box', notes: 'of another laboratory' }),
  ])
  if (outcome.refused.length > 0) throw new Error(JSON.stringify(outcome.refused))
})
afterEach(() => server.close())

const RECEIPT = {
  laboratory: 'Quillhaven Water Laboratory',
  receivedBy: { name: 'T. Okafor', role: 'reception' },
  sealIntact: true,
  samples: [],
}
async function link(body: object = { consignment: 'C-1', days: 7 }): Promise<{ token: string; number: number }> {
  const answer = await sampler.ask({ path: LINKS, body })
  expect(answer.status).toBe(200)
  const { url, link: number } = answer.json() as { url: string; link: number }
  expect(url.startsWith(`${server.origin}/receipt#`)).toBe(true)
  return { token: url.split('#')[1] ?? '', number }
}
const shown = (token: string, path = '/api/receipt') =>
  server.ask({ path, headers: { authorization: `Bearer ${token}` } })
const receive = (token: string, body: object = RECEIPT) =>
  server.ask({ path: '/api/receipt', body, headers: { authorization: `Bearer ${token}` } })
const kinds = async () => (await server.data.records.links('marram-house')).map(({ entry }) => entry.kind)
const statusAndIssue = ({ status, issue }: Answer) => [status, issue]

describe('a consignment link', () => {
  test('[ACC13] shows its consignment and nothing else', async () => {
    const { token } = await link()
    const answer = await shown(token)
    expect(answer.json()).toMatchObject({ consignment: 'C-1', container: 'cooler', samples: [] })
    expect(answer.text).not.toMatch(/C-2|secret|Marram|marram/)
    for (const path of [LINKS, '/api/investigations', '/api/investigations/marram-house/entries', '/api/session'])
      expect((await shown(token, path)).status).toBe(401)
  })

  test('[ACC13] takes one receipt: signed by the server’s key, by a device of its own with the role of a laboratory', async () => {
    const { token, number } = await link()
    const answer = await receive(token)
    expect(answer.json()).toMatchObject({ received: { sequence: 5 } })
    const { state, head } = await server.data.records.state('marram-house')
    const device = `laboratory-link-${number}`
    const { publicKey } = openServerKey(server.folder)
    expect(state.devices.get(device)).toMatchObject({ role: 'laboratory', name: RECEIPT.laboratory, key: publicKey })
    expect(state.custody.consignments.get('C-1')?.received).toMatchObject({ device, author: 'T. Okafor' })
    const links = await server.data.records.links('marram-house')
    expect(verifyChain(links, { investigation: 'marram-house', head, checkSignature })).toMatchObject({ sound: true })
    expect((await shown(token)).json()).toMatchObject({ received: { laboratory: RECEIPT.laboratory } })
    const { links: listed } = (await sampler.ask({ path: LINKS })).json() as { links: object[] }
    expect(listed).toMatchObject([
      { link: number, consignment: 'C-1', by: `Device ${sampler.id}`, received: expect.any(String) },
    ])
    expect(JSON.stringify(listed)).not.toContain(token.split('.')[1])
  })

  test('[ACC13] takes no second receipt, however it is sent; the same again is told where the first stands', async () => {
    const { token } = await link()
    const other = { ...RECEIPT, sealIntact: false }
    const answers = await Promise.all([receive(token), receive(token), receive(token, other)])
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 409])
    expect(answers[1]?.json()).toEqual(answers[0]?.json())
    expect((await receive(token)).json()).toEqual(answers[0]?.json())
    expect(statusAndIssue(await receive(token, other))).toEqual([409, 'received'])
    const { token: next } = await link({ consignment: 'C-2' })
    expect((await receive(next)).status).toBe(200)
    expect((await kinds()).filter((kind) => kind === 'consignment.received')).toHaveLength(2)
  })

  test('[ACC13] a receipt the record does not take is told, and the link still takes the right one', async () => {
    const { token } = await link()
    const samples = [{ label: 'not in it', condition: 'accepted' }]
    const refused = await receive(token, { ...RECEIPT, samples })
    expect(statusAndIssue(refused)).toEqual([422, 'body.samples'])
    expect(statusAndIssue(await receive(token, { ...RECEIPT, consignment: 'C-2' }))).toEqual([400, 'consignment'])
    const many = Array.from({ length: 501 }, (_, n) => ({ label: `L-${n}`, condition: 'accepted' }))
    expect(statusAndIssue(await receive(token, { ...RECEIPT, samples: many }))).toEqual([400, 'samples'])
    expect((await receive(token)).status).toBe(200)
  })

  test('[ACC13] ends by time and by revocation; then and with any other token it opens nothing', async () => {
    const { token, number } = await link()
    const { token: short } = await link({ consignment: 'C-1', days: 1 })
    const revoked = await sampler.ask({ path: `${LINKS}/${number}/revocation`, body: {} })
    expect(revoked.json()).toEqual({ link: number })
    expect(statusAndIssue(await receive(token))).toEqual([401, 'authorization'])
    expect((await sampler.ask({ path: `${LINKS}/${number}/revocation`, body: {} })).status).toBe(404)
    expect((await shown(short)).status).toBe(200)
    server.pass(DAY_MS)
    expect((await shown(short)).status).toBe(401)
    for (const other of ['x', '', `${'A'.repeat(12)}.${'A'.repeat(43)}`, server.invite('lead'), "' OR 1=1"])
      expect((await shown(other)).status).toBe(401)
    expect(await kinds()).not.toContain('consignment.received')
  })

  test('[ACC13] is made for a consignment there is and that is not received, and belongs to its investigation', async () => {
    const { number, token } = await link()
    expect((await sampler.ask({ path: LINKS, body: { consignment: 'C-9', days: 7 } })).status).toBe(422)
    expect((await sampler.ask({ path: LINKS, body: { consignment: 'C-1', days: 61 } })).issue).toBe('days')
    const elsewhere = LINKS.replace('marram-house', 'elsewhere')
    expect((await sampler.ask({ path: elsewhere, body: { consignment: 'C-1' } })).status).toBe(404)
    expect((await sampler.ask({ path: `${elsewhere}/${number}/revocation`, body: {} })).status).toBe(404)
    expect((await receive(token)).status).toBe(200)
    expect((await sampler.ask({ path: LINKS, body: { consignment: 'C-1' } })).issue).toBe('consignment')
  })

  test('[ACC13] a register that was lost gives no name again that a laboratory wrote under', async () => {
    const { token } = await link()
    await receive(token)
    const { make } = server.access.links
    const made = make.call(server.access.links, {
      investigation: 'marram-house',
      consignment: 'C-2',
      days: 1,
      by: 'x',
      above: 7,
    })
    expect(made.link.number).toBe(8)
  })
})
