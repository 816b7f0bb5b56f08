import { expect, test } from 'vitest'
import { isOwnName } from './own-names.ts'

test.each([
  ['server', true],
  ['server-0a1b2c3d', true],
  ['laboratory-link-7', true],
  ['browser-0192', false],
  ['server-room', false],
  ['my-server', false],
] as const)('[ACC2] the name %s is the server’s own: %s', (name, own) => {
  expect(isOwnName(name)).toBe(own)
})
