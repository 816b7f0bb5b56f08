import bands from '@rillmark/reference/findings/temperature-bands.json' with { type: 'json' }
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { showRange, showTemperature } from '../units/display.ts'

/** A band in which results are compared by the temperature of their water. It describes; it is no criterion. */
export interface TemperatureBand {
  readonly id: string
  readonly from?: number | undefined
  readonly below?: number | undefined
}

export const TEMPERATURE_BANDS: readonly TemperatureBand[] = bands.bands

const GROWTH_BAND_ID = '25-45'

/** The band in which Legionella grows, the one the simulation counts hours in. */
export const GROWTH_BAND: { readonly id: string; readonly from: number; readonly below: number } = growthBand()

function growthBand(): typeof GROWTH_BAND {
  const band = TEMPERATURE_BANDS.find(({ id }) => id === GROWTH_BAND_ID)
  if (band?.from === undefined || band.below === undefined)
    throw new RangeError(`Cannot tell the band of growth because it is not among the bands: got ${GROWTH_BAND_ID}`)
  return { id: band.id, from: band.from, below: band.below }
}

/** The place of the band a temperature lies in, −1 for none. */
export function temperatureBandAt(temperatureC: number): number {
  return TEMPERATURE_BANDS.findIndex(
    ({ from, below }) =>
      temperatureC >= (from ?? Number.NEGATIVE_INFINITY) && temperatureC < (below ?? Number.POSITIVE_INFINITY),
  )
}

/** A band in the reader's unit: `25 to below 45 °C`, `77 to below 113 °F`. */
export function temperatureBandWords({ from, below }: TemperatureBand, units: DisplayUnits = METRIC_UNITS): string {
  if (from === undefined) return `below ${showTemperature(below ?? 0, units).words}`
  if (below === undefined) return `${showTemperature(from, units).words} and above`
  return showRange([from, below], { unit: '°C', units }).replace(' to ', ' to below ')
}
