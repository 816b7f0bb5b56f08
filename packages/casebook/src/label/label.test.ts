import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LABEL_LETTERS, makeLabel, readLabel } from './label.ts'

const CHARACTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ'

describe('makeLabel', () => {
  it('[LAB1] prints three letters, four digits and two check digits', () => {
    expect(makeLabel({ prefix: 'MRH', number: 7 }).id).toMatch(/^MRH-0007-\d\d$/)
  })

  it('[LAB1] every number from 1 to 9999 has one label, and no two share it', () => {
    const ids = new Set(Array.from({ length: 9999 }, (_, index) => makeLabel({ prefix: 'MRH', number: index + 1 }).id))
    expect(ids.size).toBe(9999)
  })

  it.each([
    ['MR', 1],
    ['MRO', 1],
    ['mrh', 1],
    ['MRHX', 1],
    ['MRH', 0],
    ['MRH', 10_000],
    ['MRH', 1.5],
    ['MRH', Number.NaN],
  ])('refuses to print %s %d', (prefix, number) => {
    expect(() => makeLabel({ prefix, number })).toThrow(RangeError)
  })
})

describe('readLabel', () => {
  const anyPrefix = fc
    .tuple(...[0, 1, 2].map(() => fc.constantFrom(...LABEL_LETTERS)))
    .map((letters) => letters.join(''))
  const anyLabel = fc
    .record({ prefix: anyPrefix, number: fc.integer({ min: 1, max: 9999 }) })
    .map((options) => makeLabel(options))

  it('[LAB2] reads what it printed, in lower case, without dashes, and with spaces or other dashes', () => {
    fc.assert(
      fc.property(anyLabel, (label) => {
        for (const text of [
          label.id,
          label.id.toLowerCase(),
          label.id.replaceAll('-', ''),
          ` ${label.id.replaceAll('-', ' – ')}\n`,
        ])
          expect(readLabel(text)).toEqual({ kind: 'ok', label, readAs: 'typed' })
      }),
    )
  })

  it('[LAB3] reads O as 0 and I or L as 1 where a digit belongs, and says so', () => {
    const label = makeLabel({ prefix: 'MRH', number: 1010 })
    for (const typed of ['IOIO', 'lo1o', '1O1O', 'LOLO']) {
      const text = `MRH-${typed}-${label.id.slice(-2)}`
      expect(readLabel(text)).toMatchObject({
        kind: 'ok',
        label,
        readAs: 'corrected',
        note: expect.stringContaining('O was read as 0'),
      })
    }
  })

  it.each([
    ['', 'nothing was typed'],
    ['MRH-0123', 'too short'],
    ['MRH-0123-455', 'too long'],
    ['MRH#0123-45', '"#" is not used'],
    ['0RH-0123-45', '"0" stands where a letter belongs'],
    ['MOH-0123-45', '"O" is not used on labels'],
    ['MRH-01B3-45', '"B" stands where a digit belongs'],
    ['MRH-0123-00', 'check digits do not fit'],
  ])('[LAB4] %j is refused with a plain reason: %s', (text, advice) => {
    expect(readLabel(text)).toMatchObject({
      kind: 'issue',
      issue: { path: 'label' },
      advice: expect.stringContaining(advice),
    })
  })

  it('reads any text without failing', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(['ok', 'issue']).toContain(readLabel(text).kind)
      }),
    )
  })
})

describe('every slip of one character or one swap', () => {
  // The remainder of a label is the sum of value × weight, so the effect of a slip depends only on where it happens and on the two
  // characters, never on the rest of the label. Trying every place with every pair therefore covers all 92,601,739 labels.
  const letterValues = [...LABEL_LETTERS].map((letter) => Number.parseInt(letter, 36))
  const digitValues = Array.from({ length: 10 }, (_, digit) => digit)
  const places = [
    ...[10, 8, 6].map((power) => ({ values: letterValues, weight: 10 ** power })),
    ...[5, 4, 3, 2, 1, 0].map((power) => ({ values: digitValues, weight: 10 ** power })),
  ]
  const divisible = (difference: number, weight: number): boolean => (difference * weight) % 97 === 0

  it('[LAB5] no exchange of a letter for a letter or a digit for a digit keeps the remainder', () => {
    for (const { values, weight } of places)
      for (const a of values) for (const b of values) expect(a === b || !divisible(a - b, weight)).toBe(true)
  })

  it('[LAB5] no swap of two neighbouring letters or two neighbouring digits keeps the remainder', () => {
    for (const [index, place] of places.entries()) {
      const next = places[index + 1]
      if (next === undefined || next.values !== place.values) continue
      for (const a of place.values)
        for (const b of place.values) expect(a === b || !divisible(a - b, place.weight - next.weight)).toBe(true)
    }
  })

  it('[LAB5] tried one by one on the reader itself: every character at every place, and every swap', () => {
    let tried = 0
    for (let number = 1; number <= 9999; number += 13) {
      const prefix = [0, 5, 11].map((step) => LABEL_LETTERS[(number + step) % LABEL_LETTERS.length]).join('')
      const label = makeLabel({ prefix, number })
      const bare = label.id.replaceAll('-', '')
      for (const slip of slipsOf(bare)) {
        const reading = readLabel(slip)
        if (reading.kind === 'ok') throw new Error(`${slip} was read as ${reading.label.id}, printed was ${label.id}`)
        tried += 1
      }
    }
    expect(tried).toBeGreaterThan(230_000)
  })
})

/** Every text one wrong character or one swap away, save the spellings that deliberately mean the same: O for 0, I or L for 1. */
function slipsOf(bare: string): string[] {
  const exchanged = [...bare].flatMap((was, place) =>
    [...CHARACTERS]
      .filter((character) => character !== was && !meansTheSame(character, was))
      .map((character) => bare.slice(0, place) + character + bare.slice(place + 1)),
  )
  const swapped = [...bare].slice(1).flatMap((second, place) => {
    const first = bare[place] ?? ''
    return first === second ? [] : [bare.slice(0, place) + second + first + bare.slice(place + 2)]
  })
  return [...exchanged, ...swapped]
}

function meansTheSame(typed: string, printed: string): boolean {
  return (typed === 'O' && printed === '0') || ((typed === 'I' || typed === 'L') && printed === '1')
}
