import { expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const { make } = entryMaker('marram-house')
const opened = make('investigation.opened', {
  title: 'Marram House',
  setting: 'hotel',
  openedOn: '2026-03-02',
  reason: 'two cases',
})
const body = {
  variant: 'full',
  headHash: 'a'.repeat(64),
  sha256: 'b'.repeat(64),
  issuedTo: 'the health board',
} as const
const state = derive('marram-house', [opened])

test('[RPT10] a report is issued of the record as it stands', () => {
  expect(checkEntry(state, make('report.issued', { ...body, headSequence: 1 }))).toMatchObject({ ok: true })
  for (const headSequence of [0, 2])
    expect(checkEntry(state, make('report.issued', { ...body, headSequence }))).toMatchObject({
      ok: false,
      issues: [{ path: 'body.headSequence' }],
    })
})

test('[RPT10] there is no report of an empty record', () => {
  const nothing = derive('marram-house', [])
  expect(checkEntry(nothing, make('report.issued', { ...body, headSequence: 0 }))).toMatchObject({ ok: false })
})

test('[RPT11] to whom it went may be set right; bytes, variant and head may not', () => {
  const issued = make('report.issued', { ...body, headSequence: 1 })
  const later = derive('marram-house', [opened, issued])
  const amended = (change: object) =>
    checkEntry(
      later,
      make('report.issued', { ...body, headSequence: 1, ...change }, { entry: issued.id, reason: 'mistyped' }),
    )
  expect(amended({ issuedTo: 'the county health board' })).toMatchObject({ ok: true })
  for (const change of [
    { sha256: 'c'.repeat(64) },
    { headHash: 'c'.repeat(64) },
    { variant: 'redacted' },
    { headSequence: 2 },
  ])
    expect(amended(change)).toMatchObject({ ok: false, issues: [{ path: `body.${Object.keys(change)[0]}` }] })
})
