import { liquidWaterRangeC, waterDensityKgPerM3, waterViscosityMPaS } from '../water/liquid-water.ts'

/** The range of temperatures (°C). */
export const viscosityRangeC = liquidWaterRangeC

/** mPa s over kg/m³ in mm²/s. */
const MM2_PER_S = 1000

/**
 * Kinematic viscosity of water (mm²/s) at a temperature.
 *
 * ν = μ / ρ.
 *
 * @param temperatureC 0 to 100 °C
 * @throws RangeError outside the range
 * @source iapws-sr6-08
 * @example
 * kinematicViscosityMm2PerS(25).toFixed(4) // => "0.8926"
 */
export function kinematicViscosityMm2PerS(temperatureC: number): number {
  return (waterViscosityMPaS(temperatureC) / waterDensityKgPerM3(temperatureC)) * MM2_PER_S
}
