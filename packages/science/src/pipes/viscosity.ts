import table from '@rillmark/reference/water/viscosity.json' with { type: 'json' }

/** The range of the table (°C). */
export const viscosityRangeC = {
  lower: Math.min(...table.rows.map((row) => row.temperatureC)),
  upper: Math.max(...table.rows.map((row) => row.temperatureC)),
}

/**
 * Kinematic viscosity of water (mm²/s) at a temperature.
 *
 * Linear in the logarithm between the rows of `reference/water/viscosity.json`; off by less than 1 %.
 *
 * @param temperatureC within the table, 5 to 80 °C
 * @throws RangeError outside the table
 * @source iapws
 * @example
 * kinematicViscosityMm2PerS(20) // => 1.0034
 */
export function kinematicViscosityMm2PerS(temperatureC: number): number {
  const above = table.rows.find((row) => row.temperatureC >= temperatureC)
  const below = table.rows.findLast((row) => row.temperatureC <= temperatureC)
  if (above === undefined || below === undefined) {
    throw new RangeError(
      `Cannot tell the viscosity because the table holds ${viscosityRangeC.lower} to ${viscosityRangeC.upper} °C: got ${temperatureC}`,
    )
  }
  if (above === below) return above.kinematicMm2PerS
  const part = (temperatureC - below.temperatureC) / (above.temperatureC - below.temperatureC)
  return below.kinematicMm2PerS * (above.kinematicMm2PerS / below.kinematicMm2PerS) ** part
}
