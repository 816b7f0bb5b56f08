import { expect, test } from 'vitest'
import type { ResultValue } from '../units/result-value.ts'
import { disagreeingDuplicates } from './duplicate-pairs.ts'
import { below, collected, count, labelOf, make, stateOf } from './findings.fixture.ts'
import { headline } from './headline.ts'
import { sampleRows } from './sample-rows.ts'

/** A bulk sample and its duplicate at one stop with these results; the volume tells the colonies. */
function pair({ values, volumeMl }: { values: readonly [ResultValue, ResultValue]; volumeMl?: number }) {
  const reports = values.map((value, index) =>
    make('result.reported', {
      label: labelOf(index + 1),
      laboratory: 'Q',
      method: 'culture',
      target: 'Legionella',
      status: 'final',
      value,
      ...(volumeMl === undefined ? {} : { volumeExaminedMl: volumeMl }),
    }),
  )
  return stateOf(
    collected(1, { component: 'shower-A1', sampleKind: 'bulk-hot' }),
    collected(2, { component: 'shower-A1', sampleKind: 'duplicate' }),
    ...reports,
  )
}

// Allowed differences: 2·sqrt(0.18861·(1/n + 1/m)) by ISO/TS 19036:2006/Amd 1:2009 (computed); 10 mL
// examined, so that 100 CFU/L are one colony. The 0.5 and 1.0 log10 are common practice, no source.
test.each([
  ['[FND14] 5 and 40 colonies: 0.90 apart, 0.41 allowed by counting, so half a log10', [500, 4000], 10, 0.5],
  ['[FND14] 2 and 9 colonies: 0.65 apart, 0.68 allowed by counting', [200, 900], 10, undefined],
  ['[FND14] 2 and 10 colonies: 0.70 apart, 0.67 allowed by counting', [200, 1000], 10, 0.67],
  ['[FND14] 200 and 400 colonies: 0.30 apart is less than is ever remarked', [20_000, 40_000], 10, undefined],
  ['[FND14] colonies not known: 0.9 apart', [500, 4000], undefined, undefined],
  ['[FND14] colonies not known: 1.2 apart', [500, 8000], undefined, 1],
] as const)('%s', (_title, [a, b], volumeMl, allowed) => {
  const state = pair({ values: [count(a), count(b)], ...(volumeMl === undefined ? {} : { volumeMl }) })
  const found = disagreeingDuplicates(sampleRows(state))
  expect(found.map(({ allowedLog10 }) => Number(allowedLog10.toFixed(2)))).toEqual(
    allowed === undefined ? [] : [allowed],
  )
})

test('[FND14] a result below its limit stands at the limit, as one colony', () => {
  const apart = disagreeingDuplicates(sampleRows(pair({ values: [below, count(1500)], volumeMl: 10 })))
  expect(apart[0]?.words).toContain('at least 1.2 log10')
  expect(disagreeingDuplicates(sampleRows(pair({ values: [below, count(700)], volumeMl: 10 })))).toEqual([])
  expect(
    disagreeingDuplicates(sampleRows(pair({ values: [{ kind: 'below', limit: 10_000, unit: 'CFU/L' }, count(200)] }))),
  ).toEqual([])
})

test('[FND14] what can’t be compared is not', () => {
  const swab: ResultValue = { kind: 'count', value: 3, unit: 'CFU/swab' }
  for (const other of [swab, { kind: 'overgrown' }, { kind: 'detected' }] as const)
    expect(disagreeingDuplicates(sampleRows(pair({ values: [count(9000), other] })))).toEqual([])
})

test('[FND14] the remark is among the facts and lights up both samples', () => {
  const facts = headline(sampleRows(pair({ values: [count(500), count(8000)] }))).facts
  expect(facts.find(({ words }) => words.includes('its duplicate'))?.labels).toEqual([labelOf(1), labelOf(2)])
})
