import { expect, test } from 'vitest'
import { handWords, timeOf } from './hand-words.ts'

test('a person is named once, with the device where that says more', () => {
  expect(handWords({ author: 'T. Okoro', device: 'd1' })).toBe('T. Okoro')
  expect(handWords({ author: 'T. Okoro', device: 'd1', deviceName: 'T. Okoro' })).toBe('T. Okoro')
  expect(handWords({ author: 'T. Okoro', device: 'd1', deviceName: 'blue phone' })).toBe('T. Okoro (blue phone)')
})

test.each([
  ['09:10 to 09:24', '2026-03-04T09:10:00.000Z', '2026-03-04T09:24:30.000Z', '+00:00', '2026-03-04 09:10–09:24'],
  ['one moment', '2026-03-04T09:10:00.000Z', '2026-03-04T09:10:20.000Z', '+00:00', '2026-03-04 09:10'],
  [
    'over midnight, east',
    '2026-03-04T21:50:00.000Z',
    '2026-03-04T22:10:00.000Z',
    '+02:00',
    '2026-03-04 23:50–2026-03-05 00:10',
  ],
])('%s by the clock on the wall', (_, from, to, offset, want) => {
  expect(timeOf({ from, to, offset })).toBe(want)
})
