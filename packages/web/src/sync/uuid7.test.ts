import { entryId } from '@rillmark/casebook/entry/fields.ts'
import { expect, test } from 'vitest'
import { uuid7 } from './uuid7.ts'

// RFC 9562, appendix A.6: 2022-02-22T19:22:22.000Z, rand_a CC3, rand_b 18C4DC0C0C07398F (known by memory of the text)
test('gives the example of RFC 9562, appendix A.6', () => {
  const random = Uint8Array.from([0, 0, 0, 0, 0, 0, 0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f])
  expect(uuid7(Date.parse('2022-02-22T19:22:22.000Z'), random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f')
})

test('ids are accepted by the record, differ, and sort by time', () => {
  const ids = Array.from({ length: 200 }, (_, second) => uuid7(Date.parse('2026-03-02T08:00:00.000Z') + second * 1000))
  expect(ids.filter((id) => !entryId.safeParse(id).success)).toEqual([])
  expect(new Set(ids).size).toBe(ids.length)
  expect(ids.toSorted()).toEqual(ids)
})
