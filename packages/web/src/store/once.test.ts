import { expect, test } from 'vitest'
import { onceUnlessItFails } from './once.ts'

test('work is done once for all that ask, and again after it failed', async () => {
  let times = 0
  const ask = onceUnlessItFails(async () => {
    times += 1
    if (times === 1) throw new Error('the device is full')
    return times
  })
  const [first, beside] = [ask(), ask()]
  await expect(first).rejects.toThrow('full')
  await expect(beside).rejects.toThrow('full')
  expect(times).toBe(1)
  expect(await Promise.all([ask(), ask()])).toEqual([2, 2])
  expect(await ask()).toBe(2)
})
