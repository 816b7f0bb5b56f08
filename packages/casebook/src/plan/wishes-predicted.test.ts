import { expect, test } from 'vitest'
import { conditionsByHand, type Figures } from '../conditions/conditions.fixture.ts'
import { predictionOf } from '../conditions/prediction-of.ts'
import { PROCEDURES } from '../procedures/procedures.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { makePlan } from './make-plan.ts'
import { marramInput, marramSystem } from './marram-plan.fixture.ts'
import { planInputFrom } from './plan-input-from-state.ts'
import { type Plan, planSchema } from './plan-file.ts'
import { planInputOf, planRequestSchema } from './plan-input.ts'

const system = marramSystem()
/** All hot water hot enough, so that only what a test sets stands out. */
const calm = Object.fromEntries(
  system.components.map(({ id }): [string, Figures] => [`${id}/hot`, { temperatureC: 57 }]),
)
const conditions = (set: Readonly<Record<string, Figures>>) => conditionsByHand(system, { ...calm, ...set })
const predicted = (set: Readonly<Record<string, Figures>>) => ({
  entry: 'e-9',
  places: predictionOf({ system, systemEntry: 'e-1', conditions: conditions(set) }).places,
})
const reasonsOf = (plan: Plan) =>
  plan.stops.flatMap(({ component, reasons }) =>
    reasons
      .filter(({ obligation }) => obligation === 'predicted')
      .map(({ text, evidence }) => ({ component, text, evidence })),
  )

test('[PLN19] the worst of each list of the simulation is in, with its figures and the entry they stand in', () => {
  const predictions = predicted({
    'basin-tap-b403/cold': { temperatureC: [24.4, 21, 27] },
    'shower-d407/hot': { temperatureC: [36, 24, 41], band: 20 },
    'kitchen-tap-a201/hot': { temperatureC: 57, residualMgPerL: 0, ageHours: 40 },
  })
  const late = predictions.places.map((one) =>
    one.place === 'basin-tap-b403' && one.water === 'cold' ? { ...one, warmestMinute: 15 * 60 } : one,
  )
  const plan = makePlan(marramInput({ predictions: { ...predictions, places: late }, budget: { samples: 400 } }))
  expect(planSchema.safeParse(plan).success).toBe(true)
  const found = reasonsOf(plan)
  expect(found.every(({ evidence }) => evidence[0] === 'e-9')).toBe(true)
  const said = (component: string) => found.filter((one) => one.component === component).map(({ text }) => text)
  expect(said('basin-tap-b403')).toEqual([
    'Among the warmest cold water: never below 21.0 °C, up to 27.0 °C in the afternoon (simulated, a screening model).',
  ])
  expect(said('shower-d407')).toEqual([
    'Hot water between 25 and 45 °C for 20.0 h of the day (simulated, a screening model).',
    'Among the coolest hot water: never above 41.0 °C (simulated, a screening model).',
  ])
  expect(said('kitchen-tap-a201')).toEqual([
    'No residual left in its hot water (simulated, a screening model).',
    'Among the oldest hot water: 40.0 h (simulated, a screening model).',
  ])
  expect(found).toHaveLength(5)
})

test('[PLN19] where nothing passes the mark of its list, the simulation is no reason', () => {
  expect(reasonsOf(makePlan(marramInput({ predictions: predicted({}), budget: { samples: 400 } })))).toEqual([])
})

test('[PLN20] a recorded prediction is used as it stands in the record, and left aside once the building changed', () => {
  const { make } = entryMaker('marram-house')
  const described = make('building.described', { source: 'file', system })
  const body = predictionOf({
    system,
    systemEntry: described.id,
    conditions: conditions({ 'basin-tap-b403/cold': { temperatureC: [24.4, 21, 27] } }),
  })
  const recorded = make('prediction.recorded', body)
  const changed = make('building.edited', { changes: [{ change: 'set-name', name: 'Marram Court' }] })
  const planOf = (entries: Parameters<typeof derive>[1]) => {
    const input = planInputFrom(derive('marram-house', entries), { budget: { samples: 400 } })
    if (input === undefined) throw new TypeError('no building')
    return makePlan(input)
  }
  expect(reasonsOf(planOf([described, recorded]))).toMatchObject([
    { component: 'basin-tap-b403', evidence: [recorded.id] },
  ])
  const later = planOf([described, recorded, changed])
  expect(reasonsOf(later)).toEqual([])
  expect(later.notes?.join(' ')).toContain('changed after it was last simulated')
  expect(reasonsOf(planOf([described]))).toEqual([])
})

test('[PLN19] a request may bring the answer of the simulation; without it the plan is as before', () => {
  const request = { system, budget: { samples: 400 } }
  const answer: unknown = JSON.parse(
    JSON.stringify(conditions({ 'basin-tap-b403/cold': { temperatureC: [24.4, 21, 27] } })),
  )
  const plain = makePlan(planInputOf(planRequestSchema.parse(request), PROCEDURES))
  const told = makePlan(planInputOf(planRequestSchema.parse({ ...request, predictions: answer }), PROCEDURES))
  expect(reasonsOf(plain)).toEqual([])
  expect(reasonsOf(told)).toMatchObject([{ component: 'basin-tap-b403', evidence: ['basin-tap-b403'] }])
})

test('[PLN19] where the residual of the supply is not known, its lack is no reason', () => {
  const predictions = predicted({ 'kitchen-tap-a201/hot': { temperatureC: 57, residualMgPerL: 0 } })
  const planWith = (residualUnknown: true | undefined) =>
    makePlan(marramInput({ predictions: { ...predictions, residualUnknown }, budget: { samples: 400 } }))
  expect(reasonsOf(planWith(undefined)).map(({ component }) => component)).toEqual(['kitchen-tap-a201'])
  expect(reasonsOf(planWith(true))).toEqual([])
})
