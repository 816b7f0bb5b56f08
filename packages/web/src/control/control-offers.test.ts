import { waterHeld } from '@rillmark/casebook/building/system-volume.ts'
import { marramSystem } from '@rillmark/casebook/plan/marram-plan.fixture.ts'
import { MEASURES } from '@rillmark/casebook/control/kinds.ts'
import { expect, test } from 'vitest'
import { wrongWith } from '../calculators/offers.fixture.ts'
import { calculationsFor } from './calculations-for.ts'
import { controlOffers } from './control-offers.ts'

const system = marramSystem()

test('every offer is a calculation that takes what is filled in', () => {
  expect(wrongWith(controlOffers(system))).toEqual([])
  expect(wrongWith(controlOffers(undefined))).toEqual([])
})

test('the volume to be dosed is filled in only where all of the water is described', () => {
  const start = (of: typeof system) => controlOffers(of).find(({ id }) => id === 'shock-dose')?.start
  const held = waterHeld(system)
  expect(held.notCounted).toBe(0)
  expect(start(system)).toEqual({ waterVolumeL: Math.ceil(held.volumeL) })
  const [first, ...rest] = system.pipes
  if (first === undefined) throw new Error('the example has pipes')
  const { boreMm: _bore, standard: _standard, size: _size, ...unknown } = first
  expect(start({ ...system, pipes: [unknown, ...rest] })).toEqual({})
})

test('whatever a measure calls for is a calculation', () => {
  const offered = MEASURES.flatMap((measure) => calculationsFor(measure).map(({ id }) => ({ id, question: '' })))
  expect(wrongWith(offered)).toEqual([])
  expect(calculationsFor('shock chlorination').map(({ id }) => id)).toContain('disinfectant-contact')
})
