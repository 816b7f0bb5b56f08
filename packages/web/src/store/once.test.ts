import { expect, test, vi } from 'vitest'
import { onceUnlessItFails } from './once.ts'

test('work is done once for all that ask, and again after it failed', async () => {
  const work = vi.fn<() => Promise<number>>(async () => work.mock.calls.length)
  work.mockRejectedValueOnce(new Error('the device is full'))
  const ask = onceUnlessItFails(work)
  const [first, beside] = [ask(), ask()]
  await expect(first).rejects.toThrow('full')
  await expect(beside).rejects.toThrow('full')
  expect(work).toHaveBeenCalledTimes(1)
  expect(await Promise.all([ask(), ask()])).toEqual([2, 2])
  expect(await ask()).toBe(2)
})
