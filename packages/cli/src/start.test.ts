import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, expect, test, vi } from 'vitest'
import { startCommand } from './start.ts'

const main = fileURLToPath(new URL('main.ts', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'rillmark-start-'))
const started: ChildProcess[] = []
afterAll(() => {
  for (const child of started) child.kill('SIGKILL')
  rmSync(folder, { recursive: true, force: true })
})

/** Starts the command in a process of its own; `ready` gives its address, `ended` how it ended and what it said. */
function start(args: readonly string[]) {
  const child = spawn(process.execPath, [main, 'start', ...args], { cwd: folder })
  started.push(child)
  const said = { out: '', err: '' }
  child.stderr.on('data', (chunk: Buffer) => (said.err += chunk.toString()))
  const ready = new Promise<string>((found) => {
    child.stdout.on('data', (chunk: Buffer) => {
      said.out += chunk.toString()
      const url = /http:\S+/.exec(said.out)?.[0]
      if (url !== undefined && said.out.includes('Ctrl-C')) found(url)
    })
  })
  const ended = new Promise<{ code: number | null; out: string; err: string }>((done) =>
    child.on('close', (code) => done({ code, ...said })),
  )
  return { child, ready, ended }
}

test.each(['SIGTERM', 'SIGINT'] as const)(
  '[CLI3] start serves until %s, then ends with 0 and says so',
  async (signal) => {
    const { child, ready, ended } = start(['--port', '0', '--data', 'one'])
    const url = await ready
    expect(await (await fetch(`${url}/api/health`)).json()).toEqual({ ok: true, investigations: 0 })
    // somebody who listens for news must not keep it from stopping
    const listening = await fetch(`${url}/api/investigations/marram-house/events`)
    expect(listening.status).toBe(200)
    child.kill(signal)
    const { code, out, err } = await ended
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toContain('Stopped. Everything acknowledged is on disk.')
    await listening.body?.cancel().catch(() => undefined)
  },
)

test('[CLI3] a port that is taken is said so, and the next free one is used', async () => {
  const first = start(['--port', '0', '--data', 'first'])
  const port = Number(new URL(await first.ready).port)
  const second = start(['--port', String(port), '--data', 'second'])
  const url = await second.ready
  expect(Number(new URL(url).port)).toBeGreaterThan(port)
  expect((await fetch(`${url}/api/health`)).status).toBe(200)
  first.child.kill('SIGTERM')
  second.child.kill('SIGTERM')
  const [, { code, err }] = await Promise.all([first.ended, second.ended])
  expect(code).toBe(0)
  expect(err).toBe(`Port ${port} is taken; using ${new URL(url).port}.\n`)
})

test('start with the worked example tells where it is', async () => {
  const { child, ready, ended } = start(['--port', '0', '--data', 'example', '--demo'])
  const url = await ready
  const { investigations } = (await (await fetch(`${url}/api/investigations`)).json()) as { investigations: unknown[] }
  expect(investigations).toHaveLength(1)
  child.kill('SIGTERM')
  expect((await ended).out).toContain(`Worked example: ${url}/i/marram-house/brief`)
})

test.each([
  ['at a terminal', [], { terminal: true, opens: true, told: true }],
  ['at a terminal without a browser', [], { terminal: true, opens: false, told: false }],
  ['at a terminal with --no-open', ['--no-open'], { terminal: true, opens: undefined, told: false }],
  ['into a pipe', [], { terminal: false, opens: undefined, told: false }],
] as const)('[CLI6] %s the browser is asked as it should, and serving goes on', async (_, more, want) => {
  const asked: string[] = []
  const said = { out: '' }
  const running = startCommand.run(['--port', '0', '--data', join(folder, 'open'), ...more], {
    stdin: async () => '',
    out: (text) => void (said.out += text),
    err: () => undefined,
    cwd: folder,
    terminal: want.terminal,
    open: (address) => {
      asked.push(address)
      return want.opens === true
    },
  })
  await vi.waitUntil(() => said.out.includes('Ctrl-C'), { timeout: 10_000 })
  const url = /http:\S+/.exec(said.out)?.[0] ?? ''
  expect((await fetch(`${url}/api/health`)).status).toBe(200)
  expect(asked).toEqual(want.opens === undefined ? [] : [url])
  expect(said.out.includes('Opening it in the browser')).toBe(want.told)
  process.emit('SIGTERM')
  expect(await running).toBe(0)
})
