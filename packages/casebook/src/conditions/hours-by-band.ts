import { TEMPERATURE_BANDS, type TemperatureBand, temperatureBandAt } from '../findings/temperature-band.ts'

const HOURS_A_DAY = 24

/** The hours of a day that a curve of temperatures spends in each band, from the coldest band up. */
export function hoursByBand(temperaturesC: ArrayLike<number>): { band: TemperatureBand; hours: number }[] {
  const spans = Array.from(temperaturesC, temperatureBandAt)
  return TEMPERATURE_BANDS.map((band, at) => ({
    band,
    hours: (spans.filter((span) => span === at).length * HOURS_A_DAY) / Math.max(1, spans.length),
  }))
}
