import instruments from '@rillmark/reference/fieldwork/instruments.json' with { type: 'json' }
import residual from '@rillmark/reference/fieldwork/residual.json' with { type: 'json' }
import temperature from '@rillmark/reference/fieldwork/temperature.json' with { type: 'json' }
import type { DisinfectantKind } from '../building/water-system.ts'

/** What fieldwork supposes; each figure's source is in `reference/fieldwork/`. */
export const FIELDWORK = {
  lowResidualMgPerL: residual.kit.lowBelow.value,
  residualUpToMgPerL: residual.kit.readsUpTo.value,
  coarsestStepMgPerL: residual.kit.coarsestStep.value,
  readingEverySeconds: temperature.everySeconds.value,
  readingChoicesSeconds: temperature.everyChoices.value,
  steadyWithinC: temperature.steady.within.value,
  steadyForSeconds: temperature.steady.forSeconds.value,
  steadyPoints: temperature.steady.points.value,
  phFrom: instruments.ph.from.value,
  phUpTo: instruments.ph.upTo.value,
  coarsestPhStep: instruments.ph.coarsestStep.value,
  coarsestThermometerStepC: instruments.thermometer.coarsestStep.value,
} as const

export interface TemperatureThreshold {
  readonly direction: 'at least' | 'below'
  readonly temperatureC: number
  readonly withinSeconds: number
  readonly source: string
}

/** What the hot or the cold water of an outlet is held against, with where that comes from. */
export function thresholdFor(quantity: 'hot-temperature' | 'cold-temperature'): TemperatureThreshold {
  const { direction, temperature: limit, within } = temperature.thresholds[quantity]
  return {
    direction: direction === 'at least' ? 'at least' : 'below',
    temperatureC: limit.value,
    withinSeconds: within.value,
    source: limit.source,
  }
}

export interface ResidualTest {
  readonly quantity: 'free-chlorine' | 'total-chlorine'
  readonly reason: string
}

/** The chlorine test that fits a disinfectant; total where nothing is known of it. */
export function testFor(disinfectant: DisinfectantKind | undefined): ResidualTest {
  const { quantity, reason } = residual.tests[disinfectant ?? 'unknown']
  return { quantity: quantity === 'free-chlorine' ? 'free-chlorine' : 'total-chlorine', reason }
}
