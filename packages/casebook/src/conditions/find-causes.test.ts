import table from '@rillmark/reference/conditions/explanation.json' with { type: 'json' }
import { expect, test } from 'vitest'
import { figureSchema } from '../units/figure.ts'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { explainPlace } from './explain-place.ts'
import type { CauseId, Explanation } from './explanation.ts'
import { soundBuilding, type Wrong } from './known-cause.fixture.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { simulateConditions } from './simulate-conditions.ts'

function explained(wrong: Wrong, { id = 'tap', overrides = {} as ConditionsOverrides } = {}): Explanation {
  const system = soundBuilding(wrong)
  const answer = simulateConditions(system, { overrides })
  if (answer.kind === 'cannot-say') throw new TypeError(JSON.stringify(answer.reasons))
  return explainPlace({ system, conditions: answer.conditions, id, overrides })
}
const causesOf = (explanation: Explanation, water: string): CauseId[] =>
  explanation.sides.filter((side) => side.water === water).flatMap(({ causes }) => causes.map(({ id }) => id))

const unused = { use: { pattern: 'unused' as const } }
const rare = {
  use: { pattern: 'schedule' as const, draws: [{ at: '07:00', minutes: 1, flowLPerMin: 6, mixToC: 38 }] },
}

// One thing is made wrong with a sound building; that and nothing else may be named.
// what is wrong | the building | hot side | cold side
test.each<[string, Wrong, CauseId[], CauseId[]]>([
  ['nothing', {}, [], []],
  ['the tap is never used', { components: { tap: unused } }, ['nothing-moves'], ['nothing-moves']],
  // three litres a day out of a heater of 100 L: the water is old when it leaves, too
  ['the tap is used once a day', { components: { tap: rare } }, ['stands', 'large-heater'], ['stands']],
  ['the heater is set to 52 °C', { setpointC: 52 }, ['low-set-point'], []],
  [
    'the hot riser is bare',
    { pipes: { 'hot-riser': { insulationMm: 0 }, return: { recirculationLPerMin: 1 } } },
    ['uninsulated'],
    [],
  ],
  ['the return hardly moves', { pipes: { return: { recirculationLPerMin: 0.05 } } }, ['weak-loop'], []],
  ['there is no return', { without: ['return'] }, ['long-run-out'], []],
  [
    'the cold riser lies in a shaft of 30 °C',
    { pipes: { 'cold-riser': { ambientC: 30, lengthM: 60 } } },
    [],
    ['warm-air'],
  ],
  // mixed to 60 °C out of 62 °C: a fifth of a litre of cold a day, where the branch holds 0.66 L
  [
    'the tap is used hot, once a day',
    {
      components: { tap: { use: { ...rare.use, draws: rare.use.draws.map((one) => ({ ...one, mixToC: 60 })) } } },
      pipes: { 'cold-branch': { lengthM: 5 } },
    },
    ['stands', 'large-heater'],
    ['stands', 'little-drawn'],
  ],
  // a tonne of cold water for 300 L a day, in air of 20 °C
  [
    'a cold tank is too large',
    { components: { 'cold-foot': { kind: 'cold-tank', volumeL: 1000 } } },
    [],
    ['warm-tank', 'large-tank'],
  ],
  ['the supply is warm', { supplyC: 22 }, [], ['warm-supply']],
  [
    'the cold riser is far too wide',
    { pipes: { 'cold-riser': { boreMm: 150, outsideDiameterMm: 156, lengthM: 20 } } },
    [],
    ['oversized'],
  ],
])('[EXP1] where %s, that is the cause and no other', (_, wrong, hot, cold) => {
  const explanation = explained(wrong)
  expect({ hot: causesOf(explanation, 'hot'), cold: causesOf(explanation, 'cold') }).toEqual({ hot, cold })
})

test('[EXP1] a stopped pump is told as a loop that does not move, whatever was described', () => {
  const overrides = { closedPipes: ['return'] }
  expect(causesOf(explained({}, { overrides }), 'hot')).toEqual(['loop-stopped'])
})

test('[EXP1] a heater ten days of draw large is told, a small one not', () => {
  const large = { components: { heater: { volumeL: 3000 }, tap: rare } }
  expect(causesOf(explained(large), 'hot')).toContain('large-heater')
  expect(causesOf(explained({}), 'hot')).not.toContain('large-heater')
})

test('[EXP1] a cause names the parts it lies in', () => {
  const bare = { pipes: { 'hot-riser': { insulationMm: 0 }, return: { recirculationLPerMin: 1 } } }
  const [hot] = explained(bare).sides
  expect(hot?.causes[0]?.parts).toEqual(['hot-riser'])
  expect(hot?.causes[0]?.text).toContain('10 m of the way are not insulated')
})

test('every figure that decides what is named has unit, source and how it is known', () => {
  for (const figure of Object.values(table.figures)) expect(figureSchema.safeParse(figure).error).toBeUndefined()
})

test('[EXP1] cold water that a tempered return warms where it joins is told as such', () => {
  const system = buildSystem({ ...marramHouse, mixing: 'central', floors: 3, risers: ['A'], overrides: [] })
  const answer = simulateConditions(system)
  if (answer.kind === 'cannot-say') throw new TypeError(JSON.stringify(answer.reasons))
  const at = (id: string) => causesOf(explainPlace({ system, conditions: answer.conditions, id }), 'cold')
  expect(at('mixing-valve')).toEqual(['warm-water-joins'])
  const shower = explainPlace({ system, conditions: answer.conditions, id: 'shower-a201' })
  expect(causesOf(shower, 'tempered')).toContain('tempered')
  for (const { id } of system.components.filter(({ kind }) => kind === 'shower'))
    expect(at(id)).not.toContain('warm-water-joins')
})

test('[EXP1] an instant heater is not held against the temperature of storage', () => {
  const instant = (setpointC: number): Wrong => ({
    without: ['return'],
    components: { heater: { kind: 'instant-heater', setpointC } },
  })
  expect(causesOf(explained(instant(55)), 'hot')).not.toContain('low-set-point')
  expect(causesOf(explained(instant(45)), 'hot')).toContain('low-set-point')
})
