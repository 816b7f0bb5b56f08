import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { buildSystem } from './build-system.ts'
import type { SystemProblem } from './check-parts.ts'
import { checkSystem } from './check-system.ts'
import { grid, marramHouse } from './marram-house.fixture.ts'
import type { Component, Pipe, WaterSystem } from './water-system.ts'

const base = (): WaterSystem => buildSystem(marramHouse)

const withComponent = (id: string, facts: Record<string, unknown>): unknown => {
  const system = base()
  return { ...system, components: system.components.map((one) => (one.id === id ? { ...one, ...facts } : one)) }
}
const withPipe = (id: string, facts: Record<string, unknown>): unknown => {
  const system = base()
  return { ...system, pipes: system.pipes.map((one) => (one.id === id ? { ...one, ...facts } : one)) }
}
const without = (drop: (thing: Component | Pipe) => boolean): unknown => {
  const system = base()
  const keep = (thing: Component | Pipe): boolean => !drop(thing)
  return { ...system, components: system.components.filter(keep), pipes: system.pipes.filter(keep) }
}
const isPipe = (thing: Component | Pipe): thing is Pipe => 'circuit' in thing
const branch = 'hot-hot-c-f6-to-shower-c605'

const lines = (problems: readonly SystemProblem[]): string[] =>
  problems.map((one) => `${one.severity} ${one.path}: ${one.expected} | ${one.received}`)

test('[BLD3] a sound system has no problem', () => {
  expect(lines(checkSystem(base()))).toEqual([])
  for (const recirculation of ['none', 'per-riser', 'whole'] as const)
    for (const mixing of ['none', 'central', 'point-of-use'] as const)
      for (const position of ['bottom', 'roof'] as const) {
        const system = buildSystem({ ...marramHouse, recirculation, mixing, plant: { position }, coldTank: {} })
        expect(lines(checkSystem(system)), `${recirculation} ${mixing} ${position}`).toEqual([])
      }
})

// name | the file | the problem it must name (part of its line)
const CASES: [string, unknown, RegExp][] = [
  ['not an object', 7, /^error : a water system \| a number/],
  ['a list', [], /a water system \| a list/],
  ['no components', { ...base(), components: undefined }, /error components: a list of components \| nothing/],
  ['another format', { ...base(), format: 'x' }, /error format: one of rillmark\/water-system@1 \| "x"/],
  [
    'an unknown field',
    withComponent('entry', { colour: 'red' }),
    /components\.0\.colour: no field of this name \| "red"/,
  ],
  ['an unknown kind', withComponent('entry', { kind: 'tap' }), /components\.0\.kind: one of supply-entry/],
  ['a duplicate id', withComponent('heater-2', { id: 'heater-1' }), /\.id: an id of its own .* \| "heater-1"/],
  ['a pipe to nowhere', withPipe(branch, { to: 'ghost' }), /\.to: the id of a component \| "ghost"/],
  ['a pipe to itself', withPipe(branch, { to: 'hot-c-f6' }), /\.to: another component/],
  ['no supply entry', without((one) => one.id === 'entry'), /components: at least one supply entry \| "none"/],
  ['no outlet', without((one) => 'use' in one && one.use !== undefined), /at least one outlet or device/],
  ['an outlet cut off', without((one) => isPipe(one) && one.to === 'shower-c605'), /at least one pipe joined to it/],
  ['an unreachable riser', without((one) => one.id === 'cold-cold-main-b-to-cold-main-c'), /a way of cold pipes/],
  ['a hot outlet without hot', without((one) => one.id === branch), /error .*a hot or tempered pipe \| .*40 °C/],
  ['a heater without cold', without((one) => one.id === 'cold-cold-plant-to-heater-2'), /a way of cold pipes/],
  ['a loop that does not come back', without((one) => isPipe(one) && one.from === 'return-plant'), /ends at a heater/],
  ['a return from nowhere', without((one) => isPipe(one) && one.from.endsWith('-f6') && isReturn(one)), /leaves a hot/],
  ['a negative length', withPipe(branch, { lengthM: -3 }), /lengthM: more than 0 \| -3/],
  ['a zero bore', withPipe(branch, { boreMm: 0 }), /boreMm: more than 0 \| 0/],
  ['a bore wider than its pipe', withPipe(branch, { boreMm: 15 }), /outsideDiameterMm: more than the bore/],
  ['no bore and no size', withPipe(branch, { boreMm: undefined }), /boreMm: the bore, or a standard and size/],
  ['a size without a standard', withPipe(branch, { size: '22x1' }), /standard: standard and size together/],
  ['an unknown size', withPipe(branch, { standard: 'en-1057', size: '23' }), /size: a standard and size of the pipe/],
  ['a size against the bore', withPipe(branch, { standard: 'en-1057', size: '54x2' }), /boreMm: about 50 mm/],
  ['a length for a city', withPipe(branch, { lengthM: 5000 }), /warning .*lengthM: at most/],
  ['a boiling setpoint', withComponent('heater-1', { setpointC: 140 }), /setpointC: more than 0 and at most 100/],
  ['a setpoint below the supply', withComponent('heater-1', { setpointC: 10 }), /setpointC: above the supply/],
  ['a mix above the heater', mixTo(75), /use\.mixToC: at most the hottest heater, 60 °C \| 75/],
  ['a mix below the supply', mixTo(5), /use\.mixToC: at least the supply/],
  ['more than a day of use', use({ eventsPerDay: 400, minutes: 10 }), /at most 24 hours of use/],
  ['a flow on a flow pipe', withPipe(branch, { recirculationLPerMin: 2 }), /on return pipes only/],
  ['a pump against its returns', withComponent('return-pump', { flowLPerMin: 30 }), /sum of the returns.* 12 L\/min/],
  ['a use on a pump', withComponent('return-pump', { use: { pattern: 'unused' } }), /use: a use on outlets/],
  ['an unknown disinfectant', disinfectant({ kind: 'unknown' }), /warning supply\.disinfectant\.kind: a known/],
  ['a made-up disinfectant', disinfectant({ kind: 'hope' }), /supply\.disinfectant\.kind: one of free-chlorine/],
  ['a residual of nothing', disinfectant({ kind: 'none', residualMgPerL: 1 }), /residualMgPerL: 0 where/],
  ['no residual', disinfectant({ kind: 'chloramine' }), /warning supply\.disinfectant\.residualMgPerL/],
  ['ice from the main', { ...base(), supply: { ...base().supply, temperatureC: -4 } }, /temperatureC: 0 to 100/],
]

function isReturn(pipe: Pipe): boolean {
  return pipe.circuit === 'hot-return'
}
function use(facts: Record<string, unknown>): unknown {
  const usual = { pattern: 'pulses', eventsPerDay: 1, minutes: 5, flowLPerMin: 8 }
  return withComponent('shower-c605', { use: { ...usual, ...facts } })
}
function mixTo(mixToC: number): unknown {
  return use({ mixToC })
}
function disinfectant(facts: Record<string, unknown>): unknown {
  return { ...base(), supply: { ...base().supply, disinfectant: facts } }
}

test.each(CASES)('[BLD4] names %s', (_, file, wanted) => {
  const found = lines(checkSystem(file))
  expect(found).toContainEqual(expect.stringMatching(wanted))
})

test('[BLD3] all problems come at once, each with the part to jump to', () => {
  const system = base()
  const [first, ...rest] = system.pipes
  const broken = { ...system, name: 3, pipes: [{ ...first, lengthM: 0 }, ...rest.slice(1)], extra: true }
  const problems = checkSystem(broken)
  expect(new Set(problems.map((one) => one.path.split('.')[0]))).toEqual(
    new Set(['name', 'extra', 'pipes', 'components']),
  )
  expect(problems.find((one) => one.path === 'pipes.0.lengthM')?.component).toBe(first?.id)
})

test('[BLD3] two fixed flows in a row must agree', () => {
  const system = base()
  const returned = system.pipes.map((one) =>
    one.id === 'hot-return-return-main-d-to-return-main-c' ? { ...one, recirculationLPerMin: 7 } : one,
  )
  expect(lines(checkSystem({ ...system, pipes: returned })).join()).toMatch(/recirculationLPerMin: 3 L\/min, what pipe/)
})

test('[BLD5] any value whatever gets a list, never a throw', () => {
  const answers = (value: unknown): void => void expect(checkSystem(value)).toBeInstanceOf(Array)
  fc.assert(fc.property(fc.anything({ withBigInt: true, withDate: true }), answers))
  const damaged = fc.record({ index: fc.nat(), value: fc.anything({ withBigInt: true }) })
  fc.assert(
    fc.property(damaged, fc.constantFrom('components', 'pipes'), ({ index, value }, list) => {
      const system = base()
      const things: unknown[] = [...system[list]]
      things[index % things.length] = value
      answers({ ...system, [list]: things })
    }),
    { numRuns: 60 },
  )
})

const shapeOf = (problems: readonly SystemProblem[]): string[] =>
  problems
    .map((one) => `${one.severity} ${one.path.replaceAll(/\d+/g, 'n')} ${one.component ?? ''} ${one.expected}`)
    .sort()

test('[BLD6] the order of the lists and the names of the ids change no problem', () => {
  const broken = withComponent('heater-1', { setpointC: 10 }) as WaterSystem
  const cut = { ...broken, pipes: broken.pipes.filter((one) => one.id !== branch) }
  const turned = { ...cut, components: cut.components.toReversed(), pipes: cut.pipes.toReversed() }
  expect(shapeOf(checkSystem(turned))).toEqual(shapeOf(checkSystem(cut)))
  const renamed = JSON.parse(JSON.stringify(cut).replaceAll(/"(id|from|to)":"/g, '"$1":"renamed-')) as WaterSystem
  const back = shapeOf(checkSystem(renamed)).map((line) => line.replaceAll('renamed-', ''))
  expect(back.sort()).toEqual(shapeOf(checkSystem(cut)))
})

test('[BLD5] a hundred thousand components are checked like ten', () => {
  const system = buildSystem(grid({ floors: 100, risers: 50, each: 18 }))
  expect(system.components.length).toBeGreaterThan(100_000)
  expect(checkSystem(system)).toEqual([])
}, 120_000)
