// Every command with input nobody can use: it ends with 2, says why in one line a problem, writes nothing and leaves nothing.
import { spawnSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { CommandIo } from '@rillmark/cli/command.ts'
import { commands } from '@rillmark/cli/commands.ts'
import { dispatch } from '@rillmark/cli/dispatch.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { openData } from '@rillmark/server/data/open-data.ts'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'

const folder = mkdtempSync(join(tmpdir(), 'rillmark-bad-commands-'))
const at = (...parts: string[]): string => join(folder, ...parts)
let before: string[]
beforeAll(async () => {
  const data = openData(at('data'))
  const { make } = entryMaker('marram-house')
  await data.records.append('marram-house', [make('note.written', { text: 'one', purpose: 'note' })])
  await data.ledger.close()
  for (const [name, content] of FILES) writeFileSync(at(name), content)
  truncateSync(at('huge'), 700 * 1024 * 1024)
  mkdirSync(at('folder'))
  before = listed()
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))
afterEach(() => {
  if (listed().join('\n') !== before.join('\n')) throw new Error(`left behind: ${listed().join(', ')}`)
})

const listed = (): string[] =>
  (readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => !/-(?:shm|wal)$/.test(name))
    .map((name) => `${name} ${statSync(at(name)).isFile() ? statSync(at(name)).size : ''}`)
    .toSorted()

const FILES: readonly (readonly [string, string | Uint8Array])[] = [
  ['empty', ''],
  ['spaces', ' \n '],
  ['binary', Uint8Array.from({ length: 5000 }, (_, index) => (index * 7919) % 256)],
  ['utf-16', Uint8Array.of(0xff, 0xfe, 0x7b, 0, 0x7d, 0)],
  ['half', '{"format":'],
  ['number', '7'],
  ['list', '[1,2]'],
  ['object', '{}'],
  ['prototype', '{"__proto__":{"x":1},"constructor":{}}'],
  ['wrong', '{"format":"rillmark/water-system@1","components":{"id":1},"pipes":"none","name":[]}'],
  ['deep', `${'['.repeat(200_000)}${']'.repeat(200_000)}`],
  ['words', 'PK and so on\n'.repeat(100)],
  ['huge', ''],
]
const UNUSABLE = [...FILES.map(([name]) => name), 'folder', 'nowhere', 'half/inside', 'x'.repeat(300), '']

async function run(args: readonly string[], stdin = '') {
  let [out, err] = ['', '']
  const io: CommandIo = {
    stdin: async () => stdin,
    out: (text) => (out += text),
    err: (text) => (err += text),
    cwd: folder,
  }
  return { code: await dispatch({ commands, args: [...args], io }), out, err }
}

const LINE = /^(?!\s)[^\n]*: expected [^\n]+, received [^\n]+$/
const LONGEST_LINE = 1000

/** What is wrong with the way a command refused. */
function complaintAbout(said: Awaited<ReturnType<typeof run>>, outAllowed = false): string[] {
  const lines = said.err.trimEnd().split('\n')
  return [
    ...(said.code === 2 ? [] : [`ended with ${said.code}`]),
    ...(said.out === '' || outAllowed ? [] : [`wrote ${said.out.slice(0, 100)}`]),
    ...lines
      .filter((line) => !LINE.test(line) || line.length > LONGEST_LINE)
      .map((line) => `said ${line.slice(0, 200)}`),
    ...(/\.ts:\d|node_modules|undefined|\[object/.test(said.err)
      ? [`told of the inside: ${said.err.slice(0, 200)}`]
      : []),
  ]
}

const READERS: readonly (readonly string[])[] = [
  ['system', 'build'],
  ['system', 'check'],
  ['system', 'draw'],
  ['plan'],
  ['import'],
  ['verify'],
]
test.each(
  READERS.flatMap((command) => UNUSABLE.map((file) => [command.join(' '), file.slice(0, 40), command, file] as const)),
)('[CLI1] %s %s is refused in a line a problem', async (_, __, command, file) => {
  const extra = command[0] === 'import' ? ['--data', 'new'] : command[0] === 'verify' ? ['--data', 'data'] : []
  const out = ['system build', 'system draw', 'plan'].includes(command.join(' ')) ? ['-o', 'out.file'] : []
  expect(complaintAbout(await run([...command, file, ...extra, ...out]))).toEqual([])
})

const STDIN = FILES.filter(([, content]) => typeof content === 'string').map(
  ([name, content]) => [name, String(content)] as const,
)
test.each([['calc', 'proportion'], ['system', 'build'], ['system', 'check'], ['system', 'draw'], ['plan']])(
  '[CLI1] %s %s with bad standard input',
  async (...command) => {
    for (const [name, content] of STDIN)
      expect(complaintAbout(await run(command.filter(Boolean), content)), name).toEqual([])
  },
)

test('[CLI1] a batch with bad lines answers each line and ends with 2', async () => {
  const lines = [
    '7',
    '{',
    '[]',
    '{"id":"none"}',
    '{"id":"__proto__","input":{}}',
    '{"id":{},"input":null}',
    'x'.repeat(100_000),
  ]
  const said = await run(['calc', '--batch'], lines.join('\n'))
  expect(complaintAbout(said, true)).toEqual([])
  const answers = said.out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as object)
  expect(answers.map((answer) => 'error' in answer)).toEqual(lines.map(() => true))
})

test.each(Object.keys(commands))('[CLI1] %s refuses options it has not', async (name) => {
  const id = name === 'system' ? ['system', 'check'] : [name]
  for (const wrong of [['--frobnicate'], ['-x'], ['--=1'], ['a', 'b', 'c'], ['-o'], ['--data='], ['--__proto__=1']])
    expect(complaintAbout(await run([...id, ...wrong])), wrong.join(' ')).toEqual([])
})

test('[CLI1] a command there is not is refused', async () => {
  for (const name of ['constructor', '__proto__', '', '../start', '--frobnicate', 'x'.repeat(200)])
    expect(complaintAbout(await run([name])), name).toEqual([])
})

const IDS = ['nobody', '../../etc/passwd', '', '__proto__', "' OR 1=1 --", 'x'.repeat(200), 'MARRAM-HOUSE']
test.each(['report', 'export', 'verify'])('[CLI1] %s refuses ids and folders there are not', async (name) => {
  const out = name === 'verify' ? [] : ['-o', 'out.file']
  for (const id of IDS) expect(complaintAbout(await run([name, id, '--data', 'data', ...out])), id).toEqual([])
  for (const data of ['nowhere', 'empty', 'folder', ''])
    expect(complaintAbout(await run([name, 'marram-house', '--data', data, ...out])), data).toEqual([])
})

test('[CLI2] a place that can’t be written is refused and nothing is left there', async () => {
  const quick = JSON.stringify({ name: 'x', floors: 2 })
  for (const out of ['folder', 'nowhere/out.file', 'half/out.file', `${'x'.repeat(300)}`])
    for (const args of [
      ['export', 'marram-house', '--data', 'data', '-o', out],
      ['report', 'marram-house', '--data', 'data', '-o', out],
    ])
      expect(complaintAbout(await run(args, quick)), args.join(' ')).toEqual([])
})

test('[CLI2] without permission to read or write, the reason is told and nothing is left', () => {
  const closed = mkdtempSync(join(tmpdir(), 'rillmark-closed-'))
  try {
    writeFileSync(join(closed, 'unreadable.json'), '{}', { mode: 0 })
    mkdirSync(join(closed, 'read-only'))
    chmodSync(join(closed, 'read-only'), 0o555)
    chmodSync(closed, 0o755)
    for (const args of [
      ['system', 'check', 'unreadable.json'],
      ['plan', 'unreadable.json', '-o', 'read-only/plan.json'],
      ['verify', 'unreadable.json'],
      ['start', '--data', 'read-only/data', '--port', '0'],
      ['start', '--data', 'read-only', '--port', '0'],
    ])
      expect(complaintAbout(asNobody(args, closed)), args.join(' ')).toEqual([])
    expect(readdirSync(join(closed, 'read-only'))).toEqual([])
  } finally {
    rmSync(closed, { recursive: true, force: true })
  }
})

const main = fileURLToPath(new URL('../../packages/cli/src/main.ts', import.meta.url))
const NOBODY = 65_534

/** The superuser may read and write everything, so it is done as somebody who may not. */
function asNobody(args: readonly string[], cwd: string): { code: number; out: string; err: string } {
  const user = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {}
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...args], {
    cwd,
    encoding: 'utf8',
    timeout: 20_000,
    ...user,
  })
  return { code: status ?? -1, out: stdout, err: stderr }
}
