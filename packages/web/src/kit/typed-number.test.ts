import { describe, expect, it } from 'vitest'
import { readTypedNumber } from './typed-number.ts'

describe('a number as typed', () => {
  it.each([
    ['44.6', 44.6, 1],
    ['44,6', 44.6, 1],
    [' 7 ', 7, 0],
    ['0.50', 0.5, 2],
    ['−3', -3, 0],
    [',5', 0.5, 1],
    ['1250.', 1250, 0],
  ])('reads %s', (text, value, decimals) => {
    expect(readTypedNumber(text)).toEqual({ kind: 'number', value, decimals })
  })

  it.each(['1.250,5', '1 250', '12 °C', 'NaN', 'Infinity', '1e3', '<5', '--1', '.', '１２'])(
    'refuses %s with a reason',
    (text) => {
      expect(readTypedNumber(text).kind).toBe('unreadable')
    },
  )

  it('tells empty from unreadable', () => {
    expect(readTypedNumber('  ').kind).toBe('empty')
  })
})
