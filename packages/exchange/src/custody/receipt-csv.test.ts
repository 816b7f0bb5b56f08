import { type ReceiptForm, receiptForm } from '@rillmark/casebook/custody/receipt-form.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import * as fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { readReceiptCsv } from './read-receipt-csv.ts'
import { RECEIPT_HEAD, receiptCsv } from './receipt-csv.ts'

const { make } = entryMaker('marram-house')
const labels = ['MRH-0001-38', 'MRH-0002-35', '=cmd']
const state = derive('marram-house', [
  ...labels.map((label) =>
    make('sample.collected', {
      round: 'R1',
      stop: label,
      label,
      sampleKind: 'bulk-hot',
      volumeMl: 1000,
      filter: 'none',
    }),
  ),
  make('consignment.opened', { consignment: 'Box 1', container: 'cooler' }),
  ...labels.map((label) => make('sample.packed', { consignment: 'Box 1', label })),
  make('consignment.sealed', { consignment: 'Box 1', seal: '0451' }),
])
const form = receiptForm(state, 'Box 1') as ReceiptForm
const template = receiptCsv(form, { offset: '+01:00' })
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text)

/** Fills the form in as a person would, in a spreadsheet that knows nothing of us. */
function filled(
  answers: Record<string, string>,
  samples: Record<string, [string, string, string]>,
  delimiter = ',',
): string {
  const rows = Papa.parse<string[]>(template).data.map((row) => {
    const [name = ''] = row
    const sample = samples[name]
    if (answers[name] !== undefined) return [name, answers[name]]
    return sample === undefined ? row : [...row.slice(0, 3), ...sample]
  })
  return Papa.unparse(rows, { delimiter })
}

const ANSWERS: Record<string, string> = {
  [RECEIPT_HEAD.laboratory]: 'Quillhaven Water Laboratory',
  [RECEIPT_HEAD.name]: 'M. Aydin',
  [RECEIPT_HEAD.role]: 'reception',
  [RECEIPT_HEAD.date]: '2026-03-02',
  [RECEIPT_HEAD.time]: '18:30',
  [RECEIPT_HEAD.sealIntact]: 'yes',
  [RECEIPT_HEAD.temperature]: '6,1',
}
const SAMPLES: Record<string, [string, string, string]> = {
  'MRH-0001-38': ['accepted', '', ''],
  'MRH-0002-35': ['Too warm', 'no', '14 °C'],
  "'=cmd": ['leaking', 'yes', ''],
}

test('[RCF1] the form names its format and every sample of the consignment, and nothing in it runs as a formula', () => {
  const rows = Papa.parse<string[]>(template).data
  expect(rows[0]).toEqual(['format', 'rillmark/consignment-receipt@1'])
  expect(rows.map(([name]) => name).filter((name) => name?.startsWith('MRH'))).toEqual(labels.slice(0, 2))
  expect(rows.flat().filter((cell) => /^[=+\-@]/.test(cell))).toEqual([])
})

test.each([',', ';', '\t'])('[RCF2] filled in and saved with %j it reads back as the receipt', (delimiter) => {
  expect(readReceiptCsv(bytes(filled(ANSWERS, SAMPLES, delimiter)), form)).toEqual({
    ok: true,
    receipt: {
      laboratory: 'Quillhaven Water Laboratory',
      receivedBy: { name: 'M. Aydin', role: 'reception' },
      sealIntact: true,
      temperatureC: 6.1,
      at: '2026-03-02T17:30:00.000Z',
      samples: [
        { label: 'MRH-0001-38', condition: 'accepted' },
        { label: 'MRH-0002-35', condition: 'too warm', rejected: true, notes: '14 °C' },
        { label: '=cmd', condition: 'leaking', rejected: false },
      ],
    },
  })
})

// how spreadsheets write dates by where they are used: common practice, no source
test.each([
  ['14.03.2026', '18:30:00', '2026-03-14T17:30:00.000Z'],
  ['14/03/26', '6:30 PM', '2026-03-14T17:30:00.000Z'],
  ['3/14/2026', '18:30', '2026-03-14T17:30:00.000Z'],
  // the third of February is before the samples were collected
  ['02/03/2026', '18:30', '2026-03-02T17:30:00.000Z'],
])('[RCF2] a date that a spreadsheet wrote as %s %s is read where only one reading is possible', (date, time, at) => {
  const answers = { ...ANSWERS, [RECEIPT_HEAD.date]: date, [RECEIPT_HEAD.time]: time }
  expect(readReceiptCsv(bytes(`\uFEFF${filled(answers, SAMPLES, ';')}`), form)).toMatchObject({ receipt: { at } })
})

test('[RCF4] of a form with faults the rest is given back, for a person to complete, and nothing is supposed', () => {
  const answers = { ...ANSWERS, [RECEIPT_HEAD.sealIntact]: 'perhaps', [RECEIPT_HEAD.date]: '05/04/2026' }
  const read = readReceiptCsv(bytes(filled(answers, { ...SAMPLES, 'MRH-0002-35': ['warmish', 'no', ''] })), form)
  expect(read).toEqual({
    ok: false,
    issues: expect.any(Array),
    read: {
      laboratory: 'Quillhaven Water Laboratory',
      receivedBy: { name: 'M. Aydin', role: 'reception' },
      temperatureC: 6.1,
      samples: [
        { label: 'MRH-0001-38', condition: 'accepted' },
        { label: '=cmd', condition: 'leaking', rejected: false },
      ],
    },
  })
})

describe('[RCF3] every row is checked and every problem told with its line', () => {
  const pathsOf = (text: string): string[] => {
    const read = readReceiptCsv(bytes(text), form)
    return read.ok ? [] : read.issues.map(({ path }) => path)
  }
  test('an empty form asks for all it lacks; no sample is taken for accepted', () => {
    expect(pathsOf(template)).toEqual([
      'line 10, seal whole (yes or no)',
      'line 7, received on (YYYY-MM-DD)',
      'line 8, received at (HH:MM, 24 h)',
      'line 4, laboratory',
      'line 5, received by, name',
      'line 6, received by, role',
      'line 17, condition',
      'line 18, condition',
      'line 19, condition',
    ])
  })
  test.each([
    ['another condition', ANSWERS, { ...SAMPLES, 'MRH-0001-38': ['fine', '', ''] }, ['line 17, condition']],
    [
      'noted, without saying if it is examined',
      ANSWERS,
      { ...SAMPLES, 'MRH-0002-35': ['frozen', '', ''] },
      ['line 18, examined'],
    ],
    [
      'accepted and not examined',
      ANSWERS,
      { ...SAMPLES, 'MRH-0001-38': ['accepted', 'no', ''] },
      ['line 17, condition'],
    ],
    [
      'a date either way round',
      { ...ANSWERS, [RECEIPT_HEAD.date]: '05/04/2026' },
      SAMPLES,
      ['line 7, received on (YYYY-MM-DD)'],
    ],
    ['no date', { ...ANSWERS, [RECEIPT_HEAD.date]: '31/02/2026' }, SAMPLES, ['line 7, received on (YYYY-MM-DD)']],
    [
      'not there, and yet examined',
      ANSWERS,
      { ...SAMPLES, 'MRH-0001-38': ['not in the box', 'yes', ''] },
      ['line 17, examined'],
    ],
    ['another box', { ...ANSWERS, consignment: 'Box 2' }, SAMPLES, ['line 2, consignment']],
    ['no number', { ...ANSWERS, [RECEIPT_HEAD.temperature]: 'cool' }, SAMPLES, ['line 12, temperature on arrival']],
    ['perhaps', { ...ANSWERS, [RECEIPT_HEAD.sealIntact]: 'perhaps' }, SAMPLES, ['line 10, seal whole (yes or no)']],
  ] as const)('%s', (_, answers, samples, paths) => {
    expect(pathsOf(filled({ ...answers }, samples as never))).toEqual(paths)
  })
  test('a missing row, a strange one and one that stands twice', () => {
    const whole = filled(ANSWERS, SAMPLES).trimEnd()
    const rows = whole.split('\r\n')
    expect(pathsOf(rows.filter((row) => !row.startsWith('MRH-0001')).join('\r\n'))).toEqual(['samples'])
    expect(pathsOf(`${whole}\r\nMRH-0009-99,bulk hot,,accepted,,`)).toEqual(['line 20, label'])
    expect(pathsOf(`${whole}\r\nmrh 0001 38,bulk hot,,accepted,,`)).toEqual(['line 20, label'])
  })
  test.each(['', 'label,condition\nMRH-0001-38,accepted', 'format,rillmark/consignment-receipt@2'])(
    '%j is refused',
    (text) => {
      expect(pathsOf(text)).toEqual(['file'])
    },
  )
})

test('[FIL1] whatever bytes come back, nothing is thrown', () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 300 }),
      fc.nat(template.length),
      fc.string({ maxLength: 40 }),
      (noise, at, text) => {
        readReceiptCsv(noise, form)
        readReceiptCsv(bytes(template.slice(0, at) + text + template.slice(at)), form)
      },
    ),
    { seed: 20261130, numRuns: 300 },
  )
})
