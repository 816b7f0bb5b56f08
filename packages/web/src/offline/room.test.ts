import { expect, test } from 'vitest'
import { bytesWords, isFull, photoFitsIssue, roomStanding, roomWarning } from './room.ts'

const MB = 1024 ** 2

test.each([
  [5000 * MB, 'plenty', 'nothing'],
  [200 * MB, 'plenty', 'nothing'],
  [199 * MB, 'low', 'nearly full: room for 199 MB more'],
  [20 * MB, 'low', 'nearly full: room for 20 MB more'],
  [19 * MB, 'full', 'full: what little is left is for entries'],
  [0, 'full', 'photos no longer fit'],
] as const)('[OFF5] with %i bytes left it is %s, and said before it hurts', (leftBytes, standing, words) => {
  const room = { usedBytes: 10 * MB, leftBytes }
  expect(roomStanding(room)).toBe(standing)
  expect(roomWarning(room) ?? 'nothing').toContain(words)
})

test('[OFF5] a photo that would take the room of entries is not taken in, and it is said what to do', () => {
  expect(photoFitsIssue({ usedBytes: 0, leftBytes: 25 * MB }, 5 * MB)).toBeUndefined()
  expect(photoFitsIssue({ usedBytes: 0, leftBytes: 25 * MB }, 5 * MB + 1)).toMatch(/not kept: .* full, .* Send what/)
})

test('[OFF5] where there was no room left to hold back for entries the device is full, whatever the browser says is left', () => {
  const room = { usedBytes: 0, leftBytes: 5000 * MB, reserved: false }
  expect(roomStanding(room)).toBe('full')
  expect(photoFitsIssue(room, MB)).toMatch(/not kept/)
})

test('bytes are told in words a person knows, never more than there are', () => {
  expect([100, 1.9 * MB, 1023.9 * MB, 1024 * MB, 2.19 * 1024 * MB].map(bytesWords)).toEqual([
    'less than 1 MB',
    '1 MB',
    '1023 MB',
    '1 GB',
    '2.1 GB',
  ])
})

test('a full device is told from every other failure', () => {
  expect(isFull(new DOMException('no room', 'QuotaExceededError'))).toBe(true)
  expect(isFull(new DOMException('gone', 'InvalidStateError'))).toBe(false)
  expect(isFull('QuotaExceededError')).toBe(false)
})
