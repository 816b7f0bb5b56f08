import { expect, test } from 'vitest'
import { browserCommand, type Desktop } from './open-browser.ts'

const URL_HERE = 'http://127.0.0.1:8710'
const here = (desktop: Partial<Desktop>) =>
  browserCommand(URL_HERE, { platform: 'linux', env: { DISPLAY: ':0' }, has: () => true, ...desktop })?.program

test.each([
  ['Linux with a desktop', {}, 'xdg-open'],
  ['Linux on Wayland', { env: { WAYLAND_DISPLAY: 'wayland-0' } }, 'xdg-open'],
  ['Linux without a desktop', { env: {} }, undefined],
  ['Linux without the program', { has: () => false }, undefined],
  ['macOS', { platform: 'darwin', env: {} }, 'open'],
  ['Windows', { platform: 'win32', env: {} }, 'cmd'],
  ['a remote shell', { env: { DISPLAY: ':0', SSH_CONNECTION: '192.0.2.1 1 192.0.2.2 22' } }, undefined],
  ['a build machine', { env: { DISPLAY: ':0', CI: 'true' } }, undefined],
] as const)('[CLI6] the browser of %s', (_, desktop, program) => {
  expect(here(desktop)).toBe(program)
})
