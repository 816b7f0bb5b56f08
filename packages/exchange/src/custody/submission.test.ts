import { execFileSync } from 'node:child_process'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { SUBMISSION_COLUMNS, submissionCsv } from './submission-csv.ts'
import { submissionPdf } from './submission-pdf.ts'
import { type Submission, submissionOf } from './submission.ts'

const { make } = entryMaker('marram-house')
const labels = ['MRH-0001-38', 'MRH-0002-35', 'MRH-0003-32']
const entries: Entry[] = [
  make('investigation.opened', {
    title: 'Marram House',
    setting: 'hotel',
    openedOn: '2026-03-02',
    reason: 'two cases',
  }),
  make('case.recorded', { code: 'C1', classification: 'confirmed', link: 'not judged', isolate: 'not known' }),
  ...labels.map((label) =>
    make('sample.collected', {
      round: 'R1',
      stop: label,
      label,
      sampleKind: 'bulk-hot',
      component: `=SUM(A1:A9) "shower", ${label}`,
      volumeMl: 1000,
      filter: 'none',
      neutralizer: { solutionNormality: 0.1, solutionVolumeMl: 0.5 },
    }),
  ),
  make('consignment.opened', { consignment: 'Box 1', container: 'cooler' }),
  ...labels.slice(0, 2).map((label) => make('sample.packed', { consignment: 'Box 1', label })),
  make('consignment.sealed', { consignment: 'Box 1', seal: '-0451', temperatureC: 5 }),
  make('consignment.handed-over', {
    consignment: 'Box 1',
    from: { name: 'T. Okoro', role: 'sampler' },
    to: { name: 'J. Brandt', role: 'courier' },
    sealIntact: true,
  }),
]
const state = derive('marram-house', entries)
const given = (consignment?: string): Submission => {
  const submission = submissionOf(state, { consignment })
  if ('issues' in submission) throw new TypeError(JSON.stringify(submission.issues))
  return submission
}
const textOf = (pdf: Uint8Array): string =>
  execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8' })

test('the table has one row for each sample in the box, as another reader reads it', () => {
  const { data } = Papa.parse<Record<string, string>>(submissionCsv(given('Box 1')), {
    header: true,
    skipEmptyLines: true,
  })
  expect(Object.keys(data[0] ?? {})).toEqual([...SUBMISSION_COLUMNS])
  expect(data).toHaveLength(2)
  expect(data[0]).toMatchObject({
    consignment: 'Box 1',
    label: 'MRH-0001-38',
    'sample kind': 'bulk hot',
    'collected (local)': '2026-03-02 08:03',
    'examine by (local)': '2026-03-03 08:03',
    'offset from UTC': 'UTC+00:00',
    'volume (mL)': '1000',
    neutralizer: 'added',
  })
})

test('nothing in the table runs as a formula in a spreadsheet', () => {
  const { data } = Papa.parse<string[]>(submissionCsv(given()), { skipEmptyLines: true })
  expect(data.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([])
  expect(data[1]?.[5]).toBe(`'=SUM(A1:A9) "shower", MRH-0001-38`)
  expect(data[1]?.[1]).toBe("'-0451")
})

test('the sheet shows samples, chain and blanks to sign, and says nothing of cases', () => {
  const text = textOf(submissionPdf(given('Box 1')))
  for (const words of ['MRH-0001-38', 'MRH-0002-35', 'sealed, -0451', 'T. Okoro, sampler', 'J. Brandt, courier'])
    expect(text).toContain(words)
  expect(text).toMatch(/signature/)
  expect(text).toContain('Laboratory receipt')
  expect(text).not.toContain('MRH-0003-32')
  expect(text).not.toMatch(/\bC1\b/)
})

test('an unknown consignment is refused with the ones there are', () => {
  expect(submissionOf(state, { consignment: '../Box' })).toMatchObject({
    issues: [{ path: 'consignment', expected: 'one of Box 1' }],
  })
  expect(submissionOf(derive('marram-house', []), {})).toMatchObject({ issues: [{ path: 'consignment' }] })
})

test('the same record gives the same sheet', () => {
  expect(submissionPdf(given('Box 1'), { codes: true })).toEqual(submissionPdf(given('Box 1'), { codes: true }))
})
