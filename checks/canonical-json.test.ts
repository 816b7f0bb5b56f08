// RFC 8785, JSON Canonicalization Scheme, June 2020: the worked example of section 3.2.2 and 3.2.3 and the number table of appendix B.
// Known by: memory of the published text; the table's bit patterns are turned into numbers here, so each row checks itself twice.
import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'

const ofBits = (hex: string): number => new DataView(BigUint64Array.of(BigInt(`0x${hex}`)).buffer).getFloat64(0, true)

describe('numbers of appendix B', () => {
  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('IEEE 754 %s is written %s', (bits, written) => {
    expect(canonicalJson(ofBits(bits))).toBe(written)
    expect(Object.is(Number(written), bits === '8000000000000000' ? 0 : ofBits(bits))).toBe(true)
  })

  test.each([['7fffffffffffffff'], ['7ff0000000000000'], ['fff0000000000000']])('IEEE 754 %s is refused', (bits) => {
    expect(() => canonicalJson(ofBits(bits))).toThrow('not allowed')
  })
})

test('the example of section 3.2.2 and 3.2.3', () => {
  const given = JSON.parse(String.raw`{
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  }`)
  expect(canonicalJson(given)).toBe(
    String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
  )
})

test('properties are sorted by UTF-16 code units: the example of section 3.2.3', () => {
  const given = JSON.parse(String.raw`{
    "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
    "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control", "\u00f6": "Latin Small Letter O With Diaeresis"
  }`)
  expect(Object.values(JSON.parse(canonicalJson(given)))).toHaveLength(7)
  const values = [...canonicalJson(given).matchAll(/:"([^"]*)"/g)].map(([, value]) => value)
  expect(values).toEqual([
    'Carriage Return',
    'One',
    'Control',
    'Latin Small Letter O With Diaeresis',
    'Euro Sign',
    'Emoji: Grinning Face',
    'Hebrew Letter Dalet With Dagesh',
  ])
})

test('half of a surrogate pair is refused, in a value and in a key', () => {
  expect(() => canonicalJson('\ud800')).toThrow('Lone surrogate')
  expect(() => canonicalJson({ '\udead': 1 })).toThrow('Lone surrogate')
})

test('any JSON value: reading what was written gives the value, and writing it again gives the same text', () => {
  fc.assert(
    fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
      const written = canonicalJson(value)
      expect(canonicalJson(JSON.parse(written))).toBe(written)
      expect(JSON.parse(written)).toEqual(JSON.parse(JSON.stringify(value)))
    }),
  )
})

test('the order in which properties were put in makes no difference', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
      const turned = Object.fromEntries(Object.entries(value).toReversed())
      expect(canonicalJson(turned)).toBe(canonicalJson(value))
    }),
  )
})
