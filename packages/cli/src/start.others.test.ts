import { type ChildProcess, spawn } from 'node:child_process'
import { generateKeyPairSync, X509Certificate } from 'node:crypto'
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs'
import { request } from 'node:https'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, expect, test, vi } from 'vitest'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { Access } from '@rillmark/server/access/access.ts'
import { serve } from '@rillmark/server/api/serve.ts'
import { openServerKey } from '@rillmark/server/devices/server-key.ts'
import { startCommand } from './start.ts'
import { readStartOptions } from './start-options.ts'

const main = fileURLToPath(new URL('main.ts', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'rillmark-start-others-'))
const started: ChildProcess[] = []
afterAll(() => {
  for (const child of started) child.kill('SIGKILL')
  rmSync(folder, { recursive: true, force: true })
})

/** Starts the command for others; what it said by the time it serves, and how to stop it. */
async function start(data: string, more: readonly string[] = []) {
  const args = [main, 'start', '--host', '0.0.0.0', '--port', '0', '--data', data, '--no-open', ...more]
  const child = spawn(process.execPath, args, { cwd: folder })
  started.push(child)
  const said = { out: '', err: '' }
  child.stderr.on('data', (chunk: Buffer) => (said.err += chunk.toString()))
  await new Promise<void>((ready, failed) => {
    child.stdout.on('data', (chunk: Buffer) => {
      said.out += chunk.toString()
      if (said.out.includes('Ctrl-C')) ready()
    })
    child.on('close', () => failed(new Error(said.err)))
  })
  const ended = new Promise<number | null>((done) => child.on('close', done))
  const stop = async () => {
    child.kill('SIGTERM')
    return ended
  }
  return {
    out: said.out,
    port: Number(/^Rillmark is at https:\S+:(?<port>\d+)$/m.exec(said.out)?.groups?.['port']),
    stop,
  }
}

/** Asked over HTTPS as a device does that trusts the authority kept in the data folder. */
function asked(
  data: string,
  { port, path }: { port: number; path: string },
): Promise<{ status: number; text: string; shown: string }> {
  const ca = readFileSync(join(folder, data, 'certificate', 'authority.crt'))
  return new Promise((done, failed) => {
    const asking = request({ host: '127.0.0.1', port, path, ca, agent: false }, (response) => {
      const shown = (response.socket as import('node:tls').TLSSocket).getPeerCertificate().fingerprint256
      let text = ''
      response.on('data', (chunk: Buffer) => (text += chunk.toString()))
      response.on('end', () => done({ status: response.statusCode ?? 0, text, shown }))
    })
    asking.on('error', failed)
    asking.end()
  })
}

const printed = (out: string, what: string): string | undefined =>
  new RegExp(`^${what}, SHA-256: +(?<print>[0-9A-F:]{95})$`, 'm').exec(out)?.groups?.['print']

test('[ACC17] [ACC23] for others start speaks HTTPS by a certificate whose fingerprints it says, says its key, and asks who comes', async () => {
  const { out, port, stop } = await start('one')
  const health = await asked('one', { port, path: '/api/health' })
  expect(health).toMatchObject({ status: 200, text: '{"ok":true}', shown: printed(out, 'Certificate') })
  const authority = new X509Certificate(readFileSync(join(folder, 'one', 'certificate', 'authority.crt')))
  expect(printed(out, 'Authority')).toBe(authority.fingerprint256)
  expect(out).toContain(`Key of its receipts:  ${hashGroups(openServerKey(join(folder, 'one')).thumbprint)} `)
  expect((await asked('one', { port, path: '/api/investigations' })).status).toBe(401)
  const plain = await fetch(`http://127.0.0.1:${port}/api/health`)
  expect(plain.status).toBe(400)
  expect(await plain.text()).toContain('https')
  expect(await stop()).toBe(0)
})

/** What the command says in this process, by the time it serves; then it is stopped. */
async function saidBy(data: string): Promise<string> {
  const said = { out: '' }
  const args = ['--host', '0.0.0.0', '--port', '0', '--data', join(folder, data), '--no-open']
  const io = {
    stdin: async () => '',
    out: (text: string) => void (said.out += text),
    err: () => undefined,
    cwd: folder,
  }
  const running = startCommand.run(args, io)
  await vi.waitUntil(() => said.out.includes('Ctrl-C'), { timeout: 25_000 })
  process.emit('SIGTERM')
  expect(await running).toBe(0)
  return said.out
}

test('[ACC17] while there is no lead each start invites one, by address and code; the invitation before no longer counts', async () => {
  const first = await saidBy('two')
  const [url = ''] = /^https:\S+\/join#\S+$/m.exec(first) ?? []
  expect(url).not.toBe('')
  // the finder patterns of the code: three corners of seven modules; what it says may look like one more
  expect(first.match(/█▀▀▀▀▀█/g)?.length).toBeGreaterThanOrEqual(3)
  expect(first).toContain('The authority is new')
  const second = await saidBy('two')
  const [again = ''] = /^https:\S+\/join#\S+$/m.exec(second) ?? []
  expect(second).toContain('need nothing more')
  expect(printed(second, 'Certificate')).toBe(printed(first, 'Certificate'))
  const access = new Access(join(folder, 'two'))
  const tokens = [url, again].map((each) => each.split('#')[1] ?? '')
  expect(tokens.map((token) => access.invitations.open(token)?.role)).toEqual([undefined, 'lead'])
  access.close()
  expect(statSync(join(folder, 'two', 'access.sqlite')).mode & 0o777).toBe(0o600)
})

test('[ACC17] where there is a lead nobody is invited at the terminal, unless it is asked for', async () => {
  const options = { dataFolder: join(folder, 'three'), host: '0.0.0.0', port: 0, demo: false, log: () => undefined }
  await (await serve(options)).close()
  const access = new Access(join(folder, 'three'))
  const { x = '', y = '' } = generateKeyPairSync('ec', { namedCurve: 'P-256' }).publicKey.export({ format: 'jwk' })
  const key = { kty: 'EC', crv: 'P-256', x, y } as const
  access.devices.enrol({ id: 'browser-1', name: 'Desk', role: 'lead', key, invitedBy: 'terminal' })
  access.close()
  const quiet = await serve(options)
  expect(quiet.invitation).toBeUndefined()
  await quiet.close()
  const asking = await serve({ ...options, inviteLead: true })
  expect(asking.invitation?.url).toMatch(/^https:.*\/join#/)
  await asking.close()
})

test('[ACC17] on this machine alone there is no certificate and no invitation', async () => {
  const options = { dataFolder: join(folder, 'four'), host: '127.0.0.1', port: 0, demo: false, log: () => undefined }
  const open = await serve(options)
  expect(open).toMatchObject({ certificate: undefined, keyThumbprint: undefined, invitation: undefined })
  expect(open.url).toMatch(/^http:\/\/127/)
  await open.close()
  expect(() => statSync(join(folder, 'four', 'access.sqlite'))).toThrow('ENOENT')
})

test('[ACC16] [ACC17] behind a proxy a server on this machine asks who comes, and invites to the address people type', async () => {
  const proxy = { origin: 'https://cases.agency.example', addresses: ['127.0.0.1'] }
  const options = { dataFolder: join(folder, 'five'), host: '127.0.0.1', port: 0, demo: false, log: () => undefined }
  const behind = await serve({ ...options, proxy, plainHttp: true })
  expect(behind.certificate).toBeUndefined()
  expect(behind.invitation?.url).toMatch(/^https:\/\/cases\.agency\.example\/join#/)
  const address = `http://127.0.0.1:${behind.port}/api/investigations`
  expect((await fetch(address)).status).toBe(403)
  expect((await fetch(address, { headers: { 'x-forwarded-proto': 'https' } })).status).toBe(401)
  await behind.close()
})

test.each([
  [['--plain-http'], '--plain-http'],
  [['--proxy', '192.0.2.1'], '--proxy'],
  [['--behind-proxy', 'http://cases.agency.example'], '--behind-proxy'],
  [['--behind-proxy', 'cases.agency.example'], '--behind-proxy'],
  [['--behind-proxy', 'https://cases.agency.example/'], '--behind-proxy'],
  [['--behind-proxy', 'https://cases.agency.example/app'], '--behind-proxy'],
  [['--behind-proxy', 'https://a@cases.agency.example'], '--behind-proxy'],
  [['--behind-proxy', 'https://cases.agency.example', '--proxy', 'anyone'], '--proxy'],
  [['--behind-proxy', 'https://cases.agency.example', '--proxy', '0.0.0.0/99'], '--proxy'],
  [['--port', '70000'], '--port'],
  [['--nothing'], 'arguments'],
] as const)('[CLI1] start %j names what is wrong', (args, path) => {
  const read = readStartOptions(args)
  expect(read.ok ? [] : read.issues.map((issue) => issue.path)).toEqual([path])
})
