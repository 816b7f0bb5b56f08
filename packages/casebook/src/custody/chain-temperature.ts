import type { DisplayUnits } from '../units/display-units.ts'
import { showRange, showTemperature } from '../units/display.ts'
import type { ChainLine } from './chain-lines.ts'

/** The temperature of a line of the chain in the reader's unit: one reading, or the coldest and warmest of a logger. */
export function chainTemperature(line: ChainLine, units: DisplayUnits): string | undefined {
  if (line.temperatureRangeC !== undefined) return showRange([...line.temperatureRangeC], { unit: '°C', units })
  return line.temperatureC === undefined ? undefined : showTemperature(line.temperatureC, units).words
}
