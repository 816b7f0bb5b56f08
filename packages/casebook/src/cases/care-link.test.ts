import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { aCase, stay } from '../testing/three-cases.ts'
import { careLink } from './care-link.ts'

// CDC/CSTE case definition 2020: 10 or more continuous days of the 14 before onset = presumptive (seen)
test.each([
  ['2026-01-01', 14, 'presumptive'],
  ['2026-02-05', 10, 'presumptive'],
  ['2026-02-06', 9, 'possible'],
])('[CAS8] a stay from %s to onset is %i days: %s', (from, days, link) => {
  const { cases } = derive('marram-house', [
    aCase('C1', '2026-02-15'),
    stay('C1', { place: 'x', from, to: '2026-02-14' }),
  ])
  expect(careLink(cases, 'C1')).toMatchObject({ days, link })
})
