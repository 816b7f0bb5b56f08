import { describe, expect, it } from 'vitest'
import {
  type ResultValue,
  isDetected,
  isInterpretable,
  limitCfuPerLOf,
  resultValueSchema,
  unitOf,
} from './result-value.ts'

const rows: [ResultValue, { detected: boolean; interpretable: boolean; limitCfuPerL?: number }][] = [
  [
    { kind: 'count', value: 12, unit: 'CFU/mL' },
    { detected: true, interpretable: true },
  ],
  [
    { kind: 'count', value: 12, unit: 'CFU/100 mL' },
    { detected: true, interpretable: true },
  ],
  [
    { kind: 'count', value: 12, unit: 'GU/L' },
    { detected: true, interpretable: true },
  ],
  [
    { kind: 'count', value: 12, unit: 'MPN/L' },
    { detected: true, interpretable: true },
  ],
  [
    { kind: 'count', value: 12, unit: 'CFU/swab' },
    { detected: true, interpretable: true },
  ],
  [
    { kind: 'below', limit: 100, unit: 'CFU/L' },
    { detected: false, interpretable: true, limitCfuPerL: 100 },
  ],
  [
    { kind: 'above', limit: 300, unit: 'CFU/mL' },
    { detected: true, interpretable: true, limitCfuPerL: 300_000 },
  ],
  [
    { kind: 'not-detected', volumeMl: 1000 },
    { detected: false, interpretable: true },
  ],
  [
    { kind: 'not-detected', limit: 1, unit: 'CFU/100 mL' },
    { detected: false, interpretable: true, limitCfuPerL: 10 },
  ],
  [{ kind: 'detected' }, { detected: true, interpretable: true }],
  [{ kind: 'overgrown' }, { detected: false, interpretable: false }],
  [{ kind: 'broken' }, { detected: false, interpretable: false }],
  [
    { kind: 'not-tested', reason: 'bottle lost' },
    { detected: false, interpretable: false },
  ],
]

describe('result values', () => {
  it.each(rows)('[UNI4] %j is told apart', (value, want) => {
    expect(resultValueSchema.parse(value)).toEqual(value)
    expect(isDetected(value)).toBe(want.detected)
    expect(isInterpretable(value)).toBe(want.interpretable)
    expect(limitCfuPerLOf(value)).toBe(want.limitCfuPerL)
  })

  it.each([
    { kind: 'count', value: 0, unit: 'CFU/L' },
    { kind: 'count', value: Number.NaN, unit: 'CFU/L' },
    { kind: 'count', value: 4, unit: 'CFU' },
    { kind: 'below', limit: 0, unit: 'CFU/L' },
    { kind: 'not-detected', limit: 10 },
    { kind: 'not-tested', reason: ' ' },
    { kind: 'negative' },
  ])('[UNI4] %j is refused', (value) => {
    expect(resultValueSchema.safeParse(value).success).toBe(false)
  })

  it('gives the unit where there is one', () => {
    expect(unitOf({ kind: 'below', limit: 1, unit: 'GU/L' })).toBe('GU/L')
    expect(unitOf({ kind: 'broken' })).toBeUndefined()
  })
})
