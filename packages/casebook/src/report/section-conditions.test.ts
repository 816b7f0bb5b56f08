import { expect, test } from 'vitest'
import { US_UNITS } from '../units/display-units.ts'
import { derive } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { conditionsSection } from './section-conditions.ts'
import { type ReportOptions, reportContext } from './context.ts'
import { dayOfRecord } from './day-of-record.ts'
import type { Block, Row, Section } from './model.ts'
import { FIXTURE_ID, reportEntries } from './report.fixture.ts'
import { reportModel } from './report-model.ts'

const entries = reportEntries({ samples: 20, rounds: 1 })
const state = derive(FIXTURE_ID, entries)
const optionsOf = (of: InvestigationState, more: Partial<ReportOptions> = {}): ReportOptions => ({
  head: { sequence: of.record.entries.length, hash: 'a'.repeat(64) },
  variant: 'full',
  today: dayOfRecord(of),
  ...more,
})
function sectionOf(of: InvestigationState, more: Partial<ReportOptions> = {}): Section {
  const section = conditionsSection(reportContext(of, optionsOf(of, more)))
  if (section === undefined) throw new TypeError('no section')
  return section
}
const tablesOf = (section: Section, caption: RegExp): readonly Row[] =>
  section.blocks.flatMap((block) => (block.block === 'table' && caption.test(block.caption) ? block.rows : []))
const cellsOf = (row: Row | undefined) => row?.cells.map((cell) => (typeof cell === 'string' ? cell : cell.text))
const saidIn = (blocks: readonly Block[]) => JSON.stringify(blocks)
const section = sectionOf(state)
const numberOf = (kind: string) => entries.findIndex((entry) => entry.kind === kind) + 1

test('[RPT15] the lists, the layer, what was filled in, the balance and the caution stand there, with the entry', () => {
  const rows = tablesOf(section, /look at first/)
  const coldest = rows.find(({ cells }) => cellsOf({ cells, entries: [] })?.[0] === 'Warmest cold')
  expect(cellsOf(coldest)).toEqual([
    'Warmest cold',
    '403 basin tap',
    'cold',
    '21.0 °C',
    '21.0 to 27.0 °C',
    expect.any(String),
  ])
  const oldest = rows.find(({ cells }) => cellsOf({ cells, entries: [] })?.[0] === 'Oldest')
  expect(cellsOf(oldest)).toEqual([
    'Oldest',
    '307 kitchen tap',
    'hot',
    'at least 720 h',
    '',
    expect.stringContaining('no water moves'),
  ])
  for (const row of rows) expect(row.entries).toEqual([numberOf('prediction.recorded')])
  expect(cellsOf(tablesOf(section, /Filled in/)[0])).toEqual([
    expect.stringContaining('22 °C'),
    '18 to 27 °C',
    expect.any(String),
  ])
  expect(section.blocks.filter(({ block }) => block === 'figure')).toHaveLength(2)
  const said = saidIn(section.blocks)
  for (const words of [
    'Computed, not measured',
    'screening model',
    'less than 0.001 %',
    'seed 1',
    'after 3 days',
    'nothing is known of its hose',
  ])
    expect(said).toContain(words)
  expect(said).not.toContain('speaks of the building as it was described then')
  const facts = section.blocks.flatMap((block) => (block.block === 'facts' ? block.facts : []))
  expect(facts.find(({ name }) => name === 'Made of')?.entries).toEqual([numberOf('building.described')])
})

test('[RPT15] after an edit of the building the section says that it speaks of the building as it was', () => {
  const { make } = entryMaker(FIXTURE_ID, { device: 'late', startAt: '2026-05-01T08:00:00.000Z' })
  const edited = make('building.edited', { changes: [{ change: 'set-name', name: 'Marram Court' }] })
  expect(saidIn(sectionOf(derive(FIXTURE_ID, [...entries, edited])).blocks)).toContain(
    'speaks of the building as it was described then',
  )
})

test('[RPT15] it follows the units of the reader, and cites how it was worked out', () => {
  const us = sectionOf(state, { units: US_UNITS })
  expect(saidIn(us.blocks)).toContain('69.8 °F')
  const method = reportModel(state, optionsOf(state)).sections.find(({ id }) => id === 'method')
  expect(saidIn(method?.blocks ?? [])).toContain('The growth index follows')
  const without = derive(
    FIXTURE_ID,
    entries.filter(({ kind }) => kind !== 'prediction.recorded'),
  )
  expect(conditionsSection(reportContext(without, optionsOf(without)))).toBeUndefined()
  expect(saidIn(reportModel(without, optionsOf(without)).sections.flatMap(({ blocks }) => blocks))).not.toContain(
    'Predicted conditions',
  )
})

test('[RPT8] the redacted variant gives predicted places by kind, riser and floor', () => {
  const redacted = sectionOf(state, { variant: 'redacted' })
  const said = saidIn(redacted.blocks)
  for (const words of ['403 basin tap', 'shower-c605', 'ice-machine-a101', 'J. Brandt'])
    expect(said).not.toContain(words)
  expect(cellsOf(tablesOf(redacted, /look at first/)[0])?.[1]).toMatch(/^basin tap \d+, riser B, floor 4$/)
})

test('[RPT15] what the guesses move is told where it was worked out', () => {
  const effects = [
    {
      input: 'ambientC',
      text: 'Air: 22 °C',
      output: 'cold-warmest' as const,
      baseline: 24.4,
      atLower: 21,
      atUpper: 29.5,
    },
  ]
  const told = derive(
    FIXTURE_ID,
    entries.map((entry) =>
      entry.kind === 'prediction.recorded' ? { ...entry, body: { ...entry.body, effects } } : entry,
    ),
  )
  expect(cellsOf(tablesOf(sectionOf(told), /assumptions move/)[0])).toEqual([
    'warmest cold water at an outlet',
    'Air: 22 °C',
    '24.4 °C',
    '21 °C',
    '29.5 °C',
  ])
  expect(tablesOf(section, /assumptions move/)).toEqual([])
})

test('[RPT15] a range is told in the reader’s units, shifts of temperature without the offset', () => {
  const assumption = (unit: string) => ({
    id: unit,
    text: 'x',
    unit,
    range: { lower: 0, upper: 5 },
    count: 1,
    source: 's',
  })
  const told = derive(
    FIXTURE_ID,
    entries.map((entry) =>
      entry.kind === 'prediction.recorded'
        ? {
            ...entry,
            body: {
              ...entry.body,
              assumptions: ['°C', 'K added', '1', 'times what is described', 'm/h'].map(assumption),
            },
          }
        : entry,
    ),
  )
  const ranges = tablesOf(sectionOf(told, { units: US_UNITS }), /Filled in/).map((row) => cellsOf(row)?.[1])
  // 5 °C = 41 °F, 5 K = 9 °F: definition of the scale
  expect(ranges).toEqual(['32 to 41 °F', '0 to 9 °F added', '0 to 5', '0 to 5 times what is described', '0 to 5 m/h'])
})
