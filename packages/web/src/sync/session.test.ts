import { beforeEach, expect, test, vi } from 'vitest'
import { askServer, Unreachable } from './server-port.ts'
import { fetchInSession, sessionStanding, signSessionsWith } from './session.ts'

/** A server that wants a session, as the contract of the API has it. */
class Gate {
  readonly asked: string[] = []
  open = false
  knows = true
  proofs = 0

  readonly fetch = async (path: string, init?: RequestInit): Promise<Response> => {
    this.asked.push(path)
    const body = typeof init?.body === 'string' ? (JSON.parse(init.body) as Record<string, unknown>) : {}
    if (path === '/api/session/challenge') return Response.json({ nonce: 'n1', expires: '2026-03-02T12:00:00.000Z' })
    if (path === '/api/session') {
      this.proofs += 1
      this.open = this.knows && body['proof'] === 'signed {"device":"browser-1","nonce":"n1"}'
      return this.open ? Response.json({ device: 'browser-1', role: 'sampler', name: 'phone' }) : refusal('proof')
    }
    return this.open ? Response.json({ got: body['entries'] ?? 'nothing' }) : refusal('session')
  }
}

const refusal = (path: string) =>
  Response.json({ issues: [{ path, expected: 'a session', received: 'none' }] }, { status: 401 })

let gate: Gate
beforeEach(() => {
  gate = new Gate()
  vi.stubGlobal('fetch', gate.fetch)
  signSessionsWith({ device: 'browser-1', sign: async (text) => `signed ${text}` })
  sessionStanding.set('fine')
})

test('[OFF10] a session that has ended is renewed with the key of this device, and what was asked is asked once more', async () => {
  const answer = await fetchInSession('/api/investigations/x/entries', { method: 'POST', body: '{"entries":[1]}' })
  expect(await answer.json()).toEqual({ got: [1] })
  expect(gate.asked).toEqual([
    '/api/investigations/x/entries',
    '/api/session/challenge',
    '/api/session',
    '/api/investigations/x/entries',
  ])
  expect(sessionStanding.get()).toBe('fine')
})

test('[OFF10] many requests at once renew once', async () => {
  await Promise.all(Array.from({ length: 8 }, () => fetchInSession('/api/investigations')))
  expect(gate.proofs).toBe(1)
})

test('[OFF10] a device that is not let in learns so, is asked no more than once a request, and its work goes on', async () => {
  gate.knows = false
  const answer = await fetchInSession('/api/investigations')
  expect(answer.status).toBe(401)
  expect(gate.proofs).toBe(1)
  expect(sessionStanding.get()).toBe('not in')
  const failed = await askServer('/api/investigations').catch((error: unknown) => error)
  // entries wait, as without a network: a refusal would take them off the list of what is sent
  expect(failed).toBeInstanceOf(Unreachable)
  gate.knows = true
  await fetchInSession('/api/investigations')
  expect(sessionStanding.get()).toBe('fine')
})

test('[OFF10] a browser that can hold no key is not in, and a network that is down is no verdict', async () => {
  signSessionsWith({ device: 'browser-1', sign: async () => undefined })
  await fetchInSession('/api/investigations')
  expect(sessionStanding.get()).toBe('not in')
  sessionStanding.set('fine')
  let first = true
  vi.stubGlobal('fetch', async () => {
    if (!first) throw new TypeError('no network')
    first = false
    return refusal('session')
  })
  expect((await fetchInSession('/api/investigations')).status).toBe(401)
  expect(sessionStanding.get()).toBe('fine')
})

test('[OFF10] what the server wants proved by the key of this device is signed as it was sent, once', async () => {
  const sent: (readonly [string, string | null])[] = []
  vi.stubGlobal('fetch', async (path: string, init?: RequestInit) => {
    const proof = new Headers(init?.headers).get('rillmark-proof')
    sent.push([path, proof])
    if (proof !== null) return Response.json({ url: 'https://desk.local/join#t' })
    const answer = refusal('proof')
    answer.headers.set('rillmark-challenge', 'n7')
    return answer
  })
  const body = '{"role":"sampler"}'
  const headers = { 'content-type': 'application/json' }
  expect((await fetchInSession('/api/invitations', { method: 'POST', headers, body })).ok).toBe(true)
  // by the system's own: printf '{"role":"sampler"}' | sha256sum
  const hash = 'c962154e324c0db3e9475ec146c5c895b9f477d4b2af12aacb094e611e93ef7d'
  const statement = `{"body":"${hash}","device":"browser-1","method":"POST","nonce":"n7","path":"/api/invitations"}`
  expect(sent).toEqual([
    ['/api/invitations', null],
    ['/api/invitations', `n7.signed ${statement}`],
  ])
  signSessionsWith({ device: 'browser-1', sign: async () => undefined })
  expect((await fetchInSession('/api/invitations', { method: 'POST', headers, body })).status).toBe(401)
  expect(sent).toHaveLength(3)
})
