import { expect, test } from 'vitest'
import { isTakenAgain, type TakenSample } from './taken-again.ts'

const shower: TakenSample = { label: 'L-1', component: 'shower-1', sampleKind: 'bulk-hot', collectedOn: '2026-03-02' }
const is = (other: Partial<TakenSample>, ...unread: string[]) =>
  isTakenAgain(shower, {
    others: [shower, { ...shower, label: 'L-2', ...other }],
    isUnread: (label) => unread.includes(label),
  })

test('[RES22] the same kind of sample at the same point counts as taken again, when later or readable', () => {
  expect(is({ collectedOn: '2026-03-09' }, 'L-1', 'L-2')).toBe(true)
  expect(is({}, 'L-1')).toBe(true)
  expect(is({}, 'L-1', 'L-2')).toBe(false)
  expect(is({ collectedOn: '2026-03-01' }, 'L-1')).toBe(false)
  expect(is({ sampleKind: 'first-flush-swab', collectedOn: '2026-03-09' }, 'L-1')).toBe(false)
  expect(is({ component: 'shower-2', collectedOn: '2026-03-09' }, 'L-1')).toBe(false)
})

test('[RES22] without a component the stop of the round tells the point', () => {
  const { component: _, ...stop } = { ...shower, round: 'R1', stop: 'S1' }
  const told = (other: Partial<TakenSample>) =>
    isTakenAgain(stop, { others: [{ ...stop, label: 'L-2', ...other }], isUnread: () => false })
  expect(told({})).toBe(true)
  expect(told({ round: 'R2' })).toBe(false)
})
