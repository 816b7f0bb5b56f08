import { expect, test } from 'vitest'
import { withoutStop, withPoint } from './amend-plan.ts'
import { labelPlan, labelsOf } from './label-plan.ts'
import { fitPlan, judgeStops, preparePlan } from './make-plan.ts'
import { marramInput } from './marram-plan.fixture.ts'

const prepared = preparePlan(marramInput())
const plan = labelPlan({ plan: fitPlan(prepared, { samples: 24, teams: 2 }), taken: [], letters: 'MRH' })

test('judging the stops of a plan gives what the plan says', () => {
  const { scenarios, couldHide, totals } = plan
  expect(judgeStops(prepared, plan.stops)).toEqual({ scenarios, couldHide, totals })
})

test('[PLN16] a stop taken out of an adopted plan keeps its reason among those left out; the other labels stay', () => {
  const gone = plan.stops[1]
  const amended = withoutStop({ plan, prepared }, { stop: gone?.id ?? '', why: 'room is locked' })
  expect(amended.leftOut.at(-1)).toMatchObject({
    stop: { id: gone?.id },
    cost: expect.stringContaining('room is locked'),
  })
  const own = new Set(gone?.samples.map(({ label }) => label))
  expect(labelsOf(amended)).toEqual(labelsOf(plan).filter((label) => !own.has(label)))
  expect(amended.totals.samples).toBe(plan.totals.samples - own.size)
  expect(withoutStop({ plan, prepared }, { stop: 'none', why: 'x' })).toBe(plan)
})

test('[PLN16] a point added to an adopted plan comes last with new labels; those printed stay', () => {
  const point = { component: 'basin-tap-b203', text: 'lukewarm' }
  const amended = withPoint({ plan, prepared }, { point, taken: labelsOf(plan), letters: 'MRH' })
  expect(amended.stops.slice(0, -1)).toEqual(plan.stops)
  expect(amended.stops.at(-1)).toMatchObject({
    component: 'basin-tap-b203',
    reasons: [{ obligation: 'asked for', text: 'lukewarm' }],
  })
  expect(new Set(labelsOf(amended)).size).toBe(amended.totals.samples)
  expect(withPoint({ plan: amended, prepared }, { point, taken: [], letters: 'MRH' })).toBe(amended)
})
