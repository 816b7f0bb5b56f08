import { expect, test } from 'vitest'
import { isLongRun, runCalculation } from '../catalogue/catalogue.ts'

const MOST_ISOLATES = 5000
const idsOf = (count: number) => Array.from({ length: count }, (_, at) => `i${at}`)

test('the largest tree is told to be a long run; one of a few hundred is not', () => {
  const alike = (count: number) => {
    const row = Array.from({ length: count }, () => 0)
    return { id: 'minimum-spanning-tree', input: { ids: idsOf(count), matrix: row.map(() => row) } }
  }
  expect(isLongRun(alike(MOST_ISOLATES))).toBe(true)
  expect(isLongRun(alike(300))).toBe(false)
})

test.each([
  ['less than nothing', -1],
  ['beyond any count', 1e13],
  ['a text', '3'],
  ['nothing at all', undefined],
])('a distance that is %s is refused at its place', (_, odd) => {
  const answer = runCalculation({
    id: 'minimum-spanning-tree',
    input: {
      ids: idsOf(3),
      matrix: [
        [0, 1, 2],
        [1, 0, odd],
        [2, 1, 0],
      ],
    },
  })
  expect(answer).toMatchObject({ issues: expect.arrayContaining([expect.objectContaining({ path: 'matrix.1.2' })]) })
})
