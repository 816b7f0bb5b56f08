import table from '@rillmark/reference/chlorine/decay.json' with { type: 'json' }
import { KELVIN_AT_ZERO_C } from '../water/kelvin.ts'
import { waterDensityKgPerM3, waterViscosityMPaS } from '../water/liquid-water.ts'

export interface FilmTransport {
  /** How fast chlorine spreads in still water, m²/s. */
  diffusivityM2PerS: number
  kinematicM2PerS: number
}

const FIGURES = table.figures
const PER_MILLI = 1000

/**
 * How fast chlorine and how fast motion spread in water (m²/s), which set the film at a wall.
 * Wanted by the film itself and, as tables over temperature, by the simulation.
 *
 * ν = μ/ρ; D grows with T/μ from 1.2077e-9 m²/s at 20 °C.
 *
 * Special cases: the figure is chlorine's; monochloramine is taken to spread alike.
 *
 * @param temperatureC 0 to 100 °C
 * @throws RangeError outside the range
 * @source epanet-2-2
 * @source stokes-einstein
 * @example
 * filmTransport(20).diffusivityM2PerS // => 1.2077e-9
 */
export function filmTransport(temperatureC: number): FilmTransport {
  const atC = FIGURES.diffusivityAtC.value
  const viscosityMPaS = waterViscosityMPaS(temperatureC)
  const warmth = (temperatureC + KELVIN_AT_ZERO_C) / (atC + KELVIN_AT_ZERO_C)
  return {
    diffusivityM2PerS: FIGURES.diffusivity.value * warmth * (waterViscosityMPaS(atC) / viscosityMPaS),
    kinematicM2PerS: viscosityMPaS / PER_MILLI / waterDensityKgPerM3(temperatureC),
  }
}
