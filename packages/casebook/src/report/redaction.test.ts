import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { dayOfRecord } from './day-of-record.ts'
import type { ReportModel } from './model.ts'
import { testKey } from '../testing/test-key.ts'
import { privateTerms, WITHHELD, withheld } from './redaction.ts'
import { CASE_CODES, FIXTURE_ID, PRIVATE_WORDS, reportState } from './report.fixture.ts'
import { reportModel } from './report-model.ts'

const state = reportState()
const modelOf = (variant: 'full' | 'redacted'): ReportModel =>
  reportModel(state, {
    head: { sequence: state.record.entries.length, hash: 'b'.repeat(64) },
    variant,
    today: dayOfRecord(state),
  })
const full = JSON.stringify(modelOf('full'))
const redacted = JSON.stringify(modelOf('redacted'))

const rooms = [...new Set((state.building.system?.components ?? []).flatMap(({ room }) => room ?? []))]
const onsets = [...state.cases.cases.values()].flatMap(({ body }) => body.onsetDate ?? [])

test('[RPT8] no case code, onset, worker, note or place of stay is left anywhere in the model', () => {
  for (const word of [...CASE_CODES, 'Hairdresser', 'flat 12', ...onsets, ...PRIVATE_WORDS])
    expect(redacted).not.toContain(word)
  for (const word of [...CASE_CODES, 'Hairdresser', 'T. Okoro', ...onsets]) expect(full).toContain(word)
})

test('[RPT8] no room is left, not in a place, a plan, a drawing or a text', () => {
  expect(rooms.length).toBeGreaterThan(20)
  for (const room of rooms) {
    expect(redacted).not.toContain(`${room} shower`)
    expect(redacted).not.toContain(`${room} basin tap`)
    expect(redacted.toLowerCase()).not.toContain(`room ${room}`)
    expect(redacted).not.toContain(`>${room}<`)
  }
  expect(full).toContain('605 shower')
  expect(full).toContain('>605<')
})

test('[RPT8] workers appear by role, cases are counted by month', () => {
  expect(redacted).toContain('laboratory reception')
  expect(redacted).toContain('"courier"')
  const cases = JSON.stringify(modelOf('redacted').sections.find(({ id }) => id === 'cases'))
  expect(cases).toContain('February 2026')
  expect(cases).toContain('January 2026')
})

test('[RPT8] nothing tells which points a case was the reason for', () => {
  const plan = JSON.stringify(modelOf('redacted').sections.find(({ id }) => id === 'plan')?.blocks)
  expect(plan).toMatch(/case exposure \d+/)
  expect(plan).not.toContain('Used by')
  expect(plan).not.toContain('Why it is in')
})

test('[RPT9] it says what was taken out and keeps findings, counts and entry numbers', () => {
  const [whole, bare] = [modelOf('full'), modelOf('redacted')]
  expect(whole.takenOut).toEqual([])
  expect(bare.takenOut.length).toBeGreaterThan(4)
  const rowsIn = (model: ReportModel, id: string) =>
    model.sections
      .filter((section) => section.id === id)
      .flatMap(({ blocks }) => blocks.flatMap((block) => (block.block === 'table' ? block.rows : [])))
  for (const id of ['results', 'findings', 'follow-up', 'custody'])
    expect(rowsIn(bare, id).map(({ entries }) => entries)).toEqual(rowsIn(whole, id).map(({ entries }) => entries))
  expect(bare.header.head).toEqual(whole.header.head)
})

test.each([
  ['MH-01 washed in Room 605.', '[withheld] washed in [withheld].'],
  ['mh-01 and MH-010', '[withheld] and MH-010'],
  ['Vale said so', '[withheld] said so'],
  ['the vale below', 'the vale below'],
  ['flat 12b was closed', 'flat [withheld] was closed'],
  ['605 CFU/L is a count', '[withheld] CFU/L is a count'],
  ['Okoro’s note', '[withheld]’s note'],
  ['Riser C at 55 °C', 'Riser C at 55 °C'],
])('[RPT8] "%s" becomes "%s"', (text, bare) => {
  expect(withheld(text, privateTerms(state))).toBe(bare)
})

test('[RPT8] a code or name that only an amended or withdrawn version held is withheld too', () => {
  const { make } = entryMaker(FIXTURE_ID)
  const body = { classification: 'probable', link: 'not judged', isolate: 'not known' } as const
  const first = make('case.recorded', { code: 'QH-7', ...body })
  const then = make('case.recorded', { code: 'QH-8', ...body }, { entry: first.id, reason: 'mistyped' })
  const terms = privateTerms(derive(FIXTURE_ID, [first, then]))
  expect(withheld('QH-7 is QH-8', terms)).toBe('[withheld] is [withheld]')
})

test('[RPT8] an office is withheld as a whole, its words are words like any other', () => {
  const { make } = entryMaker(FIXTURE_ID)
  const body = { headSequence: 1, headHash: 'a'.repeat(64), sha256: 'b'.repeat(64), variant: 'full' } as const
  const terms = privateTerms(derive(FIXTURE_ID, [make('report.issued', { ...body, issuedTo: 'the health board' })]))
  expect(withheld('Sent to the health board of the county.', terms)).toBe('Sent to [withheld] of the county.')
})

test('[RPT8] characters that mean something in a search pattern are plain in a name', () => {
  const { make } = entryMaker(FIXTURE_ID)
  const opened = make('investigation.opened', { title: 'x', setting: 'other', openedOn: '2026-03-02', reason: 'x' })
  const terms = privateTerms(derive(FIXTURE_ID, [{ ...opened, author: 'A. (B) *C [D' }]))
  expect(withheld('seen by A. (B) *C [D today', terms)).toBe('seen by [withheld] today')
})

test('[RPT8] what a second account alone holds is withheld too, and the name of a device', () => {
  const { make } = entryMaker(FIXTURE_ID)
  const second = make('case.recorded', {
    code: 'Q77',
    classification: 'probable',
    link: 'not judged',
    isolate: 'not known',
  })
  const contested = make('entry.contested', {
    entry: { ...second, author: 'M. Quill' },
    issues: [{ path: 'body.code', expected: 'x', received: 'y' }],
    against: [],
  })
  const joined = make('device.joined', { name: 'Device of P. Marsh', role: 'lead', key: testKey('desk').key })
  const terms = privateTerms(derive(FIXTURE_ID, [joined, contested]))
  expect(withheld('Q77 by M. Quill on Device of P. Marsh', terms)).toBe(`${WITHHELD} by ${WITHHELD} on ${WITHHELD}`)
})
