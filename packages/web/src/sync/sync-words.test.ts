import { expect, test } from 'vitest'
import { syncWords } from './sync-words.ts'

test.each([
  [{ confirmed: 214, pending: 0, refused: 0, connection: 'up' }, 'All 214 entries are on the server'],
  [{ confirmed: 1, pending: 0, refused: 0, connection: 'up' }, '1 entry is on the server'],
  [{ confirmed: 0, pending: 0, refused: 0, connection: 'up' }, 'Nothing written yet'],
  [{ confirmed: 211, pending: 3, refused: 0, connection: 'up' }, '3 entries wait on this device'],
  [{ confirmed: 211, pending: 1, refused: 0, connection: 'unknown' }, '1 entry waits on this device'],
  [{ confirmed: 28, pending: 3, refused: 0, connection: 'down' }, 'No connection · 31 entries safe on this device'],
  [{ confirmed: 28, pending: 0, refused: 1, connection: 'down' }, '1 entry was refused: see Record'],
  [{ confirmed: 28, pending: 2, refused: 2, connection: 'up' }, '2 entries were refused: see Record'],
  [{ confirmed: 28, pending: 0, refused: 0, connection: 'unknown' }, '28 entries on this device'],
  [
    { confirmed: 28, pending: 0, refused: 0, connection: 'parted' },
    'This device and the server hold different records: export this one',
  ],
] as const)('%j reads: %s', (standing, words) => {
  expect(syncWords(standing)).toBe(words)
})
