import table from '@rillmark/reference/heat/air.json' with { type: 'json' }

export interface Air {
  densityKgPerM3: number
  viscosityPaS: number
  conductivityWPerMK: number
  prandtl: number
}

const FIGURES = table.figures

/**
 * Properties of dry air at sea level.
 *
 * μ = β T^1.5 / (T + S); k = κ T^1.5 / (T + 245.4 · 10^(−12/T)); ρ = p M / (R T); Pr = μ cp / k.
 *
 * @param temperatureK above 0 K; the formulas are meant for −100 to 200 °C
 * @source us-standard-atmosphere-1976
 * @example
 * airAt(288.15).densityKgPerM3 // => 1.2249991558877122
 */
export function airAt(temperatureK: number): Air {
  const rise = temperatureK ** 1.5
  const viscosityPaS = (FIGURES.viscosityFactor.value * rise) / (temperatureK + FIGURES.viscosityTemperature.value)
  const pull = FIGURES.conductivityTemperature.value * 10 ** (-FIGURES.conductivityExponent.value / temperatureK)
  const conductivityWPerMK = (FIGURES.conductivityFactor.value * rise) / (temperatureK + pull)
  const gas = FIGURES.gasConstant.value / FIGURES.molarMass.value
  return {
    densityKgPerM3: FIGURES.pressure.value / (gas * temperatureK),
    viscosityPaS,
    conductivityWPerMK,
    prandtl: (viscosityPaS * FIGURES.heatCapacityRatio.value * gas) / conductivityWPerMK,
  }
}
