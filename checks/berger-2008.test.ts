import { readFileSync } from 'node:fs'
import { countSummary } from '@rillmark/casebook/findings/count-summary.ts'
import { positivity } from '@rillmark/casebook/findings/positivity.ts'
import { sampleRows } from '@rillmark/casebook/findings/sample-rows.ts'
import type { RowDecision } from '@rillmark/casebook/results/accept.ts'
import type { ReviewedRow } from '@rillmark/casebook/results/review.ts'
import { beforeAll, describe, expect, test } from 'vitest'
import { importPublished } from './import-file.ts'

/**
 * Berger 2008, report on hot water in Zurich: 38 rows, hot water flushed until steady, 1 L, limit of quantification 100 CFU/L (seen in a
 * compiled data set). Rows 21–25 nearly repeat rows 15–19: outlet names changed, one PCR value 29,200 against 29,600.
 */
const berger = (decide: (row: ReviewedRow) => RowDecision) =>
  importPublished({
    name: 'berger2008_hotwater.csv',
    laboratory: 'laboratory of the report',
    takenBy: 'Berger 2008',
    adjust: (guess) => ({
      ...guess,
      labelPrefix: 'row',
      results: (guess.results ?? []).map((column) =>
        column.method === 'culture' ? { ...column, limit: 100 } : column,
      ),
    }),
    decide,
  })

const KEEP = () => ({ action: 'accept' as const, reason: 'kept to compare with the rows as printed' })
const DROP = () => ({ action: 'set aside' as const, reason: 'repeats earlier rows of the file' })

let kept: Awaited<ReturnType<typeof berger>>
let dropped: Awaited<ReturnType<typeof berger>>
beforeAll(async () => {
  kept = await berger(KEEP)
  dropped = await berger(DROP)
})

test('[RES21] the columns are guessed, with a label made of the row number', () => {
  expect(kept.guess).toMatchObject({
    columns: { place: 'outlet', temperatureC: 'temp_C' },
    labelFrom: ['row'],
    decimal: 'point',
    results: [
      { column: 'Lp_cfu_L', method: 'culture', unit: 'CFU/L' },
      { column: 'Lp_gc_L', method: 'PCR', unit: 'GU/L' },
    ],
  })
})

test('[RES21] rows 21–25 are caught as a repeat of rows 15–19, and nothing else is', () => {
  const repeats = kept.review.rows.filter(({ reasons }) => reasons.some(({ trap }) => trap === 'near repeat'))
  expect(repeats.map(({ label }) => label)).toEqual(['row 21', 'row 22', 'row 23', 'row 24', 'row 25'])
  // the file has a heading in row 1, so data row 15 is row 16 of the file
  expect(repeats[1]?.reasons[0]?.words).toContain('those of row 17; rows 22 to 26 repeat a block from row 16')
  expect(kept.review.counts).toEqual({ matched: 33, attention: 5, 'set aside': 0 })
})

test('[RES21] all ten LOD rows stay below 100 CFU/L, none becomes zero or half', () => {
  const culture = kept.state.results.results.filter(({ body }) => body.method === 'culture')
  expect(culture).toHaveLength(38)
  const below = culture.filter(({ body }) => body.value.kind === 'below')
  // counted by eye in the table: rows 6, 10–14, 29–31, 37
  expect(below.map(({ body }) => body.label)).toEqual(
    [6, 10, 11, 12, 13, 14, 29, 30, 31, 37].map((row) => `row ${row}`),
  )
  expect(
    below.every(({ body }) => body.value.kind === 'below' && body.value.limit === 100 && body.value.unit === 'CFU/L'),
  ).toBe(true)
  expect(below[0]?.body.asWritten).toMatchObject({ Lp_cfu_L: 'LOD' })
  expect(culture.some(({ body }) => body.halfLimitSuspected === true)).toBe(false)
})

test('[RES21] a missing temperature stays missing', () => {
  const missing = [...kept.state.results.registered.values()].filter(({ body }) => body.temperatureC === undefined)
  expect(missing.map(({ body }) => body.label)).toEqual([29, 30, 31, 37].map((row) => `row ${row}`))
})

describe('[FND2] positivity by temperature band', () => {
  /**
   * The report prints no such table, so the bands are counted here separately and plainly from the file's lines (computed): the split of
   * each line at its commas, and nothing of the import.
   */
  const counted = (lines: readonly (readonly string[])[]) => {
    const bands: Record<string, [number, number]> = {}
    for (const [, , temperature = '', cfu] of lines) {
      const t = Number(temperature)
      const band =
        temperature === '-'
          ? 'none'
          : t < 20
            ? 'below-20'
            : t < 25
              ? '20-25'
              : t < 45
                ? '25-45'
                : t < 50
                  ? '45-50'
                  : t < 55
                    ? '50-55'
                    : t < 60
                      ? '55-60'
                      : '60-up'
      const [positive, total] = bands[band] ?? [0, 0]
      bands[band] = [positive + (cfu === 'LOD' ? 0 : 1), total + 1]
    }
    return bands
  }
  const lines = readFileSync(new URL('data/berger2008_hotwater.csv', import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => line.split(','))
  const derived = (state: typeof kept.state) =>
    Object.fromEntries(
      positivity(sampleRows(state), 'temperature').map(({ key, positive, total }) => [key, [positive, total]]),
    )

  test('all rows as printed', () => {
    expect(derived(kept.state)).toEqual(counted(lines))
  })
  test('without the repeated rows', () => {
    expect(derived(dropped.state)).toEqual(counted(lines.filter(([row]) => Number(row) < 21 || Number(row) > 25)))
    expect(dropped.state.results.imports[0]?.body.setAside).toHaveLength(5)
  })
  test('the bands counted by hand from the table: 15 of 16 warm ones without the repeats', () => {
    // 25 to below 45 °C without rows 21–25: rows 6, 7, 8, 9, 15–20, 32–36, 38 = 16; only row 6 is LOD
    expect(derived(dropped.state)['25-45']).toEqual([15, 16])
    // 55 °C and above: rows 11, 12, 13, all LOD
    expect(derived(dropped.state)['55-60']).toEqual([0, 2])
    expect(derived(dropped.state)['60-up']).toEqual([0, 1])
  })
})

test('[FND3] counts and PCR keep their own units and are never mixed', () => {
  const rows = sampleRows(dropped.state)
  expect(countSummary(rows, { method: 'culture', unit: 'CFU/L' })).toMatchObject({
    samples: 33,
    below: 10,
    max: 14_800,
    leftOut: 0,
  })
  expect(countSummary(rows, { method: 'PCR', unit: 'CFU/L' })).toMatchObject({ samples: 0, leftOut: 33 })
})
