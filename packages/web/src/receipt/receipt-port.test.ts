import { expect, test, vi } from 'vitest'
import { openReceipt } from './receipt-port.ts'

const answered = async (status: number, path: string) => {
  const issues = [{ path, expected: 'something else', received: 'this' }]
  vi.stubGlobal('fetch', async () => Response.json({ issues }, { status }))
  return (await openReceipt('a token')).kind
}

test('[RCP3] a link has ended when the server says so of the link, not when a proxy or another site may not ask', async () => {
  expect(await answered(401, 'authorization')).toBe('no way in')
  expect(await answered(404, 'consignment')).toBe('no way in')
  expect(await answered(403, 'origin')).toBe('refused')
  expect(await answered(429, '')).toBe('refused')
  expect(await answered(503, 'data folder')).toBe('unreachable')
})
