import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { simulateConditions } from '@rillmark/casebook/conditions/simulate-conditions.ts'
import { planSchema } from '@rillmark/casebook/plan/plan-file.ts'
import { afterAll, expect, test } from 'vitest'
import { planCommand } from './plan.ts'
import { schemaCommand } from './schema.ts'

const cwd = mkdtempSync(join(tmpdir(), 'rillmark-plan-'))
afterAll(() => rmSync(cwd, { recursive: true }))

const request = {
  system: buildSystem(marramHouse),
  budget: { samples: 30 },
  cases: [{ code: 'MH-01', exposures: [{ place: 'room 605', kind: 'shower', from: '2026-02-01', to: '2026-02-05' }] }],
  obligations: ['basin-tap-a301', { component: 'basin-tap-b203', text: 'lukewarm' }],
}

async function run(
  command: typeof planCommand,
  args: string[],
  stdin = '',
): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' }
  const io = {
    cwd,
    stdin: () => Promise.resolve(stdin),
    out: (text: string) => void (said.out += text),
    err: (text: string) => void (said.err += text),
  }
  return { code: await command.run(args, io), ...said }
}

test('a plan from standard input as JSON fits the format', async () => {
  const { code, out } = await run(planCommand, ['--json'], JSON.stringify(request))
  expect(code).toBe(0)
  const plan = planSchema.parse(JSON.parse(out))
  expect(plan.totals.samples).toBeLessThanOrEqual(30)
  const points = plan.stops.map(({ component }) => component)
  expect(points).toEqual(expect.arrayContaining(['shower-c605', 'basin-tap-a301', 'basin-tap-b203']))
})

test('a plan from a file reads as a table and goes to a file', async () => {
  writeFileSync(join(cwd, 'in.json'), JSON.stringify(request))
  expect((await run(planCommand, ['in.json', '-o', 'out.txt'])).code).toBe(0)
  const text = readFileSync(join(cwd, 'out.txt'), 'utf8')
  expect(text).toContain('605 shower')
  expect(text).toMatch(/none positive, could still hide up to \d+/)
  expect(text).toContain('Left out')
})

test('every problem is told at once, a line each', async () => {
  const { code, err } = await run(planCommand, [], JSON.stringify({ system: { format: 'x' }, budget: { samples: -1 } }))
  expect(code).toBe(2)
  const lines = err.trim().split('\n')
  expect(lines.length).toBeGreaterThan(3)
  expect(err).toContain('budget.samples: expected at least 0, received -1')
})

test('a system that cannot be walked is refused with what is wrong in it', async () => {
  const [first, ...pipes] = request.system.pipes
  const broken = { ...request, system: { ...request.system, pipes: [{ ...first, to: 'nowhere' }, ...pipes] } }
  const { code, err } = await run(planCommand, [], JSON.stringify(broken))
  expect(code).toBe(2)
  expect(err).toContain('system.pipes.0.to')
})

test.each([[['missing.json']], [['a', 'b']], [['--nonsense']]])('%j cannot be used', async (args) => {
  const { code, err } = await run(planCommand, args)
  expect(code).toBe(2)
  expect(err).toContain('expected')
})

test('the JSON Schema of a plan names its format; an unknown name is refused', async () => {
  const { out } = await run(schemaCommand, ['plan'])
  expect(JSON.parse(out)).toMatchObject({ properties: { format: { const: 'rillmark/plan@1' } } })
  expect((await run(schemaCommand, ['plant'])).code).toBe(2)
})

test('with --simulate the water is simulated and its lists are reasons; without it, or with a given answer, nothing is', async () => {
  const obligations = async (args: string[], given: unknown = request): Promise<string[]> => {
    const { out, code, err } = await run(planCommand, [...args, '--json'], JSON.stringify(given))
    expect(`${code}${err}`).toBe('0')
    const plan = planSchema.parse(JSON.parse(out))
    return plan.stops.flatMap(({ reasons }) => reasons.map(({ obligation }) => obligation))
  }
  const large = { ...request, budget: { samples: 200 } }
  expect(await obligations([], large)).not.toContain('predicted')
  expect(await obligations(['--simulate'], large)).toContain('predicted')
  const answer = simulateConditions(request.system)
  if (answer.kind === 'cannot-say') throw new TypeError('no conditions')
  expect(await obligations([], { ...large, predictions: answer.conditions })).toContain('predicted')
})

test('with --simulate a system that cannot be simulated is refused with what is missing', async () => {
  const components = request.system.components.map((one) =>
    one.kind === 'storage-heater' ? { ...one, setpointC: undefined } : one,
  )
  const unset = { ...request, system: { ...request.system, components } }
  const { code, err } = await run(planCommand, ['--simulate'], JSON.stringify(unset))
  expect(code).toBe(2)
  expect(err).toContain('set point')
})
