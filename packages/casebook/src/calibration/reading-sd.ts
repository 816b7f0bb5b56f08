import { FITTING } from './figures.ts'

/** How far an instrument in ordinary hands is off: a fixed amount for temperatures; for residuals an amount and a share, whichever is more. */
export function readingSd({ quantity, value }: { quantity: 'temperature' | 'residual'; value: number }): number {
  if (quantity === 'temperature') return FITTING.thermometerSdC
  return Math.max(FITTING.residualSdMgPerL, FITTING.residualSdShare * value)
}
