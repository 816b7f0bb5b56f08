import { expect, test } from 'vitest'
import { signatureOf, signingIssues, UNSIGNED } from './signing.ts'

const PICTURE = new Blob(['x'])

test('a way of signing must be chosen, and what it needs be there', () => {
  expect(signingIssues(UNSIGNED)).toHaveLength(1)
  expect(signingIssues({ ...UNSIGNED, way: 'none' })).toEqual([])
  for (const way of ['drawn', 'paper'] as const) {
    expect(signingIssues({ ...UNSIGNED, way })).toHaveLength(1)
    expect(signingIssues({ ...UNSIGNED, way, picture: PICTURE })).toEqual([])
  }
  expect(signingIssues({ ...UNSIGNED, way: 'device' })).toHaveLength(1)
  expect(signingIssues({ ...UNSIGNED, way: 'device', device: 'phone-2' })).toEqual([])
})

test('it is kept as the picture’s hash, the device, or nothing', () => {
  const sha256 = 'ab'.repeat(32)
  expect(signatureOf({ ...UNSIGNED, way: 'drawn' }, sha256)).toEqual({ signedBy: { way: 'drawn', sha256 } })
  expect(signatureOf({ ...UNSIGNED, way: 'device', device: 'p' }, '')).toEqual({
    signedBy: { way: 'device', device: 'p' },
  })
  expect(signatureOf({ ...UNSIGNED, way: 'none' }, '')).toEqual({})
})
