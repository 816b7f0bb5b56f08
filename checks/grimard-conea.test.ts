import { type CountSummary, countSummary } from '@rillmark/casebook/findings/count-summary.ts'
import { drawPairs } from '@rillmark/casebook/findings/draw-pairs.ts'
import { positivity } from '@rillmark/casebook/findings/positivity.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import { beforeAll, describe, expect, test } from 'vitest'
import { importPublished } from './import-file.ts'

/**
 * Grimard-Conea M., Prévost M.: showers after recommissioning (2022), and a remedial flush against shock chlorination (2023,
 * Microorganisms 11(6):1361). 143 rows, seen in a compiled data set; the value 5 is half of the detection limit of 10 (an inference).
 */
let imported: Awaited<ReturnType<typeof importPublished>>
beforeAll(async () => {
  imported = await importPublished({
    name: 'grimardconea_showers.csv',
    laboratory: 'laboratory of the papers',
    takenBy: 'Grimard-Conea and Prévost',
    adjust: (guess) => ({
      ...guess,
      results: (guess.results ?? []).map((column) =>
        column.method === 'culture' ? { ...column, unit: 'CFU/L' } : column,
      ),
    }),
    decide: ({ row }) => {
      throw new TypeError(`row ${row} waits for a decision`)
    },
  })
})

test('[RES21] a heading that names two kinds of count leaves the unit open; rows are named by set and row together', () => {
  expect(imported.guess.results).toEqual([
    { column: 'Lp_gc_L', method: 'PCR', unit: 'GU/L' },
    { column: 'Lp_mpn_or_cfu_L', method: 'culture' },
  ])
  expect(imported.guess).toMatchObject({ labelFrom: ['set', 'row'], columns: { group: 'set', draw: 'set' } })
})

test('[RES21] the half-limit rows are exactly those the data set marks, kept as the value that was written', () => {
  const culture = imported.state.results.results.filter(({ body }) => body.method === 'culture')
  expect(culture).toHaveLength(143)
  const marked = culture.filter(({ body }) => body.asWritten?.['half_LOD_flag'] === 'y')
  expect(marked).toHaveLength(70)
  expect(culture.filter(({ body }) => body.halfLimitSuspected === true).map(({ body }) => body.label)).toEqual(
    marked.map(({ body }) => body.label),
  )
  expect(
    marked.every(({ body }) => body.value.kind === 'count' && body.value.value === 5 && body.value.unit === 'CFU/L'),
  ).toBe(true)
})

// set | n | below the limit | median | max, as printed with the compiled rows (seen)
const PRINTED = [
  ['2022 first draw, 24 h after recommissioning', 21, 11, 5, 723],
  ['2022 after 5-min flush, 24 h', 21, 16, 5, 264],
  ['2022 first draw, 4 weeks', 20, 3, 126, 30_000],
  ['2022 first draw, 16 weeks stagnation', 21, 4, 474, 30_000],
  ['2022 after 5-min flush, 16 weeks', 21, 13, 5, 22_726],
  ['2023 remedial flush', 14, 7, 10, 501],
  ['2023 shock chlorination', 14, 10, 5, 107],
] as const

/** The two middle values as written, by plain sorting, apart from the summary under test. */
function middles(set: string): [number, number] {
  const values = imported.state.results.results
    .filter(({ body }) => body.method === 'culture' && body.asWritten?.['set'] === set)
    .map(({ body }) => Number(body.asWritten?.['Lp_mpn_or_cfu_L']))
    .sort((a, b) => a - b)
  return [values[Math.ceil(values.length / 2) - 1] ?? Number.NaN, values[Math.floor(values.length / 2)] ?? Number.NaN]
}

test.each(PRINTED)('[FND3] %s: n %d, below %d, median %d, max %d', (set, samples, below, printed, max) => {
  const rows = sampleRows(imported.state).filter(({ group }) => group === set)
  const [low, high] = middles(set)
  // The printed median is the upper of the two middle values; the usual one is their mean. They differ for one set of 14: 5 and 10.
  expect(high).toBe(printed)
  const want: CountSummary = { unit: 'CFU/L', samples, below, median: (low + high) / 2, max, leftOut: 0 }
  expect(countSummary(rows, { method: 'culture', unit: 'CFU/L' })).toEqual(want)
})

describe('[FND2] first draw against flushed', () => {
  test.each<[string, ...[string, number, number][]]>([
    ['24 h', ['2022 first draw, 24 h after recommissioning', 10, 21], ['2022 after 5-min flush, 24 h', 5, 21]],
    ['16 weeks', ['2022 first draw, 16 weeks stagnation', 17, 21], ['2022 after 5-min flush, 16 weeks', 8, 21]],
  ])('%s: fewer positive after running (n less those below the limit, as printed)', (_, ...sets) => {
    const groups = positivity(sampleRows(imported.state), 'group')
    for (const [set, positive, total] of sets)
      expect(groups.find(({ key }) => key === set)).toMatchObject({ positive, total, halfLimit: total - positive })
  })

  test('the draw is read from the words of the set; a remedial flush is a treatment and states no draw', () => {
    const rows = sampleRows(imported.state)
    const draws = new Map(rows.map(({ group, draw }) => [group, draw]))
    expect([...draws]).toEqual([
      ['2022 first draw, 24 h after recommissioning', 'first draw'],
      ['2022 after 5-min flush, 24 h', 'flushed'],
      ['2022 first draw, 4 weeks', 'first draw'],
      ['2022 after 5-min flush, 4 weeks (selected)', 'flushed'],
      ['2022 first draw, 16 weeks stagnation', 'first draw'],
      ['2022 after 5-min flush, 16 weeks', 'flushed'],
      ['2023 remedial flush', 'not stated'],
      ['2023 shock chlorination', 'not stated'],
    ])
  })

  test('[FND4] no pairs are made: row i of one list need not be the shower of row i of another', () => {
    expect(drawPairs(sampleRows(imported.state))).toEqual([])
  })
})
