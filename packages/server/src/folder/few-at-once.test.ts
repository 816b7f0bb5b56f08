import { expect, test } from 'vitest'
import { FewAtOnce } from './few-at-once.ts'

test('never more than so many run at once, all run in turn, and one that fails makes room', async () => {
  const few = new FewAtOnce(2)
  const order: number[] = []
  let [running, most] = [0, 0]
  const work = async (n: number) => {
    running += 1
    most = Math.max(most, running)
    order.push(n)
    await new Promise((resolve) => setTimeout(resolve, 5))
    running -= 1
    if (n % 3 === 0) throw new Error(`${n}`)
    return n
  }
  const outcomes = await Promise.allSettled([0, 1, 2, 3, 4, 5, 6].map((n) => few.run(() => work(n))))
  expect(outcomes.map(({ status }) => status === 'rejected')).toEqual([true, false, false, true, false, false, true])
  expect([most, running, order]).toEqual([2, 0, [0, 1, 2, 3, 4, 5, 6]])
})
