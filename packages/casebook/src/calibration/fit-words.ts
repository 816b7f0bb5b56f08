import { componentName } from '../building/labels.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { DisplayUnits } from '../units/display-units.ts'
import { counted } from '../units/counted.ts'
import { showReckoned } from '../units/display.ts'
import type { Calibration, InputFit, Ranged } from './calibration.ts'
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

/** What the fit comes to, in a few plain words. */
export function fitVerdict({ findings, unexplained, inputs, tried }: Calibration): string {
  const [finding] = findings
  const count = unexplained.length === 1 ? 'one reading is' : `${unexplained.length} readings are`
  if (finding !== undefined) {
    const left = unexplained.length === 0 ? '' : ` Even so, ${count} not explained.`
    return `Something is not as described: ${finding.words}${left}`
  }
  const none = `None of ${counted(tried.length, 'reason')} tried explains it`
  if (unexplained.length > 0) return `Something is not as described, or was misread: ${count} not explained. ${none}.`
  const strained = inputs.filter((one) => one.strained)
  if (strained.length > 0)
    return `All readings are explained, but something may not be as described. ${strained.map(strainedWords).join(' ')} ${none} better.`
  return 'The readings agree with the building as described, within likely inputs.'
}

/** What to look for where an input had to go further than is likely, by the beginning of its id: above what was believed, and below. */
const LOOK_FOR: Readonly<Record<string, readonly [above: string, below: string]>> = {
  ambientShiftK: [
    'shafts and voids warmer than described',
    'pipes in the cold: a shaft open to outdoors, an unheated void',
  ],
  hotLossFactor: [
    'insulation that is missing, wet or thinner than described',
    'more insulation than described, or shorter pipes',
  ],
  coldLossFactor: ['cold pipes without insulation, or beside hot ones', 'more insulation than described'],
  loopFlow: ['a balancing valve too far open, or a stronger pump', 'a valve nearly closed, air, dirt or a weak pump'],
  setpointC: ['a thermostat set higher than described', 'a thermostat set lower, scale, or a heater too small'],
  supplyTemperatureC: ['a supply warmer than described, or one that stood', 'a supply colder than described'],
  bulkFactor: ['water that consumes more disinfectant, or stands longer', 'water that consumes less disinfectant'],
  wallFactor: ['deposits or biofilm that consume disinfectant', 'cleaner pipes than is usual'],
  supplyResidualMgPerL: [
    'a supply with more disinfectant than described',
    'a supply with less disinfectant than described',
  ],
}

function strainedWords({ id, words, before, after }: InputFit): string {
  const more = after.value > before.value
  const found = Object.entries(LOOK_FOR).find(([begins]) => id.startsWith(begins))?.[1]
  const look = found === undefined ? '' : `: look for ${more ? found[0] : found[1]}`
  return `“${words}” had to go ${more ? 'up' : 'down'} further than is likely${look}.`
}
