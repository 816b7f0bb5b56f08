import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test, vi } from 'vitest'
import { calcCommand } from './calc.ts'
import type { CommandIo } from './command.ts'
import { dispatch } from './dispatch.ts'

async function run(args: string[], stdin = '', { terminal = false } = {}) {
  const written = { out: '', err: '' }
  const io: CommandIo = {
    stdin: async () => stdin,
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    cwd: '/',
    terminal,
  }
  const fail = async () => {
    throw new Error('no such file')
  }
  const commands = {
    calc: { summary: 'runs a calculation', load: async () => calcCommand },
    broken: { summary: 'fails', load: async () => ({ ...calcCommand, run: fail }) },
  }
  return { code: await dispatch({ commands, args, io }), ...written }
}

const dose = {
  residualMgPerL: 2,
  residualKind: 'free-chlorine',
  sampleVolumeMl: 1000,
  solutionNormality: 0.1,
  solutionVolumeMl: 0.5,
}

test('a calculation reads JSON and writes result, sources and cautions', async () => {
  const { code, out, err } = await run(['calc', 'neutralizer'], `\uFEFF${JSON.stringify(dose)}`)
  expect([code, err]).toEqual([0, ''])
  const answer = JSON.parse(out) as Record<string, unknown>
  expect(Object.keys(answer)).toEqual(['result', 'sources', 'cautions'])
  expect(answer['result']).toMatchObject({ covered: false })
})

test('[CLI5] at a terminal the answer is a table, with --json the same JSON as in a pipe', async () => {
  const input = JSON.stringify(dose)
  const piped = await run(['calc', 'neutralizer'], input)
  const read = await run(['calc', 'neutralizer'], input, { terminal: true })
  expect(read).toMatchObject({ code: 0, err: '' })
  expect(read.out).toMatch(/\nResult\n.*\n/)
  expect((await run(['calc', 'neutralizer', '--json'], input, { terminal: true })).out).toBe(piped.out)
  const batch = await run(['calc', '--batch'], `{"id":"neutralizer","input":${input}}`, { terminal: true })
  expect(JSON.parse(batch.out)).toMatchObject({ id: 'neutralizer' })
})

test('input that cannot be used ends with 2 and a line for each problem', async () => {
  expect(await run(['calc', 'proportion'], '{"positive":"x"}')).toEqual({
    code: 2,
    out: '',
    err: 'positive: expected a number, received "x"\ntotal: expected a number, received nothing\n',
  })
})

test.each([
  ['no JSON', ['calc', 'proportion'], 'positive=3', 'input: expected JSON, received "positive=3"\n'],
  ['no input', ['calc', 'proportion'], '', 'input: expected JSON, received nothing\n'],
  ['a list', ['calc', 'proportion'], '[]', 'input: expected an object, received an empty list\n'],
  [
    'an unknown option',
    ['calc', '--fast'],
    '',
    'arguments: expected an ID, --list, --batch, --explain or --json, received --fast\n',
  ],
  ['two ids', ['calc', 'a', 'b'], '', 'arguments: expected one ID, received a b\n'],
])('%s is told in a line', async (_, args, stdin, err) => {
  expect(await run(args, stdin)).toEqual({ code: 2, out: '', err })
})

test('no id or an unknown one lists those there are', async () => {
  for (const args of [['calc'], ['calc', 'constructor']]) {
    const { code, err } = await run(args)
    expect(code).toBe(2)
    expect(err).toMatch(/^id: expected one of neutralizer, .*\n$/)
  }
})

test('the list names every calculation, readable and as JSON', async () => {
  const ids = calculations.map(({ id }) => id)
  const readable = await run(['calc', '--list'])
  expect(
    readable.out
      .trimEnd()
      .split('\n')
      .map((line) => line.split(' ')[0]),
  ).toEqual(ids)
  const listed = JSON.parse((await run(['calc', '--list', '--json'])).out) as { id: string }[]
  expect(listed.map(({ id }) => id)).toEqual(ids)
})

test.each(calculations.map(({ id }) => id))('%s explains itself, in either order of words', async (id) => {
  const { code, out } = await run(['calc', id, '--explain'])
  expect(code).toBe(0)
  for (const heading of ['Input', 'Result', 'Formula', 'Sources', 'Cautions', 'Example input'])
    expect(out).toContain(`\n${heading}\n`)
  expect((await run(['calc', '--explain', id])).out).toBe(out)
  expect(JSON.parse((await run(['calc', id, '--explain', '--json'])).out)).toMatchObject({
    id,
    input: { type: 'object' },
  })
})

test('a batch answers each line in order, and a bad line stops nothing', async () => {
  const lines = [
    JSON.stringify({ id: 'neutralizer', input: dose }),
    'oops',
    '',
    '[]',
    '{"id":"nothing"}',
    '{"id":"pipe-volume","input":{"boreMm":20,"lengthM":1}}',
  ]
  const { code, out, err } = await run(['calc', '--batch'], lines.join('\r\n'))
  const answers = out
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>)
  expect(answers.map((answer) => ('error' in answer ? 'error' : answer['id']))).toEqual([
    'neutralizer',
    'error',
    'error',
    'error',
    'pipe-volume',
  ])
  expect(code).toBe(2)
  expect(
    err
      .trimEnd()
      .split('\n')
      .map((line) => line.split(':')[0]),
  ).toEqual(['line 2', 'line 4', 'line 5'])
})

test('a calculation that fails within a batch takes the other lines nothing, and the end tells of it', async () => {
  const broken = calculations.find(({ id }) => id === 'pipe-volume')
  if (broken === undefined) throw new RangeError('Cannot break a calculation because there is none: got undefined')
  using spy = vi.spyOn(broken, 'run')
  spy.mockImplementationOnce(() => {
    throw new RangeError('shares do not settle')
  })
  const pipe = '{"id":"pipe-volume","input":{"boreMm":20,"lengthM":1}}'
  const { code, out, err } = await run(['calc', '--batch'], `${pipe}\noops\n${pipe}`)
  const [first, , last] = out.split('\n').map((line) => (line === '' ? {} : (JSON.parse(line) as object)))
  expect(first).toEqual({ id: 'pipe-volume', error: 'the calculation failed: shares do not settle', issues: [] })
  expect(last).toHaveProperty('result.volumeL')
  expect(err).toContain('line 1: failed: shares do not settle')
  expect(code).toBe(1)
})

test('a batch takes no further line before its answer to the last has been taken up', async () => {
  const seen: string[] = []
  async function* stdinLines() {
    for (const name of ['one', 'two']) {
      seen.push(`line ${name}`)
      yield name
    }
  }
  const io: CommandIo = {
    stdin: async () => '',
    stdinLines,
    out: () => void seen.push('answer'),
    err: () => undefined,
    drained: async () => void seen.push('taken up'),
    cwd: '/',
  }
  await calcCommand.run(['--batch'], io)
  expect(seen).toEqual(['line one', 'answer', 'taken up', 'line two', 'answer', 'taken up'])
})

test('help is everywhere, an unknown command lists those there are, and a failure of ours is 1', async () => {
  expect((await run(['--help'])).out).toContain('calc')
  expect((await run(['calc', '--help'])).out).toContain('--batch')
  expect(await run(['divine'])).toMatchObject({
    code: 2,
    err: 'command: expected one of calc, broken, received "divine"\n',
  })
  expect(await run(['broken'])).toMatchObject({ code: 1, err: 'rillmark broken failed: no such file\n' })
})

test('the installed command does the same from a pipe', () => {
  const launcher = fileURLToPath(new URL('../bin/rillmark.js', import.meta.url))
  const done = spawnSync(process.execPath, [launcher, 'calc', '--batch'], {
    input: `${JSON.stringify({ id: 'neutralizer', input: dose })}\nbad\n`,
    encoding: 'utf8',
  })
  expect(done.status).toBe(2)
  expect(done.stdout.trimEnd().split('\n')).toHaveLength(2)
  expect(done.stderr).toBe('line 2: input: expected JSON, received "bad"\n')
})
