import type { FieldReading } from './field-reading.ts'
import { FITTING } from './figures.ts'
import type { PredictedReading } from './predicted-readings.ts'

/** How far a reading and its prediction lie apart when nothing is wrong, one standard deviation: instrument, model, who drew last, timing. */
export function differenceSd(
  { quantity, sd }: Pick<FieldReading, 'quantity' | 'sd'>,
  { daySd, timingSd }: Pick<PredictedReading, 'daySd' | 'timingSd'>,
): number {
  const model = quantity === 'temperature' ? FITTING.modelSdC : FITTING.residualSdMgPerL
  return Math.hypot(sd, model, daySd, timingSd)
}
