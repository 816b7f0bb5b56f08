import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import { isServersName, laboratoryDevice, lastLaboratoryLink, serverDevice } from './server-names.ts'
import { thumbprint } from './signed-text.ts'

const own = testKey('this server').key
const name = thumbprint(own)
const devicesOf = (...joined: readonly (readonly [string, string])[]) =>
  derive(
    'marram-house',
    joined.map(([device, key]) =>
      entryMaker('marram-house', { device }).make('device.joined', {
        name: 'x',
        role: 'server',
        key: testKey(key).key,
      }),
    ),
  ).devices

test('[DEV8] a server is `server` in its own record, and goes by its key too in that of another', () => {
  expect(serverDevice(devicesOf(), name)).toBe('server')
  expect(serverDevice(devicesOf(['server', 'this server']), name)).toBe('server')
  expect(serverDevice(devicesOf(['server', 'another']), name)).toBe(`server-${name.slice(0, 8)}`)
})

test('[DEV8] laboratories write under the number of their link', () => {
  const devices = devicesOf([laboratoryDevice(3), 'a'], [laboratoryDevice(12), 'b'], ['laboratory-link-x', 'c'])
  expect(lastLaboratoryLink(devices)).toBe(12)
  expect(lastLaboratoryLink(devicesOf(['laboratory-link-99999999999999999999', 'a'], ['laboratory-link-', 'b']))).toBe(
    0,
  )
})

test.each([
  ['server', true],
  [`server-${name.slice(0, 8)}`, true],
  [laboratoryDevice(7), true],
  ['laboratory-link-', true],
  ['browser-0192', false],
  ['server-room', false],
  ['my-server', false],
] as const)('[DEV8] the name %s is a server’s own: %s', (device, is) => {
  expect(isServersName(device)).toBe(is)
})
