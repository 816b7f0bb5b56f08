import { neutralizerCheck } from '@rillmark/casebook/fieldwork/neutralizer-check.ts'
import { timeToThreshold } from '@rillmark/casebook/fieldwork/steady.ts'
import residual from '@rillmark/reference/fieldwork/residual.json' with { type: 'json' }
import temperature from '@rillmark/reference/fieldwork/temperature.json' with { type: 'json' }
import { describe, expect, it } from 'vitest'

/** 2 × 35.453 g/mol: atomic weight of chlorine as tabulated for water treatment. seen */
const CHLORINE_G_PER_MOL = 70.906

// US CDC, Sampling Procedure and Potential Sampling Sites: 0.5 mL of 0.1 N thiosulfate in a 1 L bottle. seen
const DOSE = { solutionNormality: 0.1, solutionVolumeMl: 0.5 }
const check = (value: number, sampleVolumeMl = 1000) =>
  neutralizerCheck({
    dose: DOSE,
    sampleVolumeMl,
    residual: { kind: 'value', value, unit: 'mg/L' },
    residualKind: 'total-chlorine',
    on: '2026-03-04',
  })

describe('neutralizer dose: 2 thiosulfate to 1 chlorine, the iodometric reaction (balance seen; products from general chemistry)', () => {
  const capacityMgPerL = 0.05 * 0.5 * CHLORINE_G_PER_MOL

  it('0.5 mL of 0.1 N covers 1.77 mg/L in 1 L (computed)', () => {
    expect(capacityMgPerL).toBeCloseTo(1.77, 2)
    expect(check(1).capacityMgPerL).toBeCloseTo(capacityMgPerL, 10)
    expect([check(1.77).covers, check(1.78).covers]).toEqual(['covered', 'short'])
  })

  it('1.13 mL of 0.0250 N a milligram of chlorine: a chemical supplier’s support note TE213, 2017. seen, secondary', () => {
    const perMg = neutralizerCheck({
      dose: { solutionNormality: 0.025, solutionVolumeMl: 1 },
      sampleVolumeMl: 1000,
      residual: { kind: 'value', value: 1, unit: 'mg/L' },
      residualKind: 'free-chlorine',
      on: '2026-03-04',
    })
    // two decimals, as the note prints it
    expect(perMg.requiredVolumeMl?.toFixed(2)).toBe('1.13')
  })

  it('half the bottle, twice the residual covered (computed)', () =>
    expect(check(3, 500).capacityMgPerL).toBeCloseTo(2 * capacityMgPerL, 10))
})

describe('temperatures at an outlet: UK L8 and HSG274 Part 2 as restated on a secondary page. seen, secondary', () => {
  const at = (...points: [number, number][]) => points.map(([seconds, temperatureC]) => ({ seconds, temperatureC }))

  it.each([
    ['50 °C at 1 min', at([0, 20], [60, 50]), 'hot-temperature', 'met'],
    ['49.9 °C at 1 min', at([0, 20], [60, 49.9]), 'hot-temperature', 'not reached'],
    ['50 °C at 70 s', at([0, 20], [70, 50]), 'hot-temperature', 'late'],
    ['below 20 °C at 2 min', at([0, 24], [120, 19.9]), 'cold-temperature', 'met'],
    ['20 °C at 2 min', at([0, 24], [120, 20]), 'cold-temperature', 'not reached'],
  ] as const)('%s', (_, points, quantity, kind) => expect(timeToThreshold([...points], quantity)?.kind).toBe(kind))

  it('says of each figure that it was seen, and of our own rule of steadiness that it has no source', () => {
    const { thresholds, steady } = temperature
    const published = Object.values(thresholds).flatMap((threshold) => [threshold.temperature, threshold.within])
    expect(published.map(({ known }) => known)).toEqual(['seen', 'seen', 'seen', 'seen'])
    for (const figure of Object.values(steady))
      expect(figure).toMatchObject({ source: 'common practice, no source', known: 'memory' })
  })
})

it('the kit reads below 2 and up to 10 mg/L: US CDC, Sampling Procedure and Potential Sampling Sites. seen', () => {
  expect(residual.kit.lowBelow).toMatchObject({ value: 2, known: 'seen' })
  expect(residual.kit.readsUpTo).toMatchObject({ value: 10, known: 'seen' })
  expect(residual.kit.coarsestStep.known).toBe('memory')
})
