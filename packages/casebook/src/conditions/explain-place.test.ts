import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { quickDescriptionSchema } from '../building/quick-description.ts'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import { ABOUT, type Explanation } from './explanation.ts'
import { explainPlace } from './explain-place.ts'
import { soundBuilding, type Wrong } from './known-cause.fixture.ts'
import { explainedSide } from './explained-side.ts'
import { explainedSystem } from './explained-system.ts'
import { residualShares } from './say-water.ts'
import { simulateConditions } from './simulate-conditions.ts'

function simulated(wrong: Wrong = {}) {
  const system = soundBuilding(wrong)
  const answer = simulateConditions(system)
  if (answer.kind === 'cannot-say') throw new TypeError(JSON.stringify(answer.reasons))
  return { system, conditions: answer.conditions }
}
const sound = simulated()
const textOf = (explanation: Explanation, water: string, about: (typeof ABOUT)[number]): string =>
  explanation.sides
    .filter((side) => side.water === water)
    .flatMap(({ sentences }) => sentences.filter((one) => one.about === about).map(({ text }) => text))
    .join(' ')

test('[EXP2] a tap is told side by side: what flows, from where, how old, how hot, what is left, how favourable', () => {
  const tap = explainPlace({ ...sound, id: 'tap' })
  expect(tap.name).toBe('301 basin tap')
  expect(tap.sides.map(({ water }) => water)).toEqual(['hot', 'cold'])
  for (const { sentences } of tap.sides) expect(sentences.map(({ about }) => about)).toEqual(ABOUT)
  expect(tap.sides.map(({ way }) => way)).toEqual([
    ['out', 'hot-riser', 'hot-branch'],
    ['in', 'cold-riser', 'cold-branch'],
  ])
  // 4 + 10 + 1 m; contents by π/4 d²: 0.531, 0.314 and 0.133 L/m make 5.4 L (arithmetic)
  expect(textOf(tap, 'hot', 'way')).toContain('from Heater 1 through 15 m of pipe that hold 5.4 L, by riser A')
  expect(textOf(tap, 'hot', 'way')).toContain('in the last 1 m (133 mL) it stands between draws')
  expect(textOf(tap, 'hot', 'flow')).toContain('in 48 draws')
  expect(textOf(tap, 'cold', 'temperature')).toContain('It sets out at 12.0 °C from')
})

test('[EXP2] what is drawn hot and cold adds up to what runs', () => {
  const tap = explainPlace({ ...sound, id: 'tap' })
  const litres = ['hot', 'cold'].map((water) => Number(/^([\d.]+) L/.exec(textOf(tap, water, 'flow'))?.[1]))
  // 48 draws of 1 min at 6 L/min
  expect((litres[0] ?? 0) + (litres[1] ?? 0)).toBeCloseTo(288, 0)
})

test('[EXP2] the kelvins lost on the way that moves are those of the heat balance', () => {
  const { system, conditions } = sound
  const out = conditions.pipes['out']
  const flow = out?.flowLPerMin.mean ?? 0
  // ΔT = P / (ρ c Q), ρ c about 4.11 kJ/(L K) at 60 °C (IAPWS values in facts of the trade: 983.2 kg/m³, 4.183 kJ/(kg K))
  const balance = (out?.heatLossW ?? 0) / ((4113 * flow) / 60)
  const text = textOf(explainPlace({ system, conditions, id: 'out' }), 'hot', 'temperature')
  const said = Number(/it loses ([\d.]+) K/.exec(text)?.[1])
  expect(said).toBeCloseTo(balance, 1)
})

test('[EXP3] a reader’s units are kept throughout', () => {
  const tap = explainPlace({ ...sound, id: 'tap', units: US_UNITS })
  const said = JSON.stringify(tap.sides.map(({ sentences, causes }) => [sentences, causes]))
  expect(said).toContain('53.6 °F')
  expect(said).not.toMatch(/°C|\d K\b|\d L\b|\d m\b/)
  expect(JSON.stringify(explainPlace({ ...sound, id: 'tap', units: METRIC_UNITS }))).not.toMatch(/°F|gal|\d ft\b/)
})

test('[EXP3] parts are named as people point at them, joints by riser and floor, never by id alone', () => {
  const pipe = explainPlace({ ...sound, id: 'hot-riser' })
  expect(pipe.name).toBe('hot pipe from riser A, ground to riser A, floor 3')
  const said = JSON.stringify(explainPlace({ ...sound, id: 'tap' }).sides.map(({ sentences }) => sentences))
  for (const id of ['hot-top', 'hot-foot', 'cold-foot', 'hot-riser']) expect(said).not.toContain(id)
})

test('[EXP4] a heater, an entry, a return and a joint are told too; a part that is not there has nothing', () => {
  const heater = explainPlace({ ...sound, id: 'heater' })
  expect(heater.sides.map(({ water }) => water)).toEqual(['stored'])
  // 4 L/min round the clock
  expect(textOf(heater, 'stored', 'flow')).toMatch(/of fresh water a day come in, and 5760 L that were round/)
  expect(explainPlace({ ...sound, id: 'return' }).sides[0]?.way).toEqual(['out', 'hot-riser', 'return'])
  expect(explainPlace({ ...sound, id: 'hot-top' }).sides[0]?.way).toEqual(['out', 'hot-riser'])
  expect(explainPlace({ ...sound, id: 'entry' }).sides).toHaveLength(1)
  expect(explainPlace({ ...sound, id: 'nowhere' }).sides).toEqual([])
})

test('[EXP4] water that never moves is told as such, without a loss on the way', () => {
  const still = simulated({ components: { tap: { use: { pattern: 'unused' } } } })
  const tap = explainPlace({ ...still, id: 'tap' })
  expect(textOf(tap, 'hot', 'flow')).toBe('No water moves here all day.')
  expect(textOf(tap, 'hot', 'age')).toMatch(/^It is at least /)
  expect(textOf(tap, 'hot', 'temperature')).toBe('It has the temperature of the air around it, 20.0 °C.')
})

test('[EXP5] what the residual is lost to makes a whole, and follows the rate that was given', () => {
  const shares = (wrong: Wrong, decay: Partial<NonNullable<ReturnType<typeof soundBuilding>['decay']>>) => {
    const system = { ...soundBuilding(wrong) }
    const { bulkPerHour = 0, wallMPerHour = 0, referenceC = 20, activationKJPerMol = 50 } = decay
    const changed = { ...system, decay: { bulkPerHour, wallMPerHour, referenceC, activationKJPerMol } }
    const answer = simulateConditions(changed)
    if (answer.kind === 'cannot-say') throw new TypeError('no conditions')
    const explained = explainedSystem({ system: changed, conditions: answer.conditions })
    const place = answer.conditions.components['tap']?.circuits?.cold
    if (place === undefined) throw new TypeError('no cold side')
    return residualShares(explainedSide({ explained, id: 'tap', circuit: 'cold', place }))
  }
  expect(shares({}, { wallMPerHour: 0.001 })).toEqual({ water: 0, warmth: 0, walls: 1 })
  // a supply at the reference temperature owes nothing to warmth
  const water = shares({ supplyC: 20 }, { bulkPerHour: 0.05 })
  expect(water?.water).toBeCloseTo(1, 6)
  const both = shares({}, { bulkPerHour: 0.05, wallMPerHour: 0.001 })
  expect((both?.water ?? 0) + (both?.walls ?? 0) + (both?.warmth ?? 0)).toBeCloseTo(1, 9)
})

test.each([
  ['a central mixing valve', { mixing: 'central' }],
  ['plant on the roof with a cold tank', { plant: { position: 'roof', name: 'Roof' }, coldTank: { volumeL: 2000 } }],
  ['no circulation', { recirculation: 'none' }],
  ['an instant heater', { recirculation: 'none', heaters: [{ kind: 'instant', setpointC: 50 }] }],
  ['cold water alone', { recirculation: 'none', heaters: [] }],
] as const)('[EXP6] every part of a building with %s is told in whole words', (_, change) => {
  const description = { ...marramHouse, ...change, floors: 3, risers: ['A', 'B'], overrides: [] }
  const system = buildSystem(quickDescriptionSchema.parse(description))
  const answer = simulateConditions(system)
  if (answer.kind === 'cannot-say') throw new TypeError(JSON.stringify(answer.reasons))
  for (const { id } of [...system.components, ...system.pipes]) {
    const { name, sides } = explainPlace({ system, conditions: answer.conditions, id })
    expect(sides.length, id).toBeGreaterThan(0)
    const said = [name, ...sides.flatMap(({ sentences, causes }) => [...sentences, ...causes].map(({ text }) => text))]
    for (const text of said)
      expect(text).not.toMatch(/NaN|undefined|null|Infinity|−0\b|-\d|not described|\s\s|\.\.|, \./)
  }
})

test('[EXP6] neither other ids nor another order of the lists changes what is said', () => {
  const { system } = sound
  const renamed = (id: string) => `x${[...id].toReversed().join('')}`
  const label = (id: string) => (id === 'entry' ? { label: 'Supply' } : {})
  const components = system.components.map((one) => ({ ...one, ...label(one.id) }))
  const same = { ...system, components }
  const other = {
    ...system,
    components: components.toReversed().map((one) => ({ ...one, id: renamed(one.id) })),
    pipes: system.pipes
      .toReversed()
      .map((one) => ({ ...one, id: renamed(one.id), from: renamed(one.from), to: renamed(one.to) })),
  }
  const saidOf = (of: typeof system, id: string) => {
    const answer = simulateConditions(of)
    if (answer.kind === 'cannot-say') throw new TypeError('no conditions')
    const { sides } = explainPlace({ system: of, conditions: answer.conditions, id })
    return sides.map(({ sentences, causes }) => [sentences, causes.map(({ text }) => text)])
  }
  expect(saidOf(other, renamed('tap'))).toEqual(saidOf(same, 'tap'))
})
