import { createHash, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { type IncomingHttpHeaders, request as plainRequest } from 'node:http'
import { request } from 'node:https'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { signedText } from '@rillmark/casebook/devices/signed-text.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { BodyOf, Kind } from '@rillmark/casebook/entry/kinds.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { buildApp } from '../api/app.ts'
import { type KeptCertificate, keptCertificate } from '../certificate/kept-certificate.ts'
import { openData } from '../data/open-data.ts'
import { Access } from './access.ts'
import type { Proxy } from './front.ts'
import type { Role } from './roles.ts'

export const HOUR_MS = 3_600_000
const OWN = { names: ['localhost'], addresses: ['127.0.0.1', '::1'] }

export interface Asked {
  readonly method?: string
  readonly path: string
  readonly body?: unknown
  /** sent as they are instead of a body as JSON */
  readonly raw?: Uint8Array | string
  readonly headers?: Readonly<Record<string, string>>
  /** signs nothing where the server wants a proof */
  readonly unproved?: boolean
  /** lets go of the answer once its status is known: a stream has no end */
  readonly statusOnly?: boolean
}

export interface Answer {
  readonly status: number
  readonly headers: IncomingHttpHeaders
  readonly text: string
  readonly json: () => unknown
  /** the path of its first issue */
  readonly issue: string | undefined
}

export type ClosedServer = Awaited<ReturnType<typeof closedServer>>

/** A server for others, asked over real HTTPS (plain HTTP behind a proxy) on this machine; its clock can be moved. */
export async function closedServer({ proxy }: { proxy?: Proxy } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-access-'))
  const data = openData(folder)
  const clock = { ahead: 0 }
  const access = new Access(folder, () => Date.now() + clock.ahead)
  const failures: unknown[] = []
  const kept = proxy === undefined ? await sharedCertificate() : undefined
  const app = await buildApp({
    data,
    appFolder: join(folder, 'no-app'),
    loopbackOnly: false,
    front: {
      kind: 'closed',
      ...(kept === undefined ? {} : { authority: () => kept.authority }),
      ...(proxy === undefined ? {} : { proxy }),
    },
    ...(kept === undefined ? {} : { tls: kept }),
    access,
    log: (error) => failures.push(error),
  })
  await app.listen({ host: '127.0.0.1', port: 0 })
  const { port } = app.server.address() as AddressInfo
  const ask = (asked: Asked): Promise<Answer> => sent(asked, { port, kept })
  return {
    app,
    data,
    access,
    folder,
    failures,
    port,
    origin: `https://127.0.0.1:${port}`,
    authority: kept?.authority,
    ask,
    /** moves the server's clock on */
    pass: (ms: number) => void (clock.ahead += ms),
    invite: (role: Role, minutes = 15) => access.invitations.make({ role, minutes, by: 'R. Vale' }).token,
    enrolled: async (role: Role, id = `browser-${role}`): Promise<TestDevice> => {
      const device = testDevice(id, ask)
      const { token } = access.invitations.make({ role, minutes: 15, by: 'R. Vale' })
      const answer = await device.enrol(token)
      if (answer.status !== 200) throw new Error(answer.text)
      return device
    },
    close: async () => {
      await app.close()
      await data.ledger.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

let shared: Promise<KeptCertificate> | undefined

/** One certificate for all servers of a test file: making keys takes a while. */
function sharedCertificate(): Promise<KeptCertificate> {
  shared ??= keptCertificate(mkdtempSync(join(tmpdir(), 'rillmark-certificate-')), { own: OWN, nowMs: Date.now() })
  return shared
}

const payloadOf = ({ raw, body }: Asked) => raw ?? (body === undefined ? undefined : JSON.stringify(body))
const methodOf = (asked: Asked): string => asked.method ?? (payloadOf(asked) === undefined ? 'GET' : 'POST')

function sent(asked: Asked, { port, kept }: { port: number; kept: KeptCertificate | undefined }): Promise<Answer> {
  const { path, body, raw, headers, statusOnly } = asked
  const payload = payloadOf(asked)
  const type = raw === undefined && body !== undefined ? { 'content-type': 'application/json' } : {}
  const options = {
    host: '127.0.0.1',
    port,
    path,
    method: methodOf(asked),
    headers: { ...type, ...headers },
    agent: false as const,
  }
  return new Promise((done, failed) => {
    const asking =
      kept === undefined ? plainRequest(options) : request({ ...options, ca: kept.cert, servername: 'localhost' })
    asking.on('error', failed)
    asking.on('response', (response) => {
      const told = { status: response.statusCode ?? 0, headers: response.headers }
      if (statusOnly === true) {
        response.destroy()
        return done({ ...told, text: '', json: () => undefined, issue: undefined })
      }
      const chunks: Buffer[] = []
      response.on('data', (chunk: Buffer) => chunks.push(chunk))
      response.on('error', failed)
      response.on('end', () => {
        const text = Buffer.concat(chunks).toString()
        const json = (): unknown => JSON.parse(text)
        const isJson = String(response.headers['content-type']).startsWith('application/json')
        const issue = isJson && text !== '' ? (json() as { issues?: { path: string }[] }).issues?.[0]?.path : undefined
        done({ ...told, text, json, issue })
      })
    })
    asking.end(payload)
  })
}

export type TestDevice = ReturnType<typeof testDevice>

/** A device with a key of its own, as a browser would be: it keeps what cookie it is given. */
export function testDevice(id: string, ask: (asked: Asked) => Promise<Answer>) {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const { kty = '', crv = '', x = '', y = '' } = publicKey.export({ format: 'jwk' })
  const key = { kty, crv, x, y } as { kty: 'EC'; crv: 'P-256'; x: string; y: string }
  const thumbprint = createHash('sha256').update(canonicalJson(key)).digest('hex')
  const jar = { cookie: '' }
  const makers = new Map<string, ReturnType<typeof entryMaker>>()
  const proved = (asked: Asked, nonce: string): string => {
    const body = createHash('sha256')
      .update(payloadOf(asked) ?? '')
      .digest('hex')
    const statement = { device: id, nonce, method: methodOf(asked), path: asked.path, body }
    return `${nonce}.${proofOf(privateKey, canonicalJson(statement))}`
  }
  /** proves what it does where the server wants it, as a browser would */
  const asOne = async (asked: Asked): Promise<Answer> => {
    const cookie = jar.cookie === '' ? {} : { cookie: jar.cookie }
    const answer = await ask({ ...asked, headers: { ...cookie, ...asked.headers } })
    const [given] = answer.headers['set-cookie'] ?? []
    if (given !== undefined) jar.cookie = given.split(';')[0] ?? ''
    const nonce = answer.headers['rillmark-challenge']
    if (typeof nonce !== 'string' || asked.headers?.['rillmark-proof'] !== undefined || asked.unproved === true)
      return answer
    return asOne({ ...asked, headers: { ...asked.headers, 'rillmark-proof': proved(asked, nonce) } })
  }
  const signed = (entry: Entry): Entry => ({
    ...entry,
    signature: { key: thumbprint, value: proofOf(privateKey, signedText(entry)) },
  })
  const written = <K extends Kind>(kind: K, body: BodyOf<K>, investigation = 'marram-house'): Entry => {
    const maker = makers.get(investigation) ?? entryMaker(investigation, { device: id })
    makers.set(investigation, maker)
    return signed(maker.make(kind, body) as Entry)
  }
  return {
    id,
    key,
    jar,
    ask: asOne,
    proof: (statement: object) => proofOf(privateKey, canonicalJson(statement)),
    signed,
    written,
    joined: (role: Role, investigation = 'marram-house') =>
      written('device.joined', { name: `Device ${id}`, role, key }, investigation),
    push: (entries: readonly unknown[], investigation = 'marram-house') =>
      asOne({ path: `/api/investigations/${investigation}/entries`, body: { entries } }),
    enrol: (token: string) =>
      asOne({
        path: '/api/enrolment',
        body: {
          token,
          device: id,
          name: `Device ${id}`,
          key,
          proof: proofOf(privateKey, canonicalJson({ token, device: id, key })),
        },
      }),
    comeBack: async () => {
      const { nonce } = (await asOne({ path: '/api/session/challenge', body: { device: id } })).json() as {
        nonce: string
      }
      const proof = proofOf(privateKey, canonicalJson({ device: id, nonce }))
      return asOne({ path: '/api/session', body: { device: id, nonce, proof } })
    },
  }
}

function proofOf(privateKey: KeyObject, text: string): string {
  return sign('sha256', Buffer.from(text), { key: privateKey, dsaEncoding: 'ieee-p1363' }).toString('base64url')
}
