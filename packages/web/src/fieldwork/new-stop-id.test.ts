import { expect, it } from 'vitest'
import { newStopId } from './new-stop-id.ts'

it('[FLD11] makes another id each time', () => {
  const made = Array.from({ length: 1000 }, newStopId)
  expect(new Set(made).size).toBe(1000)
  expect(made.every((id) => /^added-[0-9a-f]{8}$/.test(id))).toBe(true)
})
