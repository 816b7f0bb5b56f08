import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { testKey } from '../testing/test-key.ts'
import { added, door, investigation, writer } from './contests.fixture.ts'
import { openAccounts } from './open-accounts.ts'

test('[CON10] accounts that wait for a person stand side by side with who said what where, until they are settled', () => {
  const [desk, phone, at, key] = [writer('desk'), writer('phone'), door(), testKey('phone')]
  const first = desk.aCase('C1', { seen: 0 })
  const joined = key.sign(phone.make('device.joined', { name: 'Phone 2', role: 'sampler', key: key.key }))
  const second = key.sign(phone.aCase('C1', { seen: 0 }))
  const record = [first, joined, second].flatMap((entry) => added(at.decide(entry)))
  expect(openAccounts(at.state)).toMatchObject([
    {
      standing: 'contested',
      first: [{ id: first.id, title: 'Case recorded', words: expect.stringContaining('Case C1'), device: 'desk' }],
      second: { id: second.id, author: 'R. Vale', device: 'Phone 2' },
      issues: [{ path: 'body.code' }],
    },
  ])
  const settled = desk.settled(second.id, 'first stands')
  expect(openAccounts(derive(investigation, [...record, settled]))).toEqual([])
})

test('[CON10] entries that differ name the stop they are about', () => {
  const [a, b] = [writer('desk').reading(52, { seen: 0 }), writer('phone').reading(49.5, { seen: 0 })]
  expect(openAccounts(derive(investigation, [a, b]))).toMatchObject([
    { standing: 'differ', first: [{ id: a.id }], second: { id: b.id }, at: { round: 'R1', stop: 'S7' } },
  ])
})
