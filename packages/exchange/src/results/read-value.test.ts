import type { Cell } from '@rillmark/casebook/results/raw-table.ts'
import { describe, expect, test } from 'vitest'
import { readNumber } from './read-number.ts'
import { readUnit } from './read-unit.ts'
import { readValue, type ValueContext } from './read-value.ts'

const cell = (text: string): Cell => ({ kind: 'text', text })
const context: ValueContext = { decimal: 'point', unit: 'CFU/L' }
const count = (value: number, unit = 'CFU/L') => ({ kind: 'count', value, unit })

describe('[RES5] what a laboratory writes becomes the variant it is', () => {
  // cell | variant (forms of the trade in several languages: common practice, no source)
  test.each<[string, object]>([
    ['1200', count(1200)],
    ['1 200', count(1200)],
    ["1'200", count(1200)],
    ['1.16e+06', count(1_160_000)],
    ['2.5 x 10^3', count(2500)],
    ['3·10⁴', count(30_000)],
    ['~ 300', count(300)],
    ['12 CFU/mL', count(12, 'CFU/mL')],
    ['230 KBE/100 ml', count(230, 'CFU/100 mL')],
    ['40 UFC/L', count(40)],
    ['15 GU/mL', count(15, 'GU/mL')],
    ['8 MPN/100mL', count(8, 'MPN/100 mL')],
    ['3 CFU per swab', count(3, 'CFU/swab')],
    ['<100', { kind: 'below', limit: 100, unit: 'CFU/L' }],
    ['< 1 CFU/mL', { kind: 'below', limit: 1, unit: 'CFU/mL' }],
    ['less than 50', { kind: 'below', limit: 50, unit: 'CFU/L' }],
    ['kleiner als 100', { kind: 'below', limit: 100, unit: 'CFU/L' }],
    ['>300', { kind: 'above', limit: 300, unit: 'CFU/L' }],
    ['not detected', { kind: 'not-detected' }],
    ['Not detected in 1 L', { kind: 'not-detected', volumeMl: 1000 }],
    ['negativ/100 mL', { kind: 'not-detected', volumeMl: 100 }],
    ['nd', { kind: 'not-detected' }],
    ['n.n.', { kind: 'not-detected' }],
    ['absence', { kind: 'not-detected' }],
    ['non détecté', { kind: 'not-detected' }],
    ['detected', { kind: 'detected' }],
    ['POSITIVE', { kind: 'detected' }],
    ['TNTC', { kind: 'detected' }],
    ['overgrown', { kind: 'overgrown' }],
    ['nicht auswertbar', { kind: 'overgrown' }],
    ['flore interférente', { kind: 'overgrown' }],
    ['broken', { kind: 'broken' }],
    ['not tested', { kind: 'not-tested', reason: 'not tested' }],
  ])('%s', (text, value) => {
    expect(readValue(cell(text), context).reading).toEqual({ kind: 'value', value, remarks: [] })
  })

  test('words for "below the limit" take the limit the row or column states', () => {
    expect(readValue(cell('LOD'), { ...context, limit: 100 }).reading).toMatchObject({
      value: { kind: 'below', limit: 100, unit: 'CFU/L' },
    })
    expect(readValue(cell('LOD'), context).reading).toMatchObject({
      kind: 'unread',
      remarks: [{ trap: 'limit missing' }],
    })
    expect(readValue({ kind: 'empty' }, { ...context, qualifier: '<', limit: 10 }).reading).toMatchObject({
      value: { kind: 'below', limit: 10 },
    })
    expect(readValue(cell('10'), { ...context, qualifier: '<' }).reading).toMatchObject({
      value: { kind: 'below', limit: 10 },
    })
  })
})

describe('[RES6] what is not plain is never repaired silently', () => {
  test.each<[string, Cell, string, object | undefined]>([
    ['a decimal comma', cell('3,2'), 'decimal comma', undefined],
    ['a comma that may be grouping', cell('1,200'), 'decimal comma', count(1.2)],
    ['a date cell', { kind: 'date', date: '2022-02-03', serial: 44595 }, 'date for number', count(3.2)],
    ['a date in words', cell('29-Mar'), 'date for number', count(29.3)],
    ['a date in figures', cell('03/02/2022'), 'date for number', count(3.2)],
    ['a German date', cell('14. Apr'), 'date for number', count(14.4)],
    ['zero', { kind: 'number', value: 0 }, 'zero count', { kind: 'not-detected' }],
    ['a negative number', { kind: 'number', value: -9 }, 'unreadable', undefined],
    ['words nobody knows', cell('see letter'), 'unreadable', undefined],
    ['two numbers', cell('12-15'), 'unreadable', undefined],
  ])('%s', (_, given, trap, suggestion) => {
    const { reading } = readValue(given, context)
    if (reading.kind === 'empty') throw new TypeError('read as empty')
    expect(reading.remarks[0]).toMatchObject({ trap })
    expect(reading.remarks[0]?.suggestion).toEqual(suggestion)
  })

  test('a number without a unit is no result', () => {
    expect(readValue(cell('12'), { decimal: 'point' }).reading).toMatchObject({
      kind: 'unread',
      remarks: [{ trap: 'unit missing' }],
    })
  })
})

test.each<[string, 'point' | 'comma', object]>([
  ['1.234.567', 'comma', { kind: 'number', value: 1_234_567 }],
  ['1.234,5', 'comma', { kind: 'number', value: 1234.5 }],
  ['1,234.5', 'point', { kind: 'number', value: 1234.5 }],
  ['1.200', 'comma', { kind: 'doubtful', value: 1200, other: 1.2 }],
  ['0.5', 'comma', { kind: 'doubtful', value: 0.5, other: undefined }],
  ['1e999', 'point', { kind: 'no number' }],
  ['', 'point', { kind: 'no number' }],
  ['1.2.3', 'point', { kind: 'no number' }],
])('[RES6] %s with decimal %s', (text, decimal, want) => {
  expect(readNumber(text, decimal)).toEqual(want)
})

test.each<[string, object]>([
  ['Lp_cfu_L', { kind: 'unit', unit: 'CFU/L' }],
  ['Lp_gc_L', { kind: 'unit', unit: 'GU/L' }],
  ['Legionella (KBE/100ml)', { kind: 'unit', unit: 'CFU/100 mL' }],
  ['UFC par litre', { kind: 'unit', unit: 'CFU/L' }],
  ['Lp_mpn_or_cfu_L', { kind: 'doubtful', words: 'CFU or MPN per L' }],
  ['Temperature', { kind: 'none' }],
  ['mg/L', { kind: 'none' }],
])('[RES7] the unit in the heading %s', (heading, want) => {
  expect(readUnit(heading)).toEqual(want)
})
