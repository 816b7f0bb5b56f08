import { expect, test } from 'vitest'
import { ageIsLeast } from './age-is-least.ts'

const spread = (mean: number) => ({ mean, min: mean, max: mean })

test('an age is told as "at least" where nothing moves and where water is as old as is told', () => {
  expect(ageIsLeast({ ageHours: spread(3), neverMoves: true })).toBe(true)
  expect(ageIsLeast({ ageHours: spread(720) })).toBe(true)
  expect(ageIsLeast({ ageHours: spread(719) })).toBe(false)
})
