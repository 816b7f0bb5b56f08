import { expect, test } from 'vitest'
import { linkState } from './consignment-links.ts'

const NOW = Date.parse('2026-03-14T12:00:00Z')
const link = {
  link: 1,
  consignment: 'Box 1',
  made: '2026-03-10T12:00:00Z',
  by: 'desk',
  expires: '2026-03-20T12:00:00Z',
}

test.each([
  [{}, 'open'],
  [{ expires: '2026-03-14T12:00:00Z' }, 'ended'],
  [{ revoked: '2026-03-12T12:00:00Z' }, 'taken back'],
  [{ received: 'x', expires: '2026-03-12T12:00:00Z' }, 'receipt written'],
])('a link with %j is %s', (change, words) => {
  expect(linkState({ ...link, ...change }, NOW)).toBe(words)
})
