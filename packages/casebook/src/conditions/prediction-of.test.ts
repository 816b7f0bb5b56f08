import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { grid, marramHouse } from '../building/marram-house.fixture.ts'
import { KINDS } from '../entry/kinds.ts'
import type { ConditionsSeries } from './conditions.ts'
import { conditionsByHand } from './conditions.fixture.ts'
import { MOST_PREDICTED_PLACES } from './prediction.ts'
import { predictionOf } from './prediction-of.ts'

const systemEntry = '00000000-0000-8000-8000-000000000001'
const system = buildSystem(marramHouse)

test('[PRD6] kept are the waters of outlets, heaters and returns, rounded', () => {
  const conditions = conditionsByHand(system, {
    'shower-c605/cold': { temperatureC: [24.4449, 21.02, 27.061], band: 3.33333, growth: 0.41239 },
  })
  const { places } = predictionOf({ system, systemEntry, conditions })
  const waters = (kind: string) => places.filter(({ water }) => water === kind).length
  expect(waters('stored')).toBe(2)
  expect(waters('hot-return')).toBe(4)
  expect(waters('cold')).toBeGreaterThan(waters('hot'))
  expect(places.find(({ place, water }) => place === 'shower-c605' && water === 'cold')).toMatchObject({
    temperatureC: [24.4, 21, 27.1],
    bandHours: 3.33,
    growthIndex: 0.412,
  })
})

test('[PRD6] with curves, the hour at which each water is warmest is kept', () => {
  const slots = 24
  const pipe = system.pipes.find(({ to, circuit }) => to === 'shower-c605' && circuit === 'cold')
  const temperatureC = new Float32Array(slots).map((_, slot) => (slot === 15 ? 27 : 20))
  const curve = new Float32Array(slots)
  const all = { ageHours: curve, temperatureC, residualMgPerL: curve, growth: curve, standingHours: curve }
  const series: ConditionsSeries = {
    slots,
    pipeIds: [pipe?.id ?? ''],
    componentIds: [],
    pipes: { ...all, flowLPerMin: curve },
    components: all,
  }
  const { places } = predictionOf({ system, systemEntry, conditions: conditionsByHand(system), series })
  const found = places.find(({ place, water }) => place === 'shower-c605' && water === 'cold')
  expect(found?.warmestMinute).toBe(15 * 60 + 30)
})

test('[PRD6] two thousand outlets make one entry of less than a megabyte', () => {
  const large = buildSystem(grid({ floors: 20, risers: 10, each: 10 }))
  const body = predictionOf({ system: large, systemEntry, conditions: conditionsByHand(large) })
  expect(body.places.length).toBeGreaterThan(2000)
  expect(body.placesLeftOut).toBe(0)
  expect(KINDS['prediction.recorded'].body.safeParse(body).success).toBe(true)
  expect(JSON.stringify(body).length).toBeLessThan(1_000_000)
})

test('[PRD6] of a building too large for one entry the least favourable places are left out and counted', () => {
  const large = buildSystem(grid({ floors: 20, risers: 20, each: 10 }))
  const worst = large.components.findLast(({ kind }) => kind === 'shower')?.id ?? ''
  const conditions = conditionsByHand(large, { [`${worst}/hot`]: { growth: 0.9 } })
  const body = predictionOf({ system: large, systemEntry, conditions })
  expect(body.places).toHaveLength(MOST_PREDICTED_PLACES)
  expect(body.placesLeftOut).toBeGreaterThan(0)
  expect(body.places[0]).toMatchObject({ place: worst, water: 'hot', growthIndex: 0.9 })
})
