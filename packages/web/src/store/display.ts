import { convertConcentration, type Concentration, type ConcentrationUnit } from '@rillmark/casebook/units/quantity.ts'
import type { DisplayUnits } from './preferences.tsx'

/** A number as it is shown: its text, its unit, and both together. */
export interface Shown {
  readonly text: string
  readonly unit: string
  readonly words: string
}

/** US liquid gallon and inch, by definition. @source NIST SP 811 (2008), appendix B.8 (memory) */
const LITRES_PER_GALLON = 3.785411784
const MM_PER_INCH = 25.4

/** A temperature in the preferred unit, with as many decimals as it was given. */
export function showTemperature(celsius: number, units: Pick<DisplayUnits, 'temperature'>): Shown {
  if (units.temperature === '°C') return shown(plain(celsius), '°C')
  return shown(atPrecisionOf(celsius, (celsius * 9) / 5 + 32), '°F')
}

/** A volume in the preferred unit; small ones stay in millilitres, which is what bottles are marked in. */
export function showVolume(litres: number, units: Pick<DisplayUnits, 'volume'>): Shown {
  if (units.volume === 'gal' && litres >= LITRES_PER_GALLON)
    return shown(significant(litres / LITRES_PER_GALLON), 'gal')
  return litres < 1 ? shown(plain(litres * 1000), 'mL') : shown(plain(litres), 'L')
}

/** A pipe size in the preferred unit. */
export function showPipeSize(millimetres: number, units: Pick<DisplayUnits, 'length'>): Shown {
  return units.length === 'mm' ? shown(plain(millimetres), 'mm') : shown(significant(millimetres / MM_PER_INCH), 'in')
}

/** A count per volume in the preferred volume; a swab or another family of count keeps its own unit. */
export function showConcentration(concentration: Concentration, units: Pick<DisplayUnits, 'count'>): Shown {
  const [family, basis] = concentration.unit.split('/')
  if (basis === 'swab') return shown(plain(concentration.value), concentration.unit)
  const wanted = `${family ?? ''}/${units.count.slice('per '.length)}` as ConcentrationUnit
  const converted = convertConcentration(concentration, wanted)
  return converted.kind === 'converted'
    ? shown(plain(converted.value), converted.unit)
    : shown(plain(concentration.value), concentration.unit)
}

function shown(text: string, unit: string): Shown {
  return { text, unit, words: `${text} ${unit}` }
}

/** At most six significant digits, never in powers of ten; a real minus sign. */
function plain(value: number): string {
  return new Intl.NumberFormat('en', { maximumSignificantDigits: 6, useGrouping: false })
    .format(value)
    .replace('-', '−')
}

function significant(value: number): string {
  return new Intl.NumberFormat('en', { maximumSignificantDigits: 3, useGrouping: false })
    .format(value)
    .replace('-', '−')
}

function atPrecisionOf(given: number, value: number): string {
  const decimals = Math.min(3, plain(given).split('.')[1]?.length ?? 0)
  return value.toFixed(decimals).replace('-', '−')
}
