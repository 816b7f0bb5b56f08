import { execFileSync } from 'node:child_process'
import { beforeAll, describe, expect, test } from 'vitest'
import { CASE_CODES, PRIVATE_WORDS, reportState } from '@rillmark/casebook/report/report.fixture.ts'
import type { Variant } from '@rillmark/casebook/report/model.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { makeReportPdf } from './make-report-pdf.ts'

const HASH = '0123456789abcdef'.repeat(4)
const state = reportState()
const pdfOf = (variant: Variant): Uint8Array =>
  makeReportPdf(state, { head: { sequence: state.record.entries.length, hash: HASH }, variant })
const textOf = (pdf: Uint8Array): string =>
  execFileSync('pdftotext', ['-layout', '-', '-'], { input: pdf, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })
/** Words only, so that a line break inside a cell hides nothing. */
const wordsOf = (pdf: Uint8Array): string =>
  execFileSync('pdftotext', ['-', '-'], { input: pdf, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 }).replaceAll(
    /\s+/g,
    ' ',
  )

describe('the whole report', () => {
  let pdf: Uint8Array
  let text: string
  beforeAll(() => {
    pdf = pdfOf('full')
    text = textOf(pdf)
  })

  test('[RPT13] it names its head, its day and the number of its pages', () => {
    expect(text.replaceAll(/\s/g, '')).toContain(HASH)
    expect(text).toContain('record head 0123456789ab')
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', ['-'], { input: pdf, encoding: 'utf8' }))?.[1])
    expect(pages).toBeGreaterThan(10)
    for (const page of [1, pages]) expect(text).toContain(`page ${page} of ${pages}`)
    expect(text).toContain('2026-03-02')
  })

  test('[RPT13] the same record gives the same bytes', () => {
    expect(pdfOf('full')).toEqual(pdf)
  })

  test('it is PDF/A-2a and tagged', () => {
    const bytes = Buffer.from(pdf).toString('latin1')
    expect(bytes).toContain('<pdfaid:part>2</pdfaid:part>')
    expect(bytes).toContain('<pdfaid:conformance>A</pdfaid:conformance>')
    expect(bytes).toContain('/StructTreeRoot')
  })

  test('[RPT1] it has every section, in the contents too', () => {
    const titles = [
      'Summary',
      'Cases',
      'Building and its water',
      'Predicted conditions',
      'Sampling plan',
      'Fieldwork',
      'Custody of the samples',
      'Results',
      'Findings',
      'Control',
      'Follow-up',
      'Limits',
      'Method and sources',
      'The record',
    ]
    for (const [index, title] of titles.entries())
      expect(
        text.match(new RegExp(String.raw`^\s*${index + 1}\s+${title}\b`, 'gm'))?.length,
        title,
      ).toBeGreaterThanOrEqual(2)
  })

  test('[RPT3] every sample stands in it', () => {
    for (const label of state.fieldwork.samples.keys()) expect(text).toContain(label)
    expect(text).toContain('fewer than 0.05 CFU/mL')
  })
})

describe('the redacted report', () => {
  test('[RPT8] its text holds no case code, room, worker, onset or note', () => {
    const pdf = pdfOf('redacted')
    const words = wordsOf(pdf)
    const onsets = [...state.cases.cases.values()].flatMap(({ body }) => body.onsetDate ?? [])
    for (const word of [...CASE_CODES, ...PRIVATE_WORDS, ...onsets, 'Hairdresser']) expect(words).not.toContain(word)
    const rooms = new Set((state.building.system?.components ?? []).flatMap(({ room }) => room ?? []))
    expect(rooms.size).toBeGreaterThan(20)
    for (const room of rooms)
      expect(words).not.toMatch(new RegExp(String.raw`\broom ${room}\b|\b${room} (?:shower|basin|kitchen|bath)`, 'i'))
    expect(words).toContain('What was taken out')
    expect(words).toContain('[withheld]')
  })
})

test('[RPT13] what people typed is shown, never read as markup', () => {
  const { make } = entryMaker('marram-house')
  const hostile = '#panic("x") *bold* $x$ <label> @ref [y] \\ #read("/etc/passwd") // gone'
  const entries = [
    make('investigation.opened', { title: hostile, setting: 'other', openedOn: '2026-03-02', reason: hostile }),
    make('report.written', { section: 'summary', text: `${hostile}\n\n= no heading\n- no list` }),
  ]
  const head = { sequence: 2, hash: HASH }
  const words = wordsOf(makeReportPdf(derive('marram-house', entries), { head, variant: 'full' }))
  expect(words.split('#panic("x") *bold* $x$ <label> @ref [y] \\ #read("/etc/passwd") // gone').length).toBeGreaterThan(
    3,
  )
  expect(words).toContain('= no heading')
})

test('the longest text a person can type loses nothing at the foot of a page', () => {
  const { make } = entryMaker('marram-house')
  const long = Array.from({ length: 2400 }, (_, index) => `w${index}`)
    .join(' ')
    .slice(0, 13_000)
  const entries = [
    make('report.written', { section: 'summary', text: long }),
    make('calculation.recorded', { id: 'proportion', input: {}, result: {}, working: long.replaceAll('w', 'v') }),
  ]
  const head = { sequence: 2, hash: HASH }
  const words = wordsOf(makeReportPdf(derive('marram-house', entries), { head, variant: 'full' }))
  for (const index of [0, 500, 1000, 1500, 2000]) {
    expect(words).toContain(`w${index} `)
    expect(words).toContain(`v${index} `)
  }
})
