/** The units each kind of quantity may be shown in; the first is the unit of the record. */
export const UNIT_CHOICES = {
  temperature: ['°C', '°F'],
  volume: ['L', 'US gal'],
  bore: ['mm', 'in'],
  length: ['m', 'ft'],
  mass: ['kg', 'lb'],
  count: ['as reported', 'per mL', 'per 100 mL', 'per L'],
} as const

type Choices = typeof UNIT_CHOICES

/** How one person likes to read quantities. The record never changes with it. Flows follow the volume, differences the temperature. */
export type DisplayUnits = { readonly [K in keyof Choices]: Choices[K][number] }

/** The units of the record, counts as the laboratory reported them. */
export const METRIC_UNITS: DisplayUnits = {
  temperature: '°C',
  volume: 'L',
  bore: 'mm',
  length: 'm',
  mass: 'kg',
  count: 'as reported',
}

export const US_UNITS: DisplayUnits = {
  temperature: '°F',
  volume: 'US gal',
  bore: 'in',
  length: 'ft',
  mass: 'lb',
  count: 'as reported',
}

export const UNIT_SYSTEMS = ['metric', 'us'] as const
export type UnitSystem = (typeof UNIT_SYSTEMS)[number]

/** The units a system by name stands for. */
export const unitsOf = (system: UnitSystem): DisplayUnits => (system === 'us' ? US_UNITS : METRIC_UNITS)

/** The system all units belong to, whatever counts are shown per; undefined for a mixture. */
export function systemOf(units: DisplayUnits): UnitSystem | undefined {
  return UNIT_SYSTEMS.find((system) => {
    const all: DisplayUnits = { ...unitsOf(system), count: units.count }
    return (Object.keys(UNIT_CHOICES) as (keyof DisplayUnits)[]).every((name) => all[name] === units[name])
  })
}

/** Units from outside (kept on a device, asked for in an address): what is none of the choices is the unit of the record. */
export function displayUnitsFrom(given: Readonly<Record<string, unknown>>): DisplayUnits {
  const pick = <K extends keyof DisplayUnits>(name: K): Choices[K][number] => {
    const choices: readonly Choices[K][number][] = UNIT_CHOICES[name]
    return choices.find((choice) => choice === given[name]) ?? METRIC_UNITS[name]
  }
  return {
    temperature: pick('temperature'),
    volume: pick('volume'),
    bore: pick('bore'),
    length: pick('length'),
    mass: pick('mass'),
    count: pick('count'),
  }
}
