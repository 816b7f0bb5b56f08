import type { DisplayUnits } from '../units/display-units.ts'
import { show } from '../units/display.ts'

/** A quantity in a sentence: a number and a unit of the record that stands alone, so not the W/(m·K) of a conductivity. */
const QUANTITY = /(?<![\d.])(-?\d+(?:\.\d+)?) (°C|L\/min|mm|m|L|K)(?![\w/²³·°])/gu

/**
 * A sentence written by the program in the units of the record, told in those of the reader.
 *
 * @example inReadersUnits('Air around pipes: 22 °C', US_UNITS) // 'Air around pipes: 71.6 °F'
 */
export function inReadersUnits(text: string, units: DisplayUnits): string {
  return text.replaceAll(QUANTITY, (_, value: string, unit: string) =>
    show(Number(value), { unit, units }).words.replace(/ difference$/, ''),
  )
}
