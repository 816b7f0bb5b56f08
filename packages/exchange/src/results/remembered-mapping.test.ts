import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { mappingIssues, readRows } from './read-rows.ts'
import { readTable } from './read-table.ts'
import { proposeMapping } from './remembered-mapping.ts'

async function tableOf(csv: string) {
  const read = await readTable({ name: 'a.csv', bytes: new TextEncoder().encode(csv) })
  const table = read.ok ? read.tables[0] : undefined
  if (table === undefined) throw new TypeError('no table')
  return table
}

const GERMAN =
  'Probennummer;Entnahmestelle;Probenahme;Ergebnis;Einheit;Nachweisgrenze;Spezies;Temperatur\nMRH-1;Dusche 604;02.03.2026;1,5;KBE/ml;0,1;L. pneumophila;41,2\nMRH-2;Dusche 304;02.03.2026;n.n.;KBE/ml;0,1;;44,6\n'
const state = derive('marram-house', [])

test('[RES18] columns are guessed from headings in several languages, dates and decimals from what stands below', async () => {
  const table = await tableOf(GERMAN)
  const { mapping, from } = proposeMapping(table, { results: state.results })
  expect(from).toBeUndefined()
  expect(mapping).toMatchObject({
    decimal: 'comma',
    dateOrder: 'day-month-year',
    columns: {
      label: 'Probennummer',
      place: 'Entnahmestelle',
      collectedOn: 'Probenahme',
      unit: 'Einheit',
      limit: 'Nachweisgrenze',
      species: 'Spezies',
      temperatureC: 'Temperatur',
    },
    results: [{ column: 'Ergebnis', method: 'culture' }],
  })
  const [first, second] = readRows(table, mapping)
  expect(first).toMatchObject({
    row: 2,
    label: 'MRH-1',
    place: 'Dusche 604',
    collectedOn: '2026-03-02',
    temperatureC: 41.2,
    species: 'L. pneumophila',
  })
  expect(first?.results[0]?.reading).toEqual({
    kind: 'value',
    value: { kind: 'count', value: 1.5, unit: 'CFU/mL' },
    remarks: [],
  })
  expect(second?.results[0]?.reading).toMatchObject({ value: { kind: 'not-detected', limit: 0.1, unit: 'CFU/mL' } })
  expect(first?.asWritten['Ergebnis']).toBe('1,5')
})

test('[RES18] what is missing of a mapping is told all at once', async () => {
  const table = await tableOf(GERMAN)
  const issues = mappingIssues(table, { columns: { unit: 'Units' }, decimal: 'point', dateOrder: 'year-month-day' })
  expect(issues.map(({ path }) => path)).toEqual(['unit', 'results', 'columns.label'])
})

test('[RES19] a laboratory’s columns are remembered from its last file', async () => {
  const table = await tableOf(GERMAN)
  const mapping = {
    columns: { label: 'Probennummer', notes: 'Spezies' },
    decimal: 'comma' as const,
    dateOrder: 'day-month-year' as const,
    results: [{ column: 'Ergebnis', method: 'PCR' as const, unit: 'GU/L' as const }],
  }
  const { make } = entryMaker('marram-house')
  const imported = make('results.imported', {
    fileName: 'march.csv',
    sha256: 'b'.repeat(64),
    laboratory: 'Quillhaven Water Laboratory',
    mapping,
    rows: 0,
    accepted: 0,
    setAside: [],
  })
  const { results } = derive('marram-house', [imported])
  expect(proposeMapping(table, { results })).toEqual({
    mapping,
    from: { fileName: 'march.csv', laboratory: 'Quillhaven Water Laboratory' },
  })
  expect(proposeMapping(table, { results, laboratory: 'another' }).from).toBeUndefined()
  expect(proposeMapping(await tableOf('A;B\n1;2\n'), { results }).from).toBeUndefined()
})

test('[RES20] a temperature that became a date is left out and told', async () => {
  const table = await tableOf('Sample,Temp,CFU/L\nA,29-Mar,12\n')
  const [row] = readRows(table, proposeMapping(table, { results: state.results }).mapping)
  expect(row?.temperatureC).toBeUndefined()
  expect(row?.remarks[0]?.words).toContain('29.3 °C')
})

test('[RES10] labels made of row numbers begin with the name of their file, so that two files never name one sample', async () => {
  const table = await tableOf('row,CFU/L\n1,12\n2,30\n')
  const { mapping } = proposeMapping(table, { results: state.results, fileName: 'facility 2025.csv' })
  expect(readRows(table, mapping).map(({ label }) => label)).toEqual(['facility 2025 1', 'facility 2025 2'])
})
