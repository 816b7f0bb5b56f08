import { expect, test } from 'vitest'
import { syncWords } from './sync-words.ts'

test.each([
  [{ confirmed: 214, pending: 0, refused: 0, connection: 'up' }, 'All 214 entries are on the server'],
  [{ confirmed: 1, pending: 0, refused: 0, connection: 'up' }, '1 entry is on the server'],
  [{ confirmed: 0, pending: 0, refused: 0, connection: 'up' }, 'Nothing written yet'],
  [{ confirmed: 211, pending: 3, refused: 0, connection: 'up' }, '3 entries wait on this device'],
  [{ confirmed: 211, pending: 1, refused: 0, connection: 'unknown' }, '1 entry waits on this device'],
  [{ confirmed: 28, pending: 3, refused: 0, connection: 'down' }, 'No connection · 3 entries wait, safe here'],
  [{ confirmed: 28, pending: 1, refused: 0, connection: 'down' }, 'No connection · 1 entry waits, safe here'],
  [{ confirmed: 28, pending: 0, refused: 0, connection: 'down' }, 'No connection · nothing waits'],
  [{ confirmed: 28, pending: 0, refused: 1, connection: 'down' }, '1 entry was refused: see Record'],
  [{ confirmed: 28, pending: 2, refused: 2, connection: 'up' }, '2 entries were refused: see Record'],
  [{ confirmed: 28, pending: 0, refused: 0, connection: 'unknown' }, '28 entries on this device'],
  [
    { confirmed: 28, pending: 0, refused: 0, connection: 'parted' },
    'This device and the server hold different records: export this one',
  ],
  [
    { confirmed: 28, pending: 3, refused: 0, connection: 'not let in' },
    'The server does not let this device in · 31 entries safe on this device',
  ],
  [
    { confirmed: 28, pending: 0, refused: 0, connection: 'up', photos: { count: 2, bytes: 3_050_001 } },
    'All 28 entries are on the server · 2 photos, 3.1 MB still to send',
  ],
  [
    { confirmed: 28, pending: 1, refused: 0, connection: 'up', photos: { count: 1, bytes: 9 } },
    '1 entry waits on this device · 1 photo, 1 kB still to send',
  ],
  [
    { confirmed: 1, pending: 0, refused: 0, connection: 'up', photos: { count: 0, bytes: 0 } },
    '1 entry is on the server',
  ],
  [
    {
      confirmed: 1,
      pending: 0,
      refused: 0,
      connection: 'up',
      photos: { count: 1, bytes: 2_000_000, trouble: 'the server has no room for them' },
    },
    '1 entry is on the server · 1 photo, 2.0 MB still to send: the server has no room for them',
  ],
] as const)('[SYN14] %j reads: %s', (standing, words) => {
  expect(syncWords(standing)).toBe(words)
})
