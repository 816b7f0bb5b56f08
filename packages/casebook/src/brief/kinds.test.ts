import { expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const { make } = entryMaker('marram-house')
const body = { id: 'pipe-volume', input: { boreMm: 20, lengthM: 10 }, result: { volumeL: 3.14 }, working: 'V = 3.14 L' }

test('[REC25] a recorded calculation is kept whole, and each recording is its own entry', () => {
  const [first, again] = [make('calculation.recorded', body), make('calculation.recorded', body)]
  const { brief } = derive('marram-house', [first, again])
  expect(brief.calculations.map((each) => [each.id, each.body])).toEqual([
    [first.id, body],
    [again.id, body],
  ])
})

test('[REC25] a calculation without its working is refused', () => {
  const bare = { ...make('calculation.recorded', body), body: { ...body, working: '' } }
  expect(checkEntry(derive('marram-house', []), bare)).toMatchObject({ ok: false, issues: [{ path: 'body.working' }] })
})
