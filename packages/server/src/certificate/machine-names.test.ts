import { expect, test } from 'vitest'
import { addressBytes } from './address-bytes.ts'
import { machineNames, outsideAddresses } from './machine-names.ts'

const at = (...addresses: string[]) => addresses.map((address) => ({ address, internal: false }))
const LOOPBACK = [{ address: '127.0.0.1', internal: true }]

test('a machine is called by its name, its name on the local network, and its addresses on each', () => {
  const interfaces = {
    lo: LOOPBACK,
    eth0: at('fe80::1', '2001:db8::7', 'fd00::2', '192.0.2.2'),
    wlan0: at('198.51.100.3'),
  }
  expect(machineNames({ hostname: 'Desk-1', interfaces })).toEqual({
    names: ['localhost', 'desk-1', 'desk-1.local'],
    addresses: ['127.0.0.1', '::1', '192.0.2.2', '198.51.100.3', 'fd00::2'],
  })
  expect(outsideAddresses({ hostname: 'x', interfaces })[0]).toBe('192.0.2.2')
})

test.each([
  ['desk.agency.example', ['localhost', 'desk.agency.example']],
  ['desk.local', ['localhost', 'desk.local']],
  ['localhost', ['localhost', 'localhost.local']],
  ['the desk', ['localhost']],
  ['', ['localhost']],
  ['büro', ['localhost']],
])('the host name %j gives the names %j', (hostname, names) => {
  expect(machineNames({ hostname, interfaces: {} }).names).toEqual(names)
})

test.each([
  ['192.0.2.7', 'c0000207'],
  ['::1', '00000000000000000000000000000001'],
  ['::', '00000000000000000000000000000000'],
  ['2001:db8::ff00:42:8329', '20010db8000000000000ff0000428329'],
  ['fd12:3456:789a:1:2:3:4:5', 'fd123456789a00010002000300040005'],
  ['fd12::', 'fd120000000000000000000000000000'],
])('the address %s is the bytes %s', (address, hex) => {
  expect(Buffer.from(addressBytes(address) ?? []).toString('hex')).toBe(hex)
})

test.each(['', 'x', '192.0.2', 'fe80::1%eth0', '::ffff:192.0.2.7', '1:2:3'])(
  '%j is no address of a certificate',
  (text) => {
    expect(addressBytes(text)).toBeUndefined()
  },
)
