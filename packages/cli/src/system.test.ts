import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import { afterAll, expect, test } from 'vitest'
import type { Command } from './command.ts'
import { schemaCommand } from './schema.ts'
import { systemCommand } from './system.ts'

const cwd = mkdtempSync(join(tmpdir(), 'rillmark-system-'))
afterAll(() => rmSync(cwd, { recursive: true }))

const example = (name: string): string => resolve(import.meta.dirname, '../../../docs/examples', name)

async function run(command: Command, args: string[], stdin = ''): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', '']
  const io = {
    cwd,
    stdin: async () => stdin,
    out: (text: string) => void (out += text),
    err: (text: string) => void (err += text),
  }
  const code = await command.run(args, io)
  return { code, out, err }
}

test('builds Marram House from its quick description, checks it and draws it', async () => {
  expect(await run(systemCommand, ['build', example('marram-house.json'), '-o', 'mh.json'])).toMatchObject({
    code: 0,
    err: '',
  })
  expect(await run(systemCommand, ['check', 'mh.json'])).toEqual({ code: 0, out: 'No problems found.\n', err: '' })
  expect(await run(systemCommand, ['draw', 'mh.json', '-o', 'mh.svg', '--theme', 'dark'])).toMatchObject({ code: 0 })
  expect(readFileSync(join(cwd, 'mh.svg'), 'utf8')).toContain(
    '<title id="rl-title">Marram House: riser diagram</title>',
  )
})

test('the two-riser example is sound and can be drawn from standard input', async () => {
  const text = readFileSync(example('two-riser.json'), 'utf8')
  expect(checkSystem(JSON.parse(text))).toEqual([])
  const drawn = await run(systemCommand, ['draw', '-'], text)
  expect(drawn.code).toBe(0)
  expect(drawn.out).toMatch(/^<svg/)
})

test('every problem is one line on standard error, or one item of a JSON list', async () => {
  const system = JSON.parse(readFileSync(example('two-riser.json'), 'utf8')) as { pipes: { lengthM: number }[] }
  for (const pipe of system.pipes.slice(0, 2)) pipe.lengthM = -1
  writeFileSync(join(cwd, 'bad.json'), JSON.stringify(system))
  const told = await run(systemCommand, ['check', 'bad.json'])
  expect(told.code).toBe(2)
  expect(told.err).toContain('error: pipes.0.lengthM: expected more than 0, received -1 (p1)\n')
  const listed = await run(systemCommand, ['check', 'bad.json', '--json'])
  expect(JSON.parse(listed.out)).toHaveLength(told.err.trim().split('\n').length)
})

test.each([
  [['check', 'nowhere.json'], 'a file that can be read'],
  [['draw', example('two-riser.json'), '-o', 'no/such/folder.svg'], 'a file that can be written'],
  [['draw', example('two-riser.json'), '--theme', 'pink'], 'light, dark, paper'],
  [['draw', example('two-riser.json'), '--detail', 'some'], 'auto, all, collapsed'],
  [['build', example('two-riser.json')], 'floors: expected'],
  [['paint'], 'build, check, draw, conditions or fit'],
  [[], 'build, check, draw, conditions or fit'],
  [['check', '--loud'], 'a FILE'],
  [['check', 'a', 'b'], 'one FILE'],
  [['check', '-'], 'JSON'],
])('%j is refused in a line', async (args, expected) => {
  const { code, err } = await run(systemCommand, args)
  expect(code).toBe(2)
  expect(err).toContain(expected)
})

test('a quick description that changes a floor or riser which is not there is refused', async () => {
  const quick = {
    name: 'House',
    floors: 2,
    risers: 1,
    outlets: { shower: 1 },
    overrides: [{ floor: 0, riser: 'B', outlets: { bath: 1 } }],
    recirculation: 'none',
    mixing: 'none',
    supply: { disinfectant: 'none' },
  }
  const { code, err } = await run(systemCommand, ['build', '-'], JSON.stringify(quick))
  expect(code).toBe(2)
  expect(err).toContain('overrides.0.floor: expected a floor from 1 to 2, received 0')
  expect(err).toContain('overrides.0.riser: expected one of the risers A, received "B"')
})

test('text that is nearly JSON is told where it is not', async () => {
  const { err } = await run(systemCommand, ['check', '-'], `{"a": [${'1, '.repeat(40)}NaN${', 2'.repeat(40)}]}`)
  expect(err).toContain('NaN')
  const missing = await run(systemCommand, ['check', '-'], '{\n"a": 1\n"b": 2}')
  expect(missing.err).toContain('line 3, column 1')
})

test('prints the JSON Schema of the formats it knows, and names them for others', async () => {
  for (const name of ['water-system', 'quick-description']) {
    const { code, out } = await run(schemaCommand, [name])
    expect(code).toBe(0)
    expect(JSON.parse(out)).toMatchObject({ $schema: expect.any(String), additionalProperties: false })
  }
  expect((await run(schemaCommand, [])).out).toContain('water-system')
  expect(await run(schemaCommand, ['toString'])).toMatchObject({ code: 2, err: expect.stringContaining('one of') })
})
