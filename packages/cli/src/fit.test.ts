import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { conditionsSchema } from '@rillmark/casebook/conditions/conditions-schema.ts'
import { systemCommand } from './system.ts'

const cwd = mkdtempSync(join(tmpdir(), 'rillmark-fit-'))
afterAll(() => rmSync(cwd, { recursive: true }))

const example = (name: string): string => resolve(import.meta.dirname, '../../../docs/examples', name)
const BUILDING = example('two-riser.json')
const READINGS = example('two-riser-readings.csv')

interface Said {
  code: number
  out: string
  err: string
}

const fitted = (...args: string[]): Promise<Said> => said('fit', ...args)
const simulated = (...args: string[]): Promise<Said> => said('conditions', ...args)

async function said(...args: string[]): Promise<Said> {
  let [out, err] = ['', '']
  const io = {
    cwd,
    stdin: async () => '',
    out: (text: string) => void (out += text),
    err: (text: string) => void (err += text),
  }
  const code = await systemCommand.run(args, io)
  return { code, out, err }
}

test('the example’s stopped return is found; the table tells inputs, readings and reason', async () => {
  const { code, out, err } = await fitted(BUILDING, READINGS)
  expect({ code, err }).toEqual({ code: 0, err: '' })
  expect(out).toContain('Something is not as described: The return of riser B stands still')
  expect(out).toMatch(/Set point of Heater +60 °C \(56\.7 to 63\.3\)/)
  expect(out).toMatch(/203 kitchen tap, hot after 60 s +35\.3 °C/)
  expect(out).toContain('screening model')
}, 300_000)

test('as JSON the whole fit comes in the units of the record, with what to simulate the building as fitted', async () => {
  const few = readFileSync(READINGS, 'utf8').split('\n').slice(0, 5).join('\n')
  writeFileSync(join(cwd, 'few.csv'), `${few}\nnowhere,hot,50,,,\n`)
  const { code, out } = await fitted(BUILDING, 'few.csv', '--json')
  expect(code).toBe(0)
  const answer = JSON.parse(out) as Record<string, unknown>
  expect(answer).toMatchObject({ kind: 'fitted', level: 0.9, findings: [], leftOut: [{ id: '5' }] })
  expect(answer['overrides']).toMatchObject({ setpointC: { heater: expect.any(Number) } })
  expect(answer).not.toHaveProperty('system')
}, 300_000)

test.each([
  [[BUILDING], 'arguments: expected FILE and READINGS'],
  [[BUILDING, 'none.csv'], 'a file that can be read'],
  [[BUILDING, READINGS, '--seed', 'x'], '--seed: expected a whole number'],
  [[BUILDING, READINGS, '--units', 'x'], '--units: expected metric or us'],
  [[BUILDING, BUILDING], 'READINGS format: expected'],
  [[READINGS, READINGS], 'expected JSON'],
  [[BUILDING, 'bad.csv'], 'READINGS readings.0.circuit: expected'],
  [[BUILDING, 'elsewhere.csv'], 'none of the readings is of a place the simulation knows'],
])('%j is refused with a line that says why', async (args, expected) => {
  writeFileSync(join(cwd, 'bad.csv'), 'component,circuit,temperatureC\nheater,warm,50\n')
  writeFileSync(join(cwd, 'elsewhere.csv'), 'component,circuit,temperatureC\nnowhere,hot,50\n')
  const { code, err } = await fitted(...args)
  expect(code).toBe(2)
  expect(err).toContain(expected)
})

test('conditions can be simulated as fitted: they differ from those described, and say which values were taken', async () => {
  const few = readFileSync(READINGS, 'utf8').split('\n').slice(0, 5).join('\n')
  writeFileSync(join(cwd, 'few.csv'), `${few}\n`)
  expect(await fitted(BUILDING, 'few.csv', '--json', '-o', 'fit.json')).toMatchObject({ code: 0 })
  const [plain, asFitted] = [
    await simulated(BUILDING, '--json'),
    await simulated(BUILDING, '--json', '--fitted', 'fit.json'),
  ]
  expect(asFitted).toMatchObject({ code: 0, err: '' })
  const [before, after] = [plain, asFitted].map(({ out }) => conditionsSchema.parse(JSON.parse(out)))
  expect(before?.fitted).toBeUndefined()
  expect(after?.fitted?.inputs.map(({ id }) => id)).toContain('setpointC:heater')
  expect(after?.components).not.toEqual(before?.components)
  const table = await simulated(BUILDING, '--fitted', 'fit.json')
  expect(table.out).toMatch(/^As fitted to readings, in place of what is described:\n/)
  expect(table.out).toMatch(/Set point of Heater: [\d.]+ °C \([\d.]+ to [\d.]+\)/)
}, 300_000)

test('a fit of another system, or what is no fit, is refused', async () => {
  writeFileSync(
    join(cwd, 'other.json'),
    JSON.stringify({
      kind: 'fitted',
      inputs: [{ id: 'setpointC:nowhere', words: 'x', unit: '°C', after: { value: 1, range: { lower: 0, upper: 2 } } }],
      findings: [{ id: 'stopped:nowhere', words: 'x' }],
    }),
  )
  const other = await simulated(BUILDING, '--fitted', 'other.json')
  expect(other.code).toBe(2)
  expect(other.err).toContain('--fitted inputs.0.id: expected an id of a fit of this system')
  expect(other.err).toContain('--fitted findings.0.id: expected')
  expect(await simulated(BUILDING, '--fitted', BUILDING)).toMatchObject({ code: 2 })
  expect(await simulated(BUILDING, '--fitted', READINGS)).toMatchObject({ code: 2 })
})
