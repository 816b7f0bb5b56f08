import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { isOutlet } from '../building/water-system.ts'
import { US_UNITS } from '../units/display-units.ts'
import { conditionsByHand, type Figures } from './conditions.fixture.ts'
import { countedWords, figureWords, RANKINGS, type Ranking, rankingTitle, rankPlaces } from './rankings.ts'

const system = buildSystem(marramHouse)
const SET: Readonly<Record<string, Figures>> = {
  'basin-tap-c605/cold': { temperatureC: [24.5, 22.5, 27], standing: 11.25 },
  'shower-c605/cold': { temperatureC: 20 },
  'kitchen-tap-a201/hot': { temperatureC: [41, 23, 49], band: 13 },
  'shower-b303/hot': { ageHours: 300, temperatureC: 22, residualMgPerL: 0, standing: 24, neverMoves: true },
  'heater-1': { temperatureC: 58, ageHours: 20, band: 0 },
}
const known = new Set(system.components.map(({ id }) => id))
const conditions = conditionsByHand(system, SET)
const rank = (ranking: Ranking, units = {}) => rankPlaces({ system, conditions, ranking, ...units })

test('the places set by hand are described', () => {
  for (const key of Object.keys(SET)) expect(known).toContain(key.split('/')[0])
})

test.each([
  ['warmest-cold', ['basin-tap-c605', 'shower-c605'], 22.5],
  ['coolest-hot', ['shower-b303', 'kitchen-tap-a201'], 22],
  ['oldest', ['shower-b303', 'heater-1'], 300],
  ['no-residual', ['shower-b303'], 0],
  ['growth-band', ['kitchen-tap-a201'], 13],
  ['standing', ['shower-b303', 'basin-tap-c605'], 24],
] as const)('[WAT1] %s puts the place to look at first on top', (ranking, first, value) => {
  const ranked = rank(ranking)
  expect(ranked.slice(0, first.length).map(({ id }) => id)).toEqual(first)
  expect(ranked[0]?.value).toBe(value)
  const values = ranked.map((row) => row.value)
  const down = ['warmest-cold', 'oldest', 'growth-band', 'standing'].includes(ranking)
  expect(values).toEqual(values.toSorted((a, b) => (down ? b - a : a - b)))
})

test('[WAT1] every outlet takes part with each side it has, junctions only where no water moves', () => {
  const outlets = system.components.filter(isOutlet)
  const cold = outlets.filter(({ id }) => conditions.components[id]?.circuits?.cold !== undefined)
  expect(
    rank('warmest-cold')
      .map(({ id }) => id)
      .sort(),
  ).toEqual(cold.map(({ id }) => id).sort())
  const junction = system.components.find(({ kind }) => kind === 'junction')?.id ?? ''
  expect(rank('oldest').map(({ id }) => id)).not.toContain(junction)
  const still = conditionsByHand(system, { [junction]: { ageHours: 400, neverMoves: true } })
  expect(rankPlaces({ system, conditions: still, ranking: 'oldest' })[0]).toMatchObject({ id: junction, atLeast: true })
})

test('[WAT2] a row says its range, whether it is counted, and why in few words and the units of the reader', () => {
  expect(rank('warmest-cold')[0]).toEqual({
    id: 'basin-tap-c605',
    side: 'cold',
    name: '605 basin tap',
    value: 22.5,
    range: { lower: 22.5, upper: 27 },
    counted: true,
    why: 'stands up to 11.3 h, 20 L drawn a day, arrives 3.0 h old',
  })
  expect(rank('warmest-cold', { units: US_UNITS })[0]?.why).toContain('5.28 US gal drawn a day')
  expect(rank('oldest')[0]).toMatchObject({ atLeast: true, why: 'no water moves here' })
  // 20 °C is not below 20 °C, 14 °C is
  expect(rank('warmest-cold').filter(({ counted }) => counted)).toHaveLength(2)
})

// 25 °C = 77 °F, 45 °C = 113 °F, 20 °C = 68 °F, 50 °C = 122 °F: the definition of the scales.
test('[WAT2] the name of a ranking and where it counts from follow the units of the reader', () => {
  expect(rankingTitle('growth-band')).toBe('Most hours at 25 to below 45 °C')
  expect(rankingTitle('growth-band', US_UNITS)).toBe('Most hours at 77 to below 113 °F')
  expect(countedWords('warmest-cold', US_UNITS)).toBe('never gets below 68 °F')
  expect(figureWords('coolest-hot', US_UNITS)).toBe('Hottest, °F')
  expect(countedWords('coolest-hot', US_UNITS)).toBe('never reaches 122 °F')
})

test('[WAT1] where the residual of the supply is not described, none is ranked', () => {
  expect(rankPlaces({ system, conditions: { ...conditions, residualUnknown: true }, ranking: 'no-residual' })).toEqual(
    [],
  )
})

test('[WAT1] nothing predicted gives empty rankings', () => {
  const nothing = { ...conditions, components: {}, pipes: {} }
  for (const ranking of RANKINGS) expect(rankPlaces({ system, conditions: nothing, ranking })).toEqual([])
})
