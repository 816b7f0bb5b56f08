import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { conditionsSchema } from '@rillmark/casebook/conditions/conditions-schema.ts'
import type { Explanation } from '@rillmark/casebook/conditions/explanation.ts'
import { afterAll, expect, test } from 'vitest'
import { schemaCommand } from './schema.ts'
import { systemCommand } from './system.ts'

const cwd = mkdtempSync(join(tmpdir(), 'rillmark-conditions-'))
afterAll(() => rmSync(cwd, { recursive: true }))
const twoRiser = resolve(import.meta.dirname, '../../../docs/examples/two-riser.json')

async function run(args: string[], io: { watched?: boolean; stdin?: string } = {}) {
  let [out, err] = ['', '']
  const code = await systemCommand.run(['conditions', ...args], {
    cwd,
    stdin: async () => io.stdin ?? '',
    out: (text: string) => void (out += text),
    err: (text: string) => void (err += text),
    watched: io.watched ?? false,
  })
  return { code, out, err }
}

test('[SIM15] the table says where to look first, what was filled in, and that it is a screening model', async () => {
  const { code, out, err } = await run([twoRiser])
  expect([code, err]).toEqual([0, ''])
  expect(out).toContain('The water of two-riser example over a repeating day (screening model)')
  const rows = out.split('\n')
  const first = rows.findIndex((line) => line.startsWith('No  Growth'))
  // the tap nobody uses
  expect(rows[first + 1]).toMatch(/^1 .*store-tap/)
  expect(out).toMatch(/Filled in or guessed: \d+/)
  expect(out).toContain('It does not replace a measurement')
  expect(rows[first]).toContain('Mean °C')
})

test('[SIM15] the table speaks the units asked for, the JSON those of the record', async () => {
  const us = await run([twoRiser, '--units', 'us'])
  expect(us.out).toContain('Mean °F')
  // 13 mm of insulation nobody described, which may be up to 25 mm
  expect(us.out).toContain('Insulation: 0.51 in thick; may be 0 to 0.98 in (')
  // 30 °C in a caution
  expect(us.out).toContain('Arrhenius holds well below about 86 °F')
  // 22 °C of the air around a tap nobody uses = 71.6 °F
  expect(us.out).toMatch(/store-tap .* 71\.6 /)
  const json = await run([twoRiser, '--units', 'us', '--json'])
  expect(json.out).toBe((await run([twoRiser, '--json'])).out)
  expect(conditionsSchema.parse(JSON.parse(json.out)).components['store-tap']?.temperatureC.mean).toBeCloseTo(22, 6)
})

test('[SIM15] curves go to a file of their own, in quarter hours', async () => {
  expect(await run([twoRiser, '--series', 'day.json', '-o', 'table.txt'])).toEqual({ code: 0, out: '', err: '' })
  const day = JSON.parse(readFileSync(join(cwd, 'day.json'), 'utf8')) as {
    slots: number
    pipeIds: string[]
    pipes: Record<string, number[][]>
  }
  expect(day.slots).toBe(96)
  expect(day.pipes['flowLPerMin']?.[day.pipeIds.indexOf('r1')]).toEqual(Array.from({ length: 96 }, () => 4))
  expect(readFileSync(join(cwd, 'table.txt'), 'utf8')).toContain('Where to look first')
})

test('[SIM15] a description that cannot be simulated ends with 2 and a line for each reason', async () => {
  const system = JSON.parse(readFileSync(twoRiser, 'utf8')) as {
    components: { id: string; setpointC?: number; volumeL?: number }[]
    pipes: { lengthM: number }[]
  }
  const heater = system.components.find(({ id }) => id === 'heater')
  if (heater !== undefined) delete heater.setpointC
  writeFileSync(join(cwd, 'no-setpoint.json'), JSON.stringify(system))
  expect(await run(['no-setpoint.json'])).toEqual({
    code: 2,
    out: '',
    err: 'components.2.setpointC: expected its set point in °C, received none: nobody said what heater is set to\n',
  })
  for (const one of system.pipes.slice(0, 2)) one.lengthM = 0
  const broken = await run(['-'], { stdin: JSON.stringify(system) })
  expect(broken.code).toBe(2)
  expect(broken.err).toContain('pipes.0.lengthM: expected more than 0, received 0 (p1)\n')
  expect(broken.err).toContain('pipes.1.lengthM: expected more than 0, received 0 (p2)\n')
})

test.each([
  [['--seed', 'x'], '--seed: expected a whole number'],
  [['--seed', '-1'], 'a FILE, --json'],
  [['--days', '0'], '--days: expected a whole number from 1'],
  [['--units', 'old'], '--units: expected metric or us'],
  [['a', 'b'], 'one FILE'],
  [['--loud'], 'a FILE, --json'],
  [['nowhere.json'], 'a file that can be read'],
])('%j is refused in a line', async (args, expected) => {
  const { code, err } = await run(args)
  expect(code).toBe(2)
  expect(err).toContain(expected)
})

test('[SIM15] the schema of the answer can be printed', async () => {
  let out = ''
  const io = { cwd, stdin: async () => '', out: (text: string) => void (out += text), err: () => undefined }
  expect(await schemaCommand.run(['conditions'], io)).toBe(0)
  expect(JSON.parse(out)).toMatchObject({ properties: { components: {}, pipes: {}, balance: {} } })
})

test('[SIM15] --why tells of parts in words and the reader’s units; an id the system has not is refused', async () => {
  const { code, out, err } = await run([twoRiser, '--why', 'store-tap', '--why', 'r1', '--units', 'us'])
  expect([code, err]).toEqual([0, ''])
  expect(out).toContain('(store-tap)')
  expect(out).toContain('Because: Nobody uses it')
  expect(out).toContain('71.6 °F')
  const json = await run([twoRiser, '--why', 'store-tap', '--json'])
  const [told] = JSON.parse(json.out) as Explanation[]
  expect(told?.id).toBe('store-tap')
  expect(told?.sides.flatMap(({ causes }) => causes.map(({ id }) => id))).toContain('nothing-moves')
  const none = await run([twoRiser, '--why', 'attic'])
  expect(none.code).toBe(2)
  expect(none.err).toContain('--why: expected the id of a component or pipe of the system, received attic')
})

test('[SIM15] --how-sure tells how far each guess moves the prediction', async () => {
  const { code, out } = await run([twoRiser, '--how-sure'])
  expect(code).toBe(0)
  expect(out).toContain('Cold water at outlets, mean')
  // thinner insulation, cooler hot water; thicker, hotter
  const [, least, most] = /at its low end ([\d.]+) °C, at its high end ([\d.]+) °C: Insulation/.exec(out) ?? []
  expect(Number(least)).toBeLessThan(Number(most))
  const told = JSON.parse((await run([twoRiser, '--how-sure', '--json'])).out) as { inputs: { share: number }[] }
  expect(told.inputs[0]?.share).toBe(1)
}, 120_000)
