import { describe, expect, it } from 'vitest'
import { checkDigits, hasRightCheckDigits } from '@rillmark/casebook/label/check-digits.ts'

// text | check digits | source | how known
const PUBLISHED = [
  [
    '794',
    '44',
    'ISO/IEC 7064:2003, 8.4, worked example of MOD 97-10 (read in two restatements of the standard)',
    'seen, secondary',
  ],
  [
    '10BX939C5543TQA1144M999143X',
    '38',
    'US 12 CFR part 1003, Appendix C, worked example of ISO/IEC 7064 MOD 97-10',
    'seen',
  ],
  // A bank account number of ISO 13616 carries the same digits behind the country: WEST12345698765432 GB → 82.
  ['WEST12345698765432GB', '82', 'the United Kingdom example in the registry of ISO 13616', 'memory'],
] as const

describe('ISO/IEC 7064 MOD 97-10 against published examples', () => {
  it.each(PUBLISHED)('[LAB6] %s has check digits %s (%s; %s)', (text, want) => {
    expect(checkDigits(text)).toBe(want)
    expect(hasRightCheckDigits(text + want)).toBe(true)
  })

  it('the intermediate remainder printed in 12 CFR part 1003, Appendix C is 60, so 98 − 60 = 38', () => {
    expect(98 - Number(checkDigits('10BX939C5543TQA1144M999143X'))).toBe(60)
  })

  it('agrees with plain division of the whole number for 2,000 strings', () => {
    for (let seed = 1; seed <= 2000; seed += 1) {
      const text = (BigInt(seed) ** 9n).toString(36).toUpperCase()
      const number = BigInt([...text].map((character) => Number.parseInt(character, 36)).join('') + checkDigits(text))
      expect(number % 97n).toBe(1n)
    }
  })
})
