import { makePlan } from '@rillmark/casebook/plan/make-plan.ts'
import { marramInput } from '@rillmark/casebook/plan/marram-plan.fixture.ts'
import { expect, test } from 'vitest'
import { worked, wrongWith } from '../calculators/offers.fixture.ts'
import { planOffers } from './plan-offers.ts'

const input = marramInput()
const plan = makePlan(input)

test('every offer is a calculation that takes what is filled in', () => {
  expect(wrongWith(planOffers(input.system, plan))).toEqual([])
  expect(
    wrongWith(planOffers({ ...input.system, components: [], pipes: [] }, plan)).filter(
      (each) => !each.includes('colonised'),
    ),
  ).toEqual([])
})

test('worked in place it says what the screen says', () => {
  const shown = plan.scenarios.find(({ id }) => id === 'local-outlets')?.detectionProbability
  expect(worked(planOffers(input.system, plan), 'detection-probability')).toEqual({ probability: shown })
})
