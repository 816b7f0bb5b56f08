import { visitPlan } from '@rillmark/casebook/fieldwork/visit-plan.ts'
import { FINE_KIT, fieldDesk, SHOWER } from '@rillmark/casebook/fieldwork/visit.fixture.ts'
import { expect, test } from 'vitest'
import { worked, wrongWith } from '../calculators/offers.fixture.ts'
import { branchOf } from './branch.ts'
import { fieldOffers } from './field-offers.ts'

const desk = fieldDesk()
const { round, stop } = SHOWER

function offersAt(state: typeof desk.state) {
  const plan = visitPlan({ ...SHOWER, state })
  if (plan === undefined) throw new Error('the stop is planned')
  return fieldOffers(state, { round, stop: { id: stop, plan } })
}

test('every offer is a calculation that takes what is filled in, on the round and at a stop', () => {
  expect(wrongWith(fieldOffers(desk.state, { round }))).toEqual([])
  expect(wrongWith(offersAt(desk.state))).toEqual([])
})

test('the residual measured here is what the neutralizer is held against', () => {
  const measured = fieldDesk()
  measured.write('instrument.registered', FINE_KIT)
  measured.write('reading.taken', {
    ...SHOWER,
    quantity: 'total-chlorine',
    reading: { kind: 'value', value: 3.1, unit: 'mg/L' },
    instrument: FINE_KIT.code,
  })
  const offers = offersAt(measured.state)
  expect(offers.find(({ id }) => id === 'neutralizer')?.start).toMatchObject({
    residualMgPerL: 3.1,
    residualKind: 'total-chlorine',
  })
  expect(worked(offers, 'neutralizer')).toMatchObject({ covered: false })
})

test('the branch of an outlet is its warmest pipe, where its bore is known', () => {
  const system = {
    format: 'rillmark/water-system@1',
    name: 'one tap',
    supply: { temperatureC: 12, disinfectant: { kind: 'none' } },
    components: [{ id: 'tap', kind: 'basin-tap', use: { pattern: 'constant', flowLPerMin: 5 } }],
    pipes: [
      { id: 'c', from: 'j', to: 'tap', circuit: 'cold', lengthM: 3, boreMm: 13 },
      { id: 'h', from: 'j', to: 'tap', circuit: 'hot', lengthM: 4, standard: 'en-1057', size: '15x1' },
    ],
  } as const
  expect(branchOf({ ...system, components: [...system.components], pipes: [...system.pipes] }, 'tap')).toEqual({
    segment: { lengthM: 4, standard: 'en-1057', size: '15x1' },
    flowLPerMin: 5,
  })
  const [cold] = system.pipes
  expect(branchOf({ ...system, components: [], pipes: [{ ...cold, boreMm: undefined }] }, 'tap')).toBeUndefined()
  expect(branchOf({ ...system, components: [], pipes: [] }, 'tap')).toBeUndefined()
})
