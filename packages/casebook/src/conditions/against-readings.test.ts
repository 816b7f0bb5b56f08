import { QUANTITIES } from '@rillmark/science/network/network.ts'
import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { againstReadings } from './against-readings.ts'
import type { ConditionsSeries } from './conditions.ts'
import { conditionsByHand } from './conditions.fixture.ts'

const system = buildSystem(marramHouse)
const component = 'basin-tap-c605'
const conditions = conditionsByHand(system, {
  [`${component}/hot`]: { temperatureC: [50, 24, 58] },
  [`${component}/cold`]: { temperatureC: [16, 14, 19], residualMgPerL: [1.2, 0.9, 1.5] },
})
const { make } = entryMaker('marram-house')
const reading = (body: Pick<BodyOf<'reading.taken'>, 'quantity' | 'reading'> & Partial<BodyOf<'reading.taken'>>) =>
  make('reading.taken', { round: 'R1', stop: 'S1', component, takenAt: '2026-03-04T07:20:00.000Z', ...body })
const celsius = (value: number) => ({ kind: 'value' as const, value, unit: 'Cel' as const })

const state = derive('marram-house', [
  reading({ quantity: 'cold-temperature', reading: celsius(21.5) }),
  reading({ quantity: 'free-chlorine', reading: { kind: 'below', limit: 0.1, unit: 'mg/L' } }),
  reading({ quantity: 'ph', reading: { kind: 'value', value: 8, unit: '[pH]' } }),
  reading({ quantity: 'hot-temperature', reading: celsius(57) }),
  reading({ quantity: 'hot-temperature', reading: celsius(40), component: 'shower-c605' }),
])

test('[WAT6] a reading stands beside the mean where no curves were kept, and beside the lowest and highest', () => {
  const rows = againstReadings({ state, system, conditions, component })
  expect(rows.map(({ entry: _entry, ...row }) => row)).toEqual([
    { side: 'cold', quantity: 'temperature', minute: 440, predicted: 16, lowest: 14, highest: 19, within: false },
    { side: 'cold', quantity: 'residual', minute: 440, predicted: 1.2, lowest: 0.9, highest: 1.5 },
    { side: 'hot', quantity: 'temperature', minute: 440, predicted: 50, lowest: 24, highest: 58, within: true },
  ])
})

test('[WAT6] with curves it stands beside the figure of its time of day, of the pipe the water arrives through', () => {
  const slots = 96
  const pipeIds = system.pipes.map(({ id }) => id)
  const values = Float32Array.from({ length: pipeIds.length * slots }, (_, at) => at)
  const curves = Object.fromEntries([...QUANTITIES, 'flowLPerMin'].map((name) => [name, values]))
  const series: ConditionsSeries = {
    slots,
    pipeIds,
    componentIds: [],
    pipes: curves as ConditionsSeries['pipes'],
    components: curves as ConditionsSeries['components'],
  }
  const [cold] = againstReadings({ state, system, conditions, series, component })
  const row = system.pipes.findIndex(({ to, circuit }) => to === component && circuit === 'cold')
  // 07:20 lies in the quarter of an hour that begins at 07:15, the thirtieth of the day
  expect(cold?.predicted).toBe(row * slots + 29)
})

test('[WAT6] a component of which nothing was predicted has nothing to compare', () => {
  expect(againstReadings({ state, system, conditions: { ...conditions, components: {} }, component })).toEqual([])
})

test('[WAT6] the return of a riser stands beside what its own leg brings, not beside the water it mixes with', () => {
  const leg = 'hot-return-hot-c-f6-to-return-main-c'
  const [before] = Object.values(conditions.pipes)
  if (before === undefined) throw new Error('no pipes')
  const end = { ...before.end, temperatureC: { mean: 42, min: 40, max: 45 } }
  const pipes = { ...conditions.pipes, [leg]: { ...before, end } }
  const read = reading({ quantity: 'hot-temperature', reading: celsius(43), component: 'return-main-c' })
  const [row] = againstReadings({
    state: derive('marram-house', [read]),
    system,
    conditions: { ...conditions, pipes },
    component: 'return-main-c',
  })
  expect(row).toMatchObject({ predicted: 42, lowest: 40, highest: 45, within: true })
})
