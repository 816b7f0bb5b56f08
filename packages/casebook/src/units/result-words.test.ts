import { expect, it } from 'vitest'
import { METRIC_UNITS } from './display-units.ts'
import { resultShort, resultWords } from './result-words.ts'

const units = { ...METRIC_UNITS, count: 'per mL' } as const

it.each([
  [{ kind: 'count', value: 12_300, unit: 'CFU/L' }, '12.3 CFU/mL by culture'],
  [{ kind: 'count', value: 12_300, unit: 'CFU/mL' }, '12 300 CFU/mL by culture'],
  [{ kind: 'below', limit: 100, unit: 'CFU/L' }, 'fewer than 0.1 CFU/mL by culture'],
  [{ kind: 'above', limit: 300, unit: 'CFU/mL' }, 'more than 300 CFU/mL by culture'],
  [{ kind: 'not-detected', volumeMl: 1000 }, 'nothing found in 1000 mL by culture'],
  [{ kind: 'not-detected', limit: 10, unit: 'CFU/L' }, 'nothing found by culture, which sees 0.01 CFU/mL and more'],
  [{ kind: 'not-detected' }, 'nothing found by culture, in a volume the laboratory did not state'],
  [{ kind: 'detected' }, 'detected by culture, not counted'],
  [{ kind: 'overgrown' }, 'overgrown: nothing can be said, sample again'],
  [{ kind: 'broken' }, 'bottle broken: nothing can be said, sample again'],
  [{ kind: 'not-tested', reason: 'late' }, 'not tested: late'],
] as const)('[UNI4] %j reads "%s"', (value, want) => {
  expect(resultWords(value, { method: 'culture', units })).toBe(want)
})

it('[UNI4] where the method stands beside it, a result does not name it again', () => {
  expect(resultWords({ kind: 'not-detected', volumeMl: 500 }, {})).toBe('nothing found in 500 mL')
  expect(resultWords({ kind: 'count', value: 3, unit: 'CFU/L' }, {})).toBe('3 CFU/L')
  expect(resultWords({ kind: 'detected' }, {})).toBe('detected, not counted')
})

it('[UNI4] unless told, a result stands in the unit it was reported in', () => {
  expect(resultWords({ kind: 'count', value: 12_300, unit: 'CFU/L' }, { method: 'culture' })).toBe(
    '12 300 CFU/L by culture',
  )
})

it.each([
  [{ kind: 'count', value: 1_160_000, unit: 'GU/mL' }, '1 160 000'],
  [{ kind: 'below', limit: 100, unit: 'CFU/L' }, '<0.1'],
  [{ kind: 'above', limit: 300, unit: 'CFU/mL' }, '>300'],
  [{ kind: 'not-detected', volumeMl: 1000 }, 'not detected'],
  [{ kind: 'not-tested', reason: 'late' }, 'not tested'],
  [{ kind: 'broken' }, 'broken'],
] as const)('[UNI4] %j beside a mark reads "%s"', (value, want) => {
  expect(resultShort(value, units)).toBe(want)
})
