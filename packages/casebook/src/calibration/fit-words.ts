import { componentName } from '../building/labels.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { DisplayUnits } from '../units/display-units.ts'
import { showReckoned } from '../units/display.ts'
import type { Calibration, Ranged } from './calibration.ts'
import type { FieldReading } from './field-reading.ts'

interface InUnits {
  unit: string
  units: DisplayUnits
}

/** Temperatures to a tenth, all else to three digits that count. */
const digitsOf = (value: number, unit: string): number =>
  unit === '°C' || unit === 'K' ? Math.max(1, Math.floor(Math.log10(Math.max(1, Math.abs(value)))) + 2) : 3

/** A fitted figure in the units of the reader: "57.2 °C", "0.85 times". */
export function fittedWords(value: number, { unit, units }: InUnits): string {
  return showReckoned(value, { unit, units, digits: digitsOf(value, unit) }).words
}

/** A fitted figure with its range: "57.2 °C (55.9 to 58.5)". */
export function rangedWords({ value, range }: Ranged, { unit, units }: InUnits): string {
  const [lower, upper] = [range.lower, range.upper].map(
    (edge) => showReckoned(edge, { unit, units, digits: digitsOf(edge, unit) }).text,
  )
  return `${fittedWords(value, { unit, units })} (${lower} to ${upper})`
}

/** What was read and how: "304 shower, hot after 60 s". */
export function readingPlace(system: WaterSystem, { component, circuit, quantity, seconds }: FieldReading): string {
  const part = system.components.find(({ id }) => id === component)
  const water = circuit === 'hot-return' ? 'return' : circuit
  const when = seconds === undefined ? '' : seconds === 0 ? ' at once' : ` after ${seconds} s`
  return `${part === undefined ? component : componentName(part)}, ${water}${quantity === 'residual' ? ' residual' : ''}${when}`
}

/** The unit readings of a quantity are in. */
export const readingUnit = ({ quantity }: Pick<FieldReading, 'quantity'>): string =>
  quantity === 'temperature' ? '°C' : 'mg/L'

/** What the fit comes to, in one sentence. */
export function fitVerdict({ findings, unexplained, inputs, tried }: Calibration): string {
  const [finding] = findings
  if (finding !== undefined) return `Something is not as described: ${finding.words}`
  if (unexplained.length > 0) {
    const count = unexplained.length === 1 ? 'One reading is' : `${unexplained.length} readings are`
    return `${count} not explained, and none of the ${tried.length} reasons tried explains it.`
  }
  if (inputs.some(({ strained }) => strained))
    return 'All readings are explained, but an input had to go further than is likely; none of the reasons tried says why.'
  return 'The readings agree with the building as described, within likely inputs.'
}
