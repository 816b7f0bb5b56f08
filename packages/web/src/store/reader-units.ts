import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'

/** The units a paper is asked for in, as its address takes them; nothing where they are those of the record. */
export function unitsQuery(units: DisplayUnits): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(units).filter(([name, unit]) => METRIC_UNITS[name as keyof DisplayUnits] !== unit),
  )
}

/** The same as an entry keeps them, so that the same bytes can be made again. */
export function unitsKept(units: DisplayUnits): { units?: DisplayUnits } {
  return Object.keys(unitsQuery(units)).length === 0 ? {} : { units: { ...units } }
}
