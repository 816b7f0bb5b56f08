import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { CalculationThread } from './calculation-thread.ts'

const request = { id: 'proportion', input: { positive: 3, total: 20 } }
const waiting = () => new AbortController().signal

test('[SRV20] a run on the thread answers as one beside it would, refusals too', async () => {
  const thread = new CalculationThread()
  const wrong = { id: 'proportion', input: { positive: 3 } }
  expect(await thread.run(request, waiting())).toEqual(runCalculation(request))
  expect(await thread.run(wrong, waiting())).toEqual(runCalculation(wrong))
})

test('[SRV20] a run that takes too long is ended and the reason told; the next one runs', async () => {
  const thread = new CalculationThread({ patienceMs: 1, mostWaiting: 1 })
  await expect(thread.run(request, waiting())).rejects.toMatchObject({
    statusCode: 422,
    issues: [{ received: 'one that takes longer' }],
  })
  await expect(thread.run(request, waiting())).rejects.toMatchObject({ statusCode: 422 })
})

test('[SRV20] only so many wait; more are told to come again', async () => {
  const thread = new CalculationThread({ patienceMs: 60_000, mostWaiting: 1 })
  const first = thread.run(request, waiting())
  const second = thread.run(request, waiting())
  await expect(thread.run(request, waiting())).rejects.toMatchObject({ statusCode: 503 })
  expect(await Promise.all([first, second])).toHaveLength(2)
  expect(await thread.run(request, waiting())).toHaveProperty('result')
})

test('[SRV20] a run nobody waits for any more is ended, and one not begun never is', async () => {
  const thread = new CalculationThread()
  const leaver = new AbortController()
  const runs = [thread.run(request, leaver.signal), thread.run(request, leaver.signal)]
  leaver.abort()
  const ends = await Promise.allSettled(runs)
  expect(ends.map(({ status }) => status)).toEqual(['rejected', 'rejected'])
  expect(await thread.run(request, waiting())).toHaveProperty('result')
})
