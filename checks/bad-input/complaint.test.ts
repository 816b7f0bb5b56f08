import { expect, test } from 'vitest'
import { complaintAbout } from './complaint.ts'

const refusal = {
  what: 'x',
  status: 400,
  contentType: 'application/json',
  body: '{"issues":[{"path":"","expected":"a","received":"b"}]}',
  workMs: 3,
  ms: 20_000,
}

test('a refusal that waited for a busy machine passes; one that worked long or hung does not', () => {
  expect(complaintAbout(refusal)).toBeUndefined()
  expect(complaintAbout({ ...refusal, workMs: 6000 })).toContain('worked 6000 ms')
  expect(complaintAbout({ ...refusal, ms: 31_000 })).toContain('took 31000 ms')
})
