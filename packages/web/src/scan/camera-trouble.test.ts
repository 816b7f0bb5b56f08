import { expect, test } from 'vitest'
import { cameraTrouble } from './camera-trouble.ts'

// The names are those getUserMedia may fail with: W3C Media Capture and Streams, 10.2 (from memory).
test.each([
  'NotAllowedError',
  'SecurityError',
  'NotFoundError',
  'OverconstrainedError',
  'NotReadableError',
  'AbortError',
])('a camera that fails with %s is told in words of its own, and typing is named', (name) => {
  const said = cameraTrouble(new DOMException('x', name))
  expect(said).not.toBe(cameraTrouble(new Error('anything else')))
  expect(said).toMatch(/type instead/i)
  expect(said).not.toContain(name)
})

test('a page without a safe connection is told so', () => {
  expect(cameraTrouble(new DOMException('x', 'NotSupportedError'))).toContain('https')
})
