import { crc32 as zlibCrc32 } from 'node:zlib'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { crc32 } from './unzip-member.ts'

test('the check value of CRC-32 for the digits 1 to 9 is cbf43926 (memory: catalogue of parametrised CRC algorithms)', () => {
  expect(crc32(new TextEncoder().encode('123456789')).toString(16)).toBe('cbf43926')
})

test('CRC-32 agrees with zlib on any bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array(), (bytes) => {
      expect(crc32(bytes)).toBe(zlibCrc32(bytes))
    }),
  )
})
