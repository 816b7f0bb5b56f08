import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { checkSystem } from '../building/check-system.ts'
import { grid, marramHouse } from '../building/marram-house.fixture.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { Compiled } from './compiled.ts'
import { compileNetwork } from './compile-network.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { part, pipe, pumped, pushed, straight, systemOf, tempered, twoReturns } from './small-systems.fixture.ts'

function compiled(system: WaterSystem, overrides: ConditionsOverrides = {}): Compiled {
  const made = compileNetwork(system, { seed: 1, overrides })
  if (made.kind === 'cannot-say') throw new Error(JSON.stringify(made.reasons))
  return made
}

const reasonsOf = (system: WaterSystem): string[] => {
  const made = compileNetwork(system, { seed: 1 })
  return made.kind === 'compiled' ? [] : made.reasons.map(({ at, why, needs }) => `${at}: ${why}; ${needs}`)
}

const pipeOf = ({ map, network }: Compiled, id: string) => {
  const found = network.pipes[map.pipes.get(id)?.pipe ?? -1]
  if (found === undefined) throw new Error(`no pipe ${id}`)
  return found
}
const assumed = ({ assumptions }: Compiled): string[] => assumptions.map(({ id }) => id).sort()

test('[SIM1] the systems of these tests have no errors', () => {
  for (const system of [twoReturns(), pumped(), tempered('heater'), tempered('valve'), straight()])
    expect(checkSystem(system).filter(({ severity }) => severity === 'error')).toEqual([])
})

test('[SIM1] what the check calls an error is a reason, all of them at once, and so is a heater without a set point', () => {
  const system = twoReturns()
  const broken: WaterSystem = {
    ...system,
    components: system.components.map((one) => (one.id === 'heater' ? { ...one, setpointC: undefined } : one)),
    pipes: system.pipes.map((one, index) => (index < 2 ? { ...one, lengthM: 0 } : one)),
  }
  const errors = checkSystem(broken).filter(({ severity }) => severity === 'error')
  expect(errors.length).toBeGreaterThan(1)
  const reasons = reasonsOf(broken).join('\n')
  for (const { path } of errors) expect(reasons).toContain(path)
  expect(reasons).toContain('components.1.setpointC: nobody said what heater is set to')
})

// name | the returns | what must be named
const UNMOVED: [string, WaterSystem, RegExp][] = [
  [
    'a return beside one of known flow',
    twoReturns({ b: { recirculationLPerMin: undefined } }),
    /top-b>meet: nothing says/,
  ],
  [
    'flows that do not add up',
    twoReturns({ both: { recirculationLPerMin: 9 } }),
    /meet>heater: its flow of 9.* make it 5 L/,
  ],
]
test.each(UNMOVED)('[SIM2] %s is a reason', (_, system, wanted) => {
  expect(reasonsOf(system)).toEqual([expect.stringMatching(wanted)])
})

test('[SIM2] of flows that nearly add up those nearest the outlets stand, and that is told', () => {
  const made = compiled(twoReturns({ both: { recirculationLPerMin: 5.1 } }))
  expect(pipeOf(made, 'hot-return top-a>meet').fixedFlowLPerMin).toBe(3)
  expect(pipeOf(made, 'hot-return meet>heater').fixedFlowLPerMin).toBeUndefined()
  expect(made.cautions.join()).toContain('5 L/min, what the other returns bring, in place of the 5.1 described')
})

test('[SIM2] where the flow of the whole is known, the returns share it', () => {
  const none = { recirculationLPerMin: undefined }
  const made = compiled(twoReturns({ a: none, b: none, both: { recirculationLPerMin: 5 } }))
  expect(pipeOf(made, 'hot-return meet>heater').fixedFlowLPerMin).toBe(5)
  expect(pipeOf(made, 'hot-return top-a>meet').fixedFlowLPerMin).toBeUndefined()
})

test('[SIM2] a pump of known flow moves that flow; of an unknown one the curve is assumed, through its usual point', () => {
  const known = compiled(pumped({ flowLPerMin: 6 }))
  expect(pipeOf(known, 'hot-return meet>heater')).toMatchObject({ fixedFlowLPerMin: 6 })
  expect(assumed(known)).not.toContain('pumpDesignHeadM')
  const unknown = compiled(pumped())
  const { pump } = pipeOf(unknown, 'hot-return meet>heater')
  // facts of the test circulator: 2.0 m at rest, 1.5 m at 0.15 L/s, none at 0.30 L/s (the EPANET 2.2 manual's single-point rule)
  const headM = (lPerS: number): number =>
    (pump?.shutOffHeadM ?? 0) - (pump?.headDropMPerLPerMin2 ?? 0) * (lPerS * 60) ** 2
  expect(headM(0)).toBeCloseTo(2, 9)
  expect(headM(0.15)).toBeCloseTo(1.5, 9)
  expect(headM(0.3)).toBeCloseTo(0, 9)
  expect(assumed(unknown)).toEqual(expect.arrayContaining(['pumpDesignHeadM', 'pumpDesignFlowLPerMin', 'checkValve']))
})

test('[SIM2] a pump on the hot side pushes the water round as well, draws and all', () => {
  const made = compiled(pushed())
  const { from, pump } = pipeOf(made, 'hot main>push')
  expect(from).toBe(made.map.components.get('push')?.node)
  expect(pump?.shutOffHeadM).toBeCloseTo(2, 9)
})

test('[SIM2] a return drawn from the heater outwards runs back all the same', () => {
  const system = twoReturns()
  const drawn = compiled({
    ...system,
    pipes: system.pipes.map((one) => (one.circuit === 'hot-return' ? { ...one, from: one.to, to: one.from } : one)),
  })
  const usual = compiled(system)
  for (const { id, circuit } of system.pipes) {
    const [there, here] = [pipeOf(drawn, id), pipeOf(usual, id)]
    expect([there.from, there.to, there.fixedFlowLPerMin]).toEqual([here.from, here.to, here.fixedFlowLPerMin])
    expect(drawn.map.pipes.get(id)?.turned).toBe(circuit === 'hot-return')
  }
  expect(pipeOf(usual, 'hot-return meet>heater').returning).toBe(true)
  expect(pipeOf(usual, 'hot-return top-a>meet').returning).toBe(false)
})

test('[SIM3] parts no water comes to are left out and named, the rest stays', () => {
  const system = straight()
  const island = [part('lost-1 junction'), part('lost-2 junction')]
  const made = compiled({
    ...system,
    components: [...island, ...system.components],
    pipes: [pipe('hot lost-1>lost-2'), ...system.pipes],
  })
  expect(made.cannotSay.map(({ at }) => at)).toEqual(['lost-1', 'lost-2'])
  expect([...made.map.components.keys()]).toEqual(['entry', 'heater', 'tap'])
  expect(made.network).toEqual(compiled(system).network)
})

test('[SIM4] what is described is not listed as assumed', () => {
  // left are: how many fittings there are, what adds to loss in service, what surfaces are like, the film of standing water
  expect(assumed(compiled(straight()))).toEqual(['emissivity', 'fittingLossPerM', 'lossInService', 'standingSherwood'])
})

// the fact that is taken away | the assumption it leaves | its value
test.each([
  [{ insulationMm: undefined }, 'insulationMm', 13],
  [{ insulationConductivityWPerMK: undefined }, 'insulationConductivityWPerMK', 0.035],
  [{ size: undefined, standard: undefined, boreMm: 20 }, 'wallMm', 1.25],
] as const)(
  '[SIM4] without %j, %s is filled in and listed with value, unit, range, source and part',
  (facts, id, value) => {
    const made = compiled(straight(facts))
    const found = made.assumptions.find((one) => one.id === id)
    expect(found).toMatchObject({ value, count: 1, parts: ['hot heater>tap'] })
    expect(found?.unit).toBeTruthy()
    expect(found?.source).toBeTruthy()
    expect(found?.range?.lower).toBeLessThanOrEqual(value)
    expect(found?.range?.upper).toBeGreaterThanOrEqual(value)
  },
)

test('[SIM4] air, volumes, set points of valves, losses, decay and uses are filled in and listed', () => {
  const { decay: _decay, ambientC: _ambientC, ...system } = tempered('heater')
  const bare: WaterSystem = {
    ...system,
    components: system.components.map(({ id, kind }) =>
      kind === 'storage-heater' ? { id, kind, setpointC: 60 } : { id, kind },
    ),
    pipes: system.pipes.map((one) => ({ ...one, ambientC: undefined })),
  }
  const listed = assumed(compiled(bare))
  const wanted = ['ambientC', 'storageHeaterL', 'temperedC', 'heaterLoss', 'bulkPerHour', 'wallMPerHour', 'use:shower']
  expect(listed).toEqual(expect.arrayContaining([...wanted, 'use:drinking-fountain', 'clock', 'temperedReturn']))
})

test('[SIM4] facts marked guessed are listed each with what they may be off', () => {
  const made = compiled(buildSystem(marramHouse))
  const lengths = made.assumptions.find(({ id }) => id === 'guessed:lengthM')
  expect(lengths).toMatchObject({ value: 1, unit: 'times what is described', count: made.network.pipes.length })
  expect(lengths?.parts.length).toBe(5)
  expect(assumed(made)).toEqual(
    expect.arrayContaining(['guessed:use:shower', 'guessed:ambientC', 'guessed:recirculationLPerMin']),
  )
  // told in the description: not guessed
  expect(assumed(made)).not.toContain('guessed:volumeL')
})

test('[SIM8] an assumption tried at the value it has changes nothing, at another one it does', () => {
  for (const system of [buildSystem(marramHouse), pumped(), straight({ insulationMm: undefined })]) {
    const usual = compiled(system)
    const values = usual.assumptions.flatMap(({ id, value }) => (value === undefined ? [] : [[id, value] as const]))
    expect(compiled(system, { assumed: Object.fromEntries(values) }).network).toEqual(usual.network)
    for (const [id, value] of values)
      expect(compiled(system, { assumed: { [id]: value + 1 } }).network, id).not.toEqual(usual.network)
  }
})

test('[SIM8] factors of 1 and shifts of 0 change nothing', () => {
  const neutral: ConditionsOverrides = {
    assumed: {},
    ambientShiftK: 0,
    hotLossFactor: 1,
    coldLossFactor: 1,
    lengthFactor: {},
    loopFlowFactor: 1,
    loopFlowLPerMin: {},
    closedPipes: [],
    setpointC: {},
    crossFlowLPerMin: {},
    bulkFactor: 1,
    wallFactor: 1,
  }
  for (const system of [twoReturns(), buildSystem(marramHouse), pumped()])
    expect(compiled(system, neutral)).toEqual(compiled(system))
})

// what is tried | a figure of the network | what it becomes
test.each<[ConditionsOverrides, (made: Compiled) => unknown, unknown]>([
  [{ ambientShiftK: 3 }, (made) => pipeOf(made, 'hot main>top-a').ambientC, 25],
  [{ loopFlowFactor: 2 }, (made) => pipeOf(made, 'hot-return top-a>meet').fixedFlowLPerMin, 6],
  [
    { loopFlowLPerMin: { 'hot-return top-b>meet': 1 } },
    (made) => pipeOf(made, 'hot-return top-b>meet').fixedFlowLPerMin,
    1,
  ],
  [{ closedPipes: ['hot-return top-b>meet'] }, (made) => pipeOf(made, 'hot-return top-b>meet').fixedFlowLPerMin, 0],
  [{ closedPipes: ['hot-return meet>heater'] }, (made) => pipeOf(made, 'hot-return top-a>meet').fixedFlowLPerMin, 0],
  [{ setpointC: { heater: 48 } }, (made) => made.network.nodes[1], expect.objectContaining({ setpointC: 48 })],
  [{ supplyTemperatureC: 18 }, (made) => made.network.nodes[0], expect.objectContaining({ temperatureC: 18 })],
  [{ supplyResidualMgPerL: 0.2 }, (made) => made.network.nodes[0], expect.objectContaining({ residualMgPerL: 0.2 })],
  [{ bulkFactor: 3 }, (made) => made.network.chemistry.bulkPerHour, 0.06],
  [{ wallFactor: 2 }, (made) => made.network.chemistry.wallMPerHour, 0.001],
])('[SIM8] %j is applied', (overrides, figure, wanted) => {
  expect(figure(compiled(twoReturns(), overrides))).toEqual(wanted)
})

test('[SIM8] heat loss follows the factor of its side, the length of a branch its own', () => {
  const pipesOf = (overrides: ConditionsOverrides) => compiled(twoReturns(), overrides).network.pipes
  const usual = pipesOf({})
  const cold = new Set(twoReturns().pipes.flatMap(({ id, circuit }) => (circuit === 'cold' ? [id] : [])))
  for (const [overrides, isMeant] of [
    [{ hotLossFactor: 1.4 }, (id: string) => !cold.has(id)],
    [{ coldLossFactor: 1.4 }, (id: string) => cold.has(id)],
  ] as const)
    for (const [at, { id, lossWPerMK }] of pipesOf(overrides).entries())
      expect(lossWPerMK, id).toBeCloseTo((isMeant(id) ? 1.4 : 1) * (usual[at]?.lossWPerMK ?? 0), 12)
  const long = pipesOf({ lengthFactor: { 'hot main>top-a': 3 } })
  for (const [at, { id, lengthM }] of long.entries())
    expect(lengthM, id).toBeCloseTo((id === 'hot main>top-a' ? 3 : 1) * (usual[at]?.lengthM ?? 0), 12)
})

test('[SIM8] the loss of a heater follows the factor of hot water, that of a cold tank the one of cold', () => {
  const tanked = buildSystem({ ...marramHouse, coldTank: {} })
  const lossOf = (kind: string, overrides: ConditionsOverrides): number => {
    const id = tanked.components.find((one) => one.kind === kind)?.id
    const node = compiled(tanked, overrides).network.nodes.find((one) => one.id === id)
    return node?.kind === 'vessel' ? node.lossWPerK : Number.NaN
  }
  const [heater, tank] = [lossOf('storage-heater', {}), lossOf('cold-tank', {})]
  expect(lossOf('storage-heater', { hotLossFactor: 2 })).toBeCloseTo(2 * heater, 12)
  expect(lossOf('cold-tank', { hotLossFactor: 2 })).toBeCloseTo(tank, 12)
  expect(lossOf('storage-heater', { coldLossFactor: 2 })).toBeCloseTo(heater, 12)
  expect(lossOf('cold-tank', { coldLossFactor: 2 })).toBeCloseTo(2 * tank, 12)
})

test('[SIM8] cold water that crosses at a valve is a flow from its cold to its hot side', () => {
  const made = compiled(tempered('heater'), { crossFlowLPerMin: { valve: 0.3 } })
  const valve = made.network.valves[0]
  const crossing = made.network.pipes.find(({ id }) => id === 'valve crossing')
  expect(crossing).toMatchObject({ from: valve?.coldNode, to: valve?.hotNode, fixedFlowLPerMin: 0.3 })
  expect(() => compiled(tempered('heater'), { crossFlowLPerMin: { heater: 1 } })).toThrow(RangeError)
})

test('[SIM5] a catalogue size and its millimetres are the same pipe', () => {
  const listed = pipeOf(compiled(straight()), 'hot heater>tap')
  const written = pipeOf(compiled(straight({ boreMm: 20, outsideDiameterMm: 22 })), 'hot heater>tap')
  expect(written).toEqual(listed)
})

test('[SIM7] outlets draw from a port for each circuit; hot beside tempered water is drawn as hot, tempered alone too', () => {
  const { network, map } = compiled(tempered('heater'))
  expect(map.components.get('warm-tap')?.circuits).toEqual({ tempered: network.outlets[0]?.hotNode })
  expect(map.components.get('cold-tap')?.circuits).toEqual({ cold: network.outlets[1]?.coldNode })
  expect(network.outlets[0]?.coldNode).toBeUndefined()
  expect(network.outlets[0]?.draws).toEqual([{ startMinute: 420, minutes: 10, flowLPerMin: 8 }])
})

test('[SIM3] what the check asks to look at is pointed to', () => {
  expect(compiled(straight()).cautions.join()).not.toContain('asks to look at')
  expect(compiled(straight({ lengthM: 3000 })).cautions).toContain(
    'The check of the description asks to look at 1 thing.',
  )
})

test('[SIM3] air that cannot be is taken at the nearest that can, and said', () => {
  const frozen = compiled(straight({ ambientC: -20 }))
  expect(pipeOf(frozen, 'hot heater>tap').ambientC).toBe(0)
  expect(frozen.cautions.join()).toContain('freezing is not simulated')
})

test('[SIM12] a hundred thousand components are compiled in time', () => {
  const system = buildSystem(grid({ floors: 100, risers: 50, each: 18 }))
  expect(system.components.length).toBeGreaterThan(100_000)
  const large = compiled(system)
  expect(large.network.pipes.length).toBe(system.pipes.length)
  expect(large.cautions.join()).toContain('the mains are worked out in steps of 5 minutes')
  expect(compiled(straight()).cautions.join()).not.toContain('steps of 5 minutes')
}, 120_000)

test('[SIM1] a system of nothing but a supply and a tap is simulated, of nothing at all it is not', () => {
  expect(reasonsOf(systemOf([], []))).toContainEqual(expect.stringContaining('at least one supply entry'))
  const cold = systemOf([part('entry supply-entry'), part('tap eyewash')], [pipe('cold entry>tap')])
  expect(compiled(cold).network.outlets).toHaveLength(1)
})
