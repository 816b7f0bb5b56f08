import { expect, test } from 'vitest'
import { countReadings, countSummary } from './count-summary.ts'
import { below, collected, count, described, reported, stateOf } from './findings.fixture.ts'
import { sampleRows } from './sample-rows.ts'

const CULTURE = { method: 'culture', unit: 'CFU/L' } as const

test('[FND3] readings are told in one unit, those below a limit at their limit', () => {
  const rows = sampleRows(
    stateOf(
      described,
      ...[1, 2, 3].map((number) => collected(number, {})),
      reported(1, { value: count(2000) }),
      reported(2, { value: below }),
      reported(3, { value: { kind: 'count', value: 3, unit: 'CFU/mL' } }),
    ),
  )
  expect(countReadings(rows, CULTURE).toSorted((a, b) => a.value - b.value)).toEqual([
    { value: 100, limit: true },
    { value: 2000, limit: false },
    { value: 3000, limit: false },
  ])
  expect(countReadings(rows, { ...CULTURE, unit: 'GU/L' })).toEqual([])
  expect(countSummary(rows, CULTURE)).toMatchObject({ samples: 3, below: 1, median: 2000, max: 3000, leftOut: 0 })
})
